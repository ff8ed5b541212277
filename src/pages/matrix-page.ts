import type { GridRow, SiteInline, SitePage } from '../document/site.ts';
import { compareIds } from '../graph/trace-graph.ts';
import type { RecordOf, TechnicalRecord } from '../records/record.ts';
import { orNothing, text } from '../views/cells.ts';
import { fieldValue } from '../views/field-values.ts';
import { idAndTitle, mark, pageLink, type SiteContext } from './site-context.ts';

type Input = RecordOf<'design-input'>;

const idsOf = (ids: readonly string[]): readonly SiteInline[] =>
  orNothing(
    ids.flatMap((id, index) => [
      ...(index === 0 ? [] : [text(' ')]),
      { kind: 'record-reference', id } as const,
    ]),
    '–',
  );

/** What verifies an input: a protocol with one of its records, or an analysis, which is its own record. */
interface Line {
  readonly planned?: TechnicalRecord;
  readonly result?: TechnicalRecord;
}

const linesOf = (input: Input, { graph }: SiteContext): readonly Line[] => {
  const verifiers = [...new Set(graph.linksTo(input.id, 'verifies').map((link) => link.from))]
    .flatMap((id) => graph.record(id) ?? [])
    .filter((record) => record.status !== 'retired')
    .sort((a, b) => compareIds(a.id, b.id));
  const lines = verifiers.flatMap((planned): readonly Line[] => {
    if (planned.type === 'analysis') return [{ planned, result: planned }];
    const results = [...new Set(graph.linksTo(planned.id, 'reports').map((link) => link.from))]
      .sort(compareIds)
      .flatMap((id) => graph.record(id) ?? [])
      .filter((record) => record.status !== 'retired');
    return results.length === 0 ? [{ planned }] : results.map((result) => ({ planned, result }));
  });
  return lines.length === 0 ? [{}] : lines;
};

const stateOf = (id: string | undefined, { standing }: SiteContext): readonly SiteInline[] =>
  id === undefined ? [text('–')] : [mark(standing.get(id)?.state ?? 'unplanned')];

/** One row for each way from a need, or another source, over an input to a result. */
export const matrixPage = (context: SiteContext): SitePage => {
  const { graph, evidence, raw } = context;
  const live = <T extends TechnicalRecord>(list: readonly T[]): readonly T[] =>
    list.filter((record) => record.status !== 'retired');
  const needs = live(graph.recordsOf('user-need'));
  const inputs = live(graph.recordsOf('design-input'));
  const needsOf = (input: Input): readonly TechnicalRecord[] =>
    [...new Set(graph.linksFrom(input.id, 'derives_from').map((link) => link.to))]
      .flatMap((id) => graph.record(id) ?? [])
      .filter((record) => record.type === 'user-need' && record.status !== 'retired');
  const ofNeed = new Map<string, Input[]>();
  const others: Input[] = [];
  for (const input of inputs) {
    const own = needsOf(input);
    if (own.length === 0) others.push(input);
    for (const need of own) {
      const known = ofNeed.get(need.id);
      if (known) known.push(input);
      else ofNeed.set(need.id, [input]);
    }
  }
  const row = (need: TechnicalRecord | undefined, input: Input | undefined, line: Line): GridRow => {
    const { planned, result } = line;
    const found = result && evidence.get(result.id);
    const repeated = result && graph.linksTo(result.id, 'retests')[0]?.from;
    const file = found?.dataFile === undefined ? undefined : raw.get(found.dataFile);
    return {
      cells: [
        need ? idAndTitle(need) : [text('Other sources')],
        stateOf(need?.id, context),
        input ? idAndTitle(input) : [text('no design input')],
        input
          ? idsOf(
              graph
                .linksFrom(input.id, 'derives_from')
                .map((link) => link.to)
                .filter((id) => graph.record(id)?.type !== 'user-need'),
            )
          : [text('–')],
        input ? orNothing(fieldValue(input, graph, 'limits'), '–') : [text('–')],
        stateOf(input?.id, context),
        input
          ? idsOf(graph.sources(input.id, 'satisfies', 'design-output').map((output) => output.id))
          : [text('–')],
        planned ? idAndTitle(planned) : [text(input ? 'not planned' : '–')],
        result ? [{ kind: 'record-reference', id: result.id }] : [text(planned ? 'not carried out' : '–')],
        found ? [mark(found.verdict)] : [text(result ? 'no verdict' : '–')],
        [
          text(found?.reason ?? '–'),
          ...(repeated === undefined
            ? []
            : [text('; repeated by '), { kind: 'record-reference', id: repeated } as const]),
        ],
        file ? [pageLink(file.pagePath, text(file.file.split('/').at(-1) ?? file.file))] : [text('–')],
      ],
    };
  };
  const rowsFor = (need: TechnicalRecord | undefined, input: Input): readonly GridRow[] =>
    linesOf(input, context).map((line) => row(need, input, line));
  return {
    path: 'matrix.html',
    title: 'Trace matrix',
    under: 'matrix.html',
    parts: [
      {
        kind: 'words',
        look: 'lead',
        children: [
          text(
            'From each user need to the design inputs that answer it, what verifies them, and what the raw data say. Inputs that come from risks, standards or law stand at the end.',
          ),
        ],
      },
      {
        kind: 'grid',
        id: 'matrix',
        caption: 'From need to measurement',
        whenEmpty: 'There are no user needs and no design inputs yet.',
        columns: [
          { title: 'User need', width: 18, groups: true },
          { title: 'Need stands', width: 10, isChoice: true, isHidden: true },
          { title: 'Design input', width: 18, groups: true },
          { title: 'Other sources', width: 10, isHidden: true },
          { title: 'Limits', width: 22, groups: true },
          { title: 'Input stands', width: 11, isChoice: true, isSpare: true },
          { title: 'Outputs', width: 9, groups: true, isSpare: true },
          { title: 'Protocol or analysis', width: 18 },
          { title: 'Record', width: 9 },
          { title: 'Verdict', width: 10, isChoice: true },
          { title: 'Why', width: 28, isHidden: true },
          { title: 'Raw data', width: 10 },
        ],
        rows: [
          ...needs.flatMap((need) => {
            const own = ofNeed.get(need.id) ?? [];
            return own.length === 0
              ? [row(need, undefined, {})]
              : own.flatMap((input) => rowsFor(need, input));
          }),
          ...others.flatMap((input) => rowsFor(undefined, input)),
        ],
      },
    ],
  };
};
