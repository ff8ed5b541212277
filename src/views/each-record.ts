import type { TraceGraph } from '../graph/trace-graph.ts';
import type { RecordOf, TechnicalRecord } from '../records/record.ts';

/** Records for which a document is written once each; undefined where it has no `for_each`, and the type that is not known. */
export const recordsForEach = (
  { fields: { for_each } }: RecordOf<'document'>,
  graph: TraceGraph,
): readonly TechnicalRecord[] | undefined =>
  for_each &&
  [...graph.records.values()].filter(
    (record) =>
      record.type === for_each.type &&
      record.sound &&
      (for_each.status
        ? (for_each.status as readonly string[]).includes(record.status)
        : record.status !== 'retired'),
  );

/** The word that stands for the record of the document at hand, alone or before a slash and the name of a field. */
const pattern = /^each(?:\/([a-z][a-z0-9_]*))?$/;

/** Whether the label of an inline value is about the record of the document at hand: `each`, or `each/mean`. */
export const namesEach = (label: string): boolean => /^\s*each\s*(?:\/|$)/.test(label);

/** Ids that `each` or `each/FIELD` stands for; undefined where a text is neither. */
const idsFor = (text: string, each: TechnicalRecord, graph: TraceGraph): readonly string[] | undefined => {
  const found = pattern.exec(text.trim());
  if (!found) return undefined;
  const [, field] = found;
  return field === undefined
    ? [each.id]
    : [...new Set(graph.linksFrom(each.id, field).map((link) => link.to))];
};

/**
 * The body of a view block with the ids of the record of this document in the place of `each`. In a list every id of a
 * field is put in; elsewhere a field that names several gives the first.
 */
export const withEach = (value: unknown, each: TechnicalRecord, graph: TraceGraph): unknown => {
  if (typeof value === 'string') return idsFor(value, each, graph)?.[0] ?? value;
  if (Array.isArray(value))
    return value.flatMap((item: unknown): readonly unknown[] =>
      typeof item === 'string' ? (idsFor(item, each, graph) ?? [item]) : [withEach(item, each, graph)],
    );
  if (value !== null && typeof value === 'object')
    return Object.fromEntries(
      Object.entries(value).map(([key, inner]) => [key, withEach(inner, each, graph)]),
    );
  return value;
};
