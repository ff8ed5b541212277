import { nearestName } from '../records/nearest-name.ts';
import type { TechnicalRecord } from '../records/record.ts';
import type { ViewContext } from './view.ts';

/** Whether a condition holds, or why it means nothing. */
export type ConditionOutcome =
  | { readonly holds: boolean }
  | { readonly message: string; readonly hint: string };

const statuses = ['draft', 'in review', 'approved', 'retired'];

const unknown = (what: string, name: string, known: readonly string[]): ConditionOutcome => {
  const near = nearestName(name, known);
  return {
    message: `${what} "${name}"`,
    hint: near ? `Did you mean "${near}"?` : `Use one of: ${known.join(', ')}.`,
  };
};

const isFilled = (value: unknown): boolean =>
  value !== undefined && value !== null && value !== '' && !(Array.isArray(value) && value.length === 0);

/**
 * The condition of `:::when{...}`: `records=TYPE` holds where there are records of a type, not retired or with
 * `status="approved"`; `each=FIELD` where the record that the document is written for states that field.
 */
export const conditionOutcome = (
  attributes: Readonly<Record<string, string>>,
  { graph, each }: Pick<ViewContext, 'graph' | 'each'>,
): ConditionOutcome => {
  const { records, status, each: field, ...others } = attributes;
  const [other] = Object.keys(others);
  if (other !== undefined) return unknown('a condition has no', other, ['records', 'status', 'each']);
  if (records !== undefined && field === undefined) {
    if (!graph.types.has(records)) return unknown('unknown record type', records, [...graph.types.keys()]);
    if (status !== undefined && !statuses.includes(status))
      return unknown('unknown status', status, statuses);
    const counts = (record: TechnicalRecord): boolean =>
      record.type === records &&
      (status === undefined ? record.status !== 'retired' : record.status === status);
    return { holds: [...graph.records.values()].some(counts) };
  }
  if (field !== undefined && records === undefined && status === undefined) {
    if (!each)
      return {
        message: 'this document is not written for each record of a type',
        hint: 'Add "for_each" to its front matter, or ask for records=TYPE.',
      };
    const fields = graph.types.get(each.type)?.fields ?? [];
    if (!fields.includes(field)) return unknown(`a ${each.type} has no field`, field, fields);
    return { holds: isFilled(each.fields[field]) };
  }
  return {
    message: 'the condition names neither records nor a field of each',
    hint: 'Write :::when{records=field-data}, with status="approved" if you like, or :::when{each=exclusions}.',
  };
};
