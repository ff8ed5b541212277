import type { TechnicalRecord } from './record.ts';
import type { SchemaFault } from './schema-messages.ts';
import type { RecordType } from './schema-set.ts';

/**
 * A record without the faulty rows of its lists, so that one slip in one row does not leave the others unjudged.
 * Undefined where something else is wrong too, or where the record does not meet its schema without them. Places are
 * those of the rows as they stand in the file.
 */
export const withoutFaultyRows = (
  record: TechnicalRecord,
  faults: readonly SchemaFault[],
  type: RecordType,
): TechnicalRecord | undefined => {
  const faulty = new Map<string, Set<number>>();
  for (const { path } of faults) {
    const [list, index] = path;
    if (typeof list !== 'string' || typeof index !== 'number' || !type.rows.includes(list)) return undefined;
    faulty.set(list, (faulty.get(list) ?? new Set()).add(index));
  }
  /** Indices of the rows that are kept, by the name of the list. */
  const kept = new Map<string, readonly number[]>();
  const fields: Record<string, unknown> = { ...record.fields };
  for (const [list, out] of faulty) {
    const rows = record.fields[list] as readonly unknown[];
    const indices = [...rows.keys()].filter((index) => !out.has(index));
    kept.set(list, indices);
    if (indices.length > 0) fields[list] = indices.map((index) => rows[index]);
    else delete fields[list];
  }
  if (!type.validate(fields)) return undefined;
  const inFile = (path: readonly (string | number)[]): readonly (string | number)[] => {
    const [list, index, ...rest] = path;
    const indices = kept.get(String(list));
    return list === undefined || typeof index !== 'number' || !indices
      ? path
      : [list, indices[index] ?? index, ...rest];
  };
  const { yaml } = record;
  return {
    ...record,
    sound: true,
    fields,
    yaml: {
      value: yaml.value,
      problems: yaml.problems,
      place: (path, of) => yaml.place(inFile(path), of),
      written: (path) => yaml.written(inFile(path)),
    },
  };
};
