import type { Inline, Row, Tone } from '../document/model.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { nearestName } from '../records/nearest-name.ts';
import type { TechnicalRecord } from '../records/record.ts';
import { cell, nothing, notice, onLines, reference, spanning, text } from './cells.ts';
import { type CommonOptions, captionOf, isShown, type View } from './view.ts';

interface Options extends CommonOptions {
  readonly types?: readonly string[];
  /** A design change, to show what it touches alone. */
  readonly change?: string;
  readonly only?: 'in force' | 'lapsed' | 'missing';
}

/** One approval, or the lack of one. */
interface Line {
  readonly role: string;
  readonly name?: string;
  readonly meaning?: string;
  readonly date?: string;
  readonly state: string;
  readonly changed: readonly string[];
}

const tones: Readonly<Record<string, Tone>> = { 'in force': 'good', lapsed: 'bad', missing: 'caution' };

/** Records by reference; a wording of plinth.yaml has no place to lead to. */
const changedWords = (ids: readonly string[], graph: TraceGraph): readonly Inline[] =>
  onLines(ids.map((id) => [graph.record(id) ? reference(id) : text(id)]));

/** The change, the outputs that it changes and the records that it names as affected; all records without a change. */
const recordsOf = (change: string | undefined, graph: TraceGraph): readonly TechnicalRecord[] | undefined => {
  if (change === undefined) return [...graph.records.values()];
  const fields = graph.recordOf('design-change', change)?.fields;
  if (!fields) return undefined;
  const ids = new Set([change, ...fields.changes.map(({ output }) => output), ...(fields.affected ?? [])]);
  return [...ids].flatMap((id) => graph.record(id) ?? []);
};

const draw: View['draw'] = (body, { graph, approvals }) => {
  const options = body as Options;
  const records = recordsOf(options.change, graph);
  if (!records) {
    const near = nearestName(
      options.change ?? '',
      graph.recordsOf('design-change').map(({ id }) => id),
    );
    return {
      blocks: [],
      problems: [
        {
          path: ['change'],
          message: `there is no design change ${options.change}`,
          hint: near ? `Did you mean "${near}"?` : 'Name a record of type design-change.',
        },
      ],
    };
  }
  const problems = (options.types ?? []).flatMap((type, index) => {
    if (graph.types.has(type)) return [];
    const near = nearestName(type, [...graph.types.keys()]);
    return [
      {
        path: ['types', index],
        message: `there is no record type "${type}"`,
        hint: near ? `Did you mean "${near}"?` : 'Correct the type.',
      },
    ];
  });
  const rows = records.flatMap((record): readonly Row[] => {
    if (!isShown(record, options) || (options.types && !options.types.includes(record.type))) return [];
    const own = approvals.of(record.id);
    const lines: readonly Line[] = [
      ...(own?.states ?? []).map(({ approval, state, changed }) =>
        // Without the earlier ones, what was approved before the work would look as if it had been approved after it.
        state === 'replaced'
          ? { ...approval, state: 'earlier', changed: [] }
          : { ...approval, state, changed },
      ),
      ...(own?.missingRoles ?? []).map((role) => ({
        role,
        state: 'missing',
        changed: [] as readonly string[],
      })),
    ].filter(({ state }) => options.only === undefined || state === options.only);
    return lines.map((line, index) => ({
      ...(index === 0 ? { recordId: record.id } : {}),
      cells: [
        ...(index === 0
          ? [spanning(lines.length, ...onLines([[reference(record.id)], [text(record.title)]]))]
          : []),
        cell(text(line.role)),
        cell(line.name === undefined ? nothing('nobody yet') : text(line.name)),
        cell(line.meaning === undefined ? nothing('–') : text(line.meaning)),
        cell(line.date === undefined ? nothing('–') : text(line.date)),
        cell(
          text(line.state, { bold: true, tone: tones[line.state] ?? 'quiet' }),
          ...(line.changed.length > 0
            ? [{ kind: 'line-break' } as const, text('changed since: '), ...changedWords(line.changed, graph)]
            : []),
        ),
      ],
    }));
  });
  if (rows.length === 0)
    return {
      blocks: [notice(options.only ? `No approval is ${options.only}.` : 'There are no approvals.')],
      problems,
    };
  return {
    blocks: [
      {
        kind: 'table',
        ...captionOf(options),
        columns: [
          { title: 'Record', width: 28 },
          { title: 'Role', width: 15 },
          { title: 'Name', width: 16 },
          { title: 'Meaning', width: 20 },
          { title: 'Date', width: 11 },
          { title: 'State', width: 16 },
        ],
        rows,
        description:
          'Each row is one approval of a record: role, name, meaning, date and whether it is in force, or was followed by a later one of the role.',
      },
    ],
    problems,
  };
};

/** Who approved what, and whether it still holds. */
export const approvalsView: View = { name: 'approvals', draw, namesOnly: true };
