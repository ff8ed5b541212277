import type { Place } from '../findings/finding.ts';
import type { PlinthFields } from './fields.ts';
import type { ParsedYaml } from './front-matter.ts';
import { placeOf, type RecordOf } from './record.ts';

export const projectFile = 'plinth.yaml';

/** plinth.yaml as read: the fields, and where each of them stands. */
export interface Project {
  /** Where a risk plan sets criteria and sampling policy, `risk` and `sampling_policy` are those of the plan. */
  readonly fields: PlinthFields;
  readonly yaml: ParsedYaml;
  /**
   * Fields that are written and could not be read, by their path (`phrases.shelf_life`); an empty path where nothing of
   * the file could be read. What seems to be missing there is unknown.
   */
  readonly unread?: readonly (readonly string[])[];
  /** The risk management plan whose criteria are in force. */
  readonly riskPlan?: RecordOf<'risk-plan'>;
}

/** A path under `risk` or `sampling_policy` of the fields, and the file in which it is written. */
export interface CriteriaOrigin {
  readonly place: Place;
  /** Name of that file for messages: the id of the plan, or plinth.yaml. */
  readonly owner: string;
  readonly records: readonly string[];
}

/** Where the criteria or the sampling policy in force are written: in the risk management plan, or in plinth.yaml. */
export const criteriaOrigin = (
  { fields, yaml, riskPlan }: Project,
  path: readonly (string | number)[],
): CriteriaOrigin => {
  const [first, ...rest] = path;
  const inPlan =
    riskPlan !== undefined &&
    (first === 'risk' || riskPlan.fields.sampling_policy === fields.sampling_policy);
  return inPlan
    ? {
        place: placeOf(riskPlan, ...(first === 'risk' ? ['criteria', ...rest] : path)),
        owner: riskPlan.id,
        records: [riskPlan.id],
      }
    : { place: yaml.place(path), owner: projectFile, records: [] };
};
