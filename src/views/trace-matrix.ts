import type { Cell, Inline, Row, Table } from '../document/model.ts';
import { compareIds } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';
import {
  cell,
  nothing,
  notice,
  onLines,
  orNothing,
  reference,
  references,
  spanning,
  standingText,
  text,
  verdictText,
} from './cells.ts';
import { fieldValue } from './field-values.ts';
import { type CommonOptions, captionOf, isShown, type View, type ViewContext } from './view.ts';

type ColumnName =
  | 'design-input'
  | 'limits'
  | 'design-output'
  | 'verification-protocol'
  | 'verification-record'
  | 'verdict'
  | 'standing';

interface Options extends CommonOptions {
  readonly columns?: readonly ColumnName[];
}

type Input = RecordOf<'design-input'>;

const titles: Record<ColumnName, { readonly title: string; readonly width: number }> = {
  'design-input': { title: 'Design input', width: 15 },
  limits: { title: 'Limits', width: 22 },
  'design-output': { title: 'Design outputs', width: 10 },
  'verification-protocol': { title: 'Protocol or analysis', width: 17 },
  'verification-record': { title: 'Record', width: 9 },
  verdict: { title: 'Verdict', width: 32 },
  standing: { title: 'Standing', width: 9 },
};

const defaults: readonly ColumnName[] = [
  'design-input',
  'design-output',
  'verification-protocol',
  'verification-record',
  'verdict',
  'standing',
];

/** What verifies an input, one line of the matrix each: a protocol with its records, or an analysis, which is its own record. */
interface Line {
  readonly planned?: readonly Inline[];
  readonly records: readonly string[];
}

const linesOf = (input: Input, { graph }: ViewContext, options: Options): readonly Line[] => {
  const verifiers = [...new Set(graph.linksTo(input.id, 'verifies').map((link) => link.from))]
    .flatMap((id) => graph.record(id) ?? [])
    .filter((record) => isShown(record, options))
    .sort((a, b) => compareIds(a.id, b.id));
  if (verifiers.length === 0) return [{ records: [] }];
  return verifiers.map((record) => ({
    planned: [reference(record.id), text(` ${record.title}`)],
    records:
      record.type === 'analysis'
        ? [record.id]
        : [...new Set(graph.linksTo(record.id, 'reports').map((link) => link.from))].sort(compareIds),
  }));
};

const verdictLines = (line: Line, { evidence, graph }: ViewContext): readonly Inline[] =>
  onLines(
    line.records.map((id) => {
      const result = evidence.get(id);
      const repeated = graph.linksTo(id, 'retests')[0]?.from;
      if (!result) return [nothing('no verdict')];
      return [
        verdictText(result.verdict),
        text(`: ${result.reason}${repeated ? ` (repeated by ${repeated})` : ''}`),
      ];
    }),
  );

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  const { graph, standing } = context;
  const columns = options.columns ?? defaults;
  const needs = graph.recordsOf('user-need').filter((need) => isShown(need, options));
  const inputs = graph.recordsOf('design-input').filter((input) => isShown(input, options));
  if (needs.length === 0 && inputs.length === 0)
    return {
      blocks: [notice('There are no user needs and no design inputs yet.')],
    };
  const rows: Row[] = [];
  const inputCells = (input: Input | undefined, line: Line, isFirst: boolean, span: number): Cell[] =>
    columns.flatMap((column): Cell[] => {
      switch (column) {
        case 'design-input':
          return isFirst
            ? [spanning(span, ...(input ? [reference(input.id), text(` ${input.title}`)] : [nothing()]))]
            : [];
        case 'limits':
          return isFirst
            ? [spanning(span, ...(input ? fieldValue(input, graph, 'limits') : [nothing()]))]
            : [];
        case 'design-output':
          return isFirst
            ? [
                spanning(
                  span,
                  ...orNothing(
                    input
                      ? references(
                          graph.sources(input.id, 'satisfies', 'design-output').map((output) => output.id),
                        )
                      : [],
                  ),
                ),
              ]
            : [];
        case 'standing':
          return isFirst
            ? [spanning(span, input ? standingText(standing.get(input.id)?.state ?? 'unplanned') : nothing())]
            : [];
        case 'verification-protocol':
          return [cell(...(line.planned ?? [nothing()]))];
        case 'verification-record':
          return [cell(...orNothing(references(line.records)))];
        case 'verdict':
          return [cell(...orNothing(verdictLines(line, context), 'not yet'))];
        default:
          return column satisfies never;
      }
    });
  const addGroup = (
    first: readonly Inline[],
    members: readonly (Input | undefined)[],
    recordId?: string,
  ): void => {
    const blocks = members.map((input) => ({
      input,
      lines: input ? linesOf(input, context, options) : [{ records: [] }],
    }));
    const total = blocks.reduce((sum, block) => sum + block.lines.length, 0);
    let isGroupStart = true;
    for (const { input, lines } of blocks)
      for (const [index, line] of lines.entries()) {
        rows.push({
          cells: [
            ...(isGroupStart ? [spanning(total, ...first)] : []),
            ...inputCells(input, line, index === 0, lines.length),
          ],
          ...(isGroupStart && recordId ? { recordId } : {}),
        });
        isGroupStart = false;
      }
  };
  for (const need of needs) {
    const own = inputs.filter((input) =>
      graph.linksFrom(input.id, 'derives_from').some((link) => link.to === need.id),
    );
    addGroup([reference(need.id), text(` ${need.title}`)], own.length > 0 ? own : [undefined], need.id);
  }
  const others = inputs.filter(
    (input) =>
      !graph.linksFrom(input.id, 'derives_from').some((link) => graph.record(link.to)?.type === 'user-need'),
  );
  if (others.length > 0) addGroup([text('Other sources: risks, controls, standards, law')], others);
  const table: Table = {
    kind: 'table',
    ...captionOf(options),
    columns: [{ title: 'User need', width: 15 }, ...columns.map((column) => titles[column])],
    rows,
    description:
      'Each row follows one user need to a design input, the outputs that satisfy it, the protocol that verifies it, the record and its verdict.',
  };
  return { blocks: [table] };
};

export const traceMatrix: View = { name: 'trace-matrix', draw };
