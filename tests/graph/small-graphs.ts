import { buildGraph, type TraceGraph } from '../../src/graph/trace-graph.ts';
import { parseYaml } from '../../src/records/front-matter.ts';
import type { TechnicalRecord } from '../../src/records/record.ts';
import type { RecordType, StandingRule } from '../../src/records/schema-set.ts';

/** A record without a file: what the graph needs of it. */
export interface Node {
  readonly id: string;
  readonly type: string;
  readonly status?: string;
  /** Targets by name of the link. */
  readonly links?: Readonly<Record<string, readonly string[]>>;
  readonly fields?: Readonly<Record<string, unknown>>;
  readonly body?: string;
}

const empty = parseYaml('x.md', '', 2);

export const recordOf = ({
  id,
  type,
  status = 'draft',
  links = {},
  fields = {},
  body = '',
}: Node): TechnicalRecord => ({
  id,
  type,
  title: id,
  status,
  file: `${id}.md`,
  sound: true,
  fields: { id, type, title: id, status, ...fields },
  links: Object.entries(links).flatMap(([field, targets]) =>
    targets.map((to, index) => ({
      from: id,
      to,
      field,
      path: [field, index],
      relation: field,
      inverse: field,
      allowed: ['*'],
      relies: true,
    })),
  ),
  body,
  bodyLine: 5,
  yaml: empty,
});

export const typeOf = (type: string, standing?: StandingRule): RecordType => ({
  type,
  prefix: type.toUpperCase(),
  order: 0,
  title: type,
  plural: type,
  description: '',
  headings: [],
  ...(standing ? { standing } : {}),
  links: [],
  fields: [],
  informative: new Set(['status', 'approvals']),
  rows: [],
  validate: () => true,
  fieldsAt: () => [],
  schema: {},
});

export const graphOf = (nodes: readonly Node[], types: readonly RecordType[] = []): TraceGraph =>
  buildGraph(nodes.map(recordOf), new Map(types.map((type) => [type.type, type])));

/** A chain of records, each linked to the next one by `up`. */
export const chain = (length: number, type = 'n'): readonly Node[] =>
  Array.from({ length }, (_, index) => ({
    id: `N-${index}`,
    type,
    links: index + 1 < length ? { up: [`N-${index + 1}`] } : {},
  }));
