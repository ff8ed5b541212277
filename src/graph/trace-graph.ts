import type { FieldsByType } from '../records/fields.ts';
import { isOfType, type RecordOf, type TechnicalRecord, type WrittenLink } from '../records/record.ts';
import type { RecordType } from '../records/schema-set.ts';

/** A link both of whose ends exist. */
export type Link = WrittenLink;

/** Records and the links between them, readable from both ends. Order is that of the files, so all walks repeat. */
export interface TraceGraph {
  readonly types: ReadonlyMap<string, RecordType>;
  readonly records: ReadonlyMap<string, TechnicalRecord>;
  /** Links whose target is missing: the business of a check. */
  readonly dangling: readonly WrittenLink[];
  record(id: string): TechnicalRecord | undefined;
  /** Sound records of one type, in order of id. */
  recordsOf<T extends keyof FieldsByType>(type: T): readonly RecordOf<T>[];
  recordOf<T extends keyof FieldsByType>(type: T, id: string): RecordOf<T> | undefined;
  linksFrom(id: string, field?: string): readonly Link[];
  linksTo(id: string, field?: string): readonly Link[];
  /** Sound, not retired records at the other end of links into `id`. */
  sources<T extends keyof FieldsByType>(id: string, field: string, type: T): readonly RecordOf<T>[];
  /** Sound records at the other end of links out of `id`. */
  targets<T extends keyof FieldsByType>(id: string, field: string, type: T): readonly RecordOf<T>[];
}

/** Order of ids as people count: DI-2 before DI-10, VP-09 before VP-09A. */
export const compareIds = (a: string, b: string): number => {
  const parts = (id: string): (string | number)[] =>
    id.split(/(\d+)/).map((part, index) => (index % 2 === 1 ? Number(part) : part));
  const left = parts(a);
  const right = parts(b);
  // Words and numbers take turns in both, so like is compared with like.
  for (let index = 0; index < Math.min(left.length, right.length); index += 1) {
    const x = left[index] ?? '';
    const y = right[index] ?? '';
    if (x !== y) return x < y ? -1 : 1;
  }
  return left.length - right.length || (a < b ? -1 : a > b ? 1 : 0);
};

export const buildGraph = (
  list: readonly TechnicalRecord[],
  types: ReadonlyMap<string, RecordType>,
): TraceGraph => {
  const ordered = [...list].sort((a, b) => compareIds(a.id, b.id));
  const records = new Map(ordered.map((record) => [record.id, record]));
  const outgoing = new Map<string, Link[]>();
  const incoming = new Map<string, Link[]>();
  const dangling: WrittenLink[] = [];
  const add = (map: Map<string, Link[]>, key: string, link: Link): void => {
    const known = map.get(key);
    if (known) known.push(link);
    else map.set(key, [link]);
  };
  for (const record of ordered)
    for (const link of record.links) {
      if (!records.has(link.to)) {
        dangling.push(link);
        continue;
      }
      add(outgoing, link.from, link);
      add(incoming, link.to, link);
    }
  const byType = new Map<string, TechnicalRecord[]>();
  for (const record of ordered) {
    const judged = judgedPart(record);
    if (!judged) continue;
    const known = byType.get(record.type);
    if (known) known.push(judged);
    else byType.set(record.type, [judged]);
  }
  const pick = (links: readonly Link[] | undefined, field: string | undefined): readonly Link[] =>
    field === undefined ? (links ?? []) : (links ?? []).filter((link) => link.field === field);
  const graph: TraceGraph = {
    types,
    records,
    dangling,
    record: (id) => records.get(id),
    recordsOf: (type) => (byType.get(type) ?? []) as never,
    recordOf: (type, id) => {
      const record = judgedPart(records.get(id));
      return record && isOfType(record, type) ? record : undefined;
    },
    linksFrom: (id, field) => pick(outgoing.get(id), field),
    linksTo: (id, field) => pick(incoming.get(id), field),
    sources: (id, field, type) =>
      unique(graph.linksTo(id, field).map((link) => link.from))
        .flatMap((from) => graph.recordOf(type, from) ?? [])
        .filter((record) => record.status !== 'retired'),
    targets: (id, field, type) =>
      unique(graph.linksFrom(id, field).map((link) => link.to)).flatMap(
        (to) => graph.recordOf(type, to) ?? [],
      ),
  };
  return graph;
};

/** The record, or as much of it as meets its schema; undefined where none of it can be judged. */
const judgedPart = (record: TechnicalRecord | undefined): TechnicalRecord | undefined =>
  record?.sound ? record : record?.soundPart;

const unique = (ids: readonly string[]): readonly string[] => [...new Set(ids)];
