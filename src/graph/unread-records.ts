import type { TraceGraph } from './trace-graph.ts';

/** Something that is there and cannot be judged: a record that does not meet its schema, or a file that gave none. */
export interface UnreadRecord {
  readonly id: string;
  readonly type: string;
  readonly file: string;
  /** Ids that it may name. */
  readonly names: readonly string[];
}

/** A Markdown file in which no record could be read. */
export interface UnreadFile {
  readonly path: string;
  readonly text: string;
}

const idPattern = /\b[A-Z]{2,5}-[A-Z0-9][A-Za-z0-9-]{0,40}/g;

/**
 * Records that cannot be judged at all. Of a file in which none could be read, the id is taken from its name, as is
 * usual, and the type from the prefix; what it links is among the ids in its text.
 */
export const unreadRecords = (graph: TraceGraph, files: readonly UnreadFile[]): readonly UnreadRecord[] => [
  ...[...graph.records.values()]
    .filter((record) => !record.sound && !record.soundPart)
    .map(({ id, type, file, links }) => ({ id, type, file, names: links.map((link) => link.to) })),
  ...files.flatMap(({ path, text }): readonly UnreadRecord[] => {
    const id = path.slice(path.lastIndexOf('/') + 1).replace(/\.md$/i, '');
    const type = [...graph.types.values()].find((each) => id.startsWith(`${each.prefix}-`))?.type;
    return type === undefined || graph.record(id)
      ? []
      : [{ id, type, file: path, names: text.match(idPattern) ?? [] }];
  }),
];

/**
 * Records about which something may seem to be missing only because others cannot be read: those that an unread record
 * of the types names, those that name it, and so on over records of these types.
 */
export const awaiting = (
  graph: TraceGraph,
  unread: readonly UnreadRecord[],
  types: ReadonlySet<string>,
): ReadonlySet<string> => {
  const isOfTypes = (id: string): boolean => types.has(graph.record(id)?.type ?? '');
  const linking = (id: string): readonly string[] => [
    ...graph.linksTo(id).map((link) => link.from),
    ...graph.dangling.filter((link) => link.to === id).map((link) => link.from),
  ];
  const missed = unread.filter((each) => types.has(each.type));
  const reached = new Set<string>(missed.map((each) => each.id));
  const queue: string[] = [];
  const add = (id: string): void => {
    if (reached.has(id)) return;
    reached.add(id);
    if (isOfTypes(id)) queue.push(id);
  };
  for (const { id, names } of missed) {
    for (const name of names) add(name);
    for (const from of linking(id)) add(from);
  }
  for (let at = 0; at < queue.length; at += 1)
    for (const { to } of graph.linksFrom(queue[at] as string)) add(to);
  // Whoever relies on what is in doubt, such as a claim on a result.
  const doubtful = [...reached].filter((id) => isOfTypes(id) || missed.some((each) => each.id === id));
  return new Set([...reached, ...doubtful.flatMap(linking)]);
};
