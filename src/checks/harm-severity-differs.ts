import { plainTerm, severityOfHarm } from '../evidence/risk-vocabulary.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

const live = ({ graph }: CheckContext): readonly RecordOf<'risk'>[] =>
  graph.recordsOf('risk').filter((risk) => risk.status !== 'retired');

const hasReason = ({ fields }: RecordOf<'risk'>): boolean => (fields.severity_reason ?? '').trim() !== '';

export const harmSeverityDiffers = defineCheck({
  code: 'harm-severity-differs',
  level: 'warning',
  title: 'The same harm has two severities',
  basis: 'common practice, no source',
  explain:
    'Severity belongs to the harm. Here one harm has another severity than the vocabulary of the risk management plan gives it, or than another risk gives to the same harm, and no `severity_reason` says why.\n\nThe severity decides how probable the harm may be, and how many units are tested. The lower of two severities is the one that a reader will doubt.\n\nAgree on one severity. Where the harm really is graver or slighter in this situation, say why under `severity_reason`, or give the harm another name.',
  examines: 'risks',
  subjects: live,
  judge: (risk, context) => {
    if (hasReason(risk)) return [];
    const { harm, severity } = risk.fields;
    const plan = context.project.riskPlan;
    const listed = severityOfHarm(plan?.fields.vocabulary, harm);
    if (listed !== undefined && plan)
      return listed === severity
        ? []
        : [
            {
              place: placeOf(risk, 'severity'),
              message: `${risk.id} has the severity ${severity} for "${harm}", ${plan.id} gives that harm ${listed}`,
              hint: 'Agree on one severity, or add "severity_reason".',
              records: [risk.id, plan.id],
              related: [{ place: placeOf(plan, 'vocabulary'), message: `the vocabulary of ${plan.id}` }],
            },
          ];
    const first = live(context).find(
      (other) => !hasReason(other) && plainTerm(other.fields.harm) === plainTerm(harm),
    );
    if (!first || first.id === risk.id || first.fields.severity === severity) return [];
    return [
      {
        place: placeOf(risk, 'severity'),
        message: `${risk.id} has the severity ${severity} for "${harm}", ${first.id} has ${first.fields.severity} for the same harm`,
        hint: 'Agree on one severity, or add "severity_reason" to the one that differs.',
        records: [risk.id, first.id],
        related: [{ place: placeOf(first, 'severity'), message: `the severity in ${first.id}` }],
      },
    ];
  },
});
