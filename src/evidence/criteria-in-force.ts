import type { TraceGraph } from '../graph/trace-graph.ts';
import type { Project } from '../records/project.ts';
import { isOfType, type RecordOf, type TechnicalRecord } from '../records/record.ts';

/** Risk management plans that are not retired, the one in force first: an approved one goes before a draft. */
export const currentRiskPlans = (records: Iterable<TechnicalRecord>): readonly RecordOf<'risk-plan'>[] => {
  const plans = [...records].flatMap((record) =>
    isOfType(record, 'risk-plan') && record.status !== 'retired' ? [record] : [],
  );
  const rank = ({ status }: TechnicalRecord): number => (status === 'approved' ? 0 : 1);
  return plans.sort((a, b) => rank(a) - rank(b) || (a.id < b.id ? -1 : 1));
};

/**
 * The project with the criteria and the sampling policy of the risk management plan in the place of those of
 * plinth.yaml. Without a plan it stays as it is; a plan without a sampling policy leaves that of plinth.yaml.
 */
export const withCriteriaInForce = (project: Project, records: Iterable<TechnicalRecord>): Project => {
  const [plan] = currentRiskPlans(records);
  if (!plan) return project;
  const { criteria, sampling_policy } = plan.fields;
  return {
    ...project,
    fields: { ...project.fields, risk: criteria, ...(sampling_policy ? { sampling_policy } : {}) },
    riskPlan: plan,
  };
};

/**
 * Whether the file has a risk management plan that could not be read, or names one that is not there. That has been
 * reported as such, so the criteria are not missing besides.
 */
export const hasUnreadRiskPlan = ({ records, types, dangling }: TraceGraph): boolean =>
  [...records.values()].some(
    ({ id, type, sound }) =>
      !sound && (type === 'risk-plan' || id.startsWith(`${types.get('risk-plan')?.prefix}-`)),
  ) || dangling.some(({ allowed }) => allowed.includes('risk-plan'));
