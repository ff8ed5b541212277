import type { Block, Inline } from '../document/model.ts';
import { legalRows } from '../graph/legal-rows.ts';
import { compareIds } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';
import { cell, nothing, notice, onLines, orNothing, reference, text } from './cells.ts';
import { type CommonOptions, captionOf, isShown, type View, type ViewContext } from './view.ts';

type Standard = RecordOf<'standard'>;

type Part = 'list' | 'editions';

interface Options extends CommonOptions {
  readonly part?: Part;
}

const listed = (ids: readonly string[]): readonly Inline[] =>
  [...new Set(ids)]
    .sort(compareIds)
    .flatMap((id, index) => [...(index === 0 ? [] : [text(', ')]), reference(id)]);

/** Clauses of law and standards for which it is applied, by the title of the table: `General safety and performance requirements: 10.1`. */
const clausesFor = (
  standard: Standard,
  { graph, clauseTables }: ViewContext,
): readonly (readonly Inline[])[] => {
  const byTable = new Map<string, string[]>();
  for (const row of legalRows(graph))
    if (row.standards.some((each) => each.standard === standard.id)) {
      const clauses = byTable.get(row.table) ?? [];
      clauses.push(row.clause);
      byTable.set(row.table, clauses);
    }
  return [...byTable].map(([table, clauses]) => [
    text(`${clauseTables.inUse(table)?.title ?? table}: ${clauses.join(', ')}`),
  ]);
};

/** Other records that name it by a link: methods, protocols, inputs. */
const otherRecords = (standard: Standard, { graph }: ViewContext): readonly string[] =>
  graph
    .linksTo(standard.id)
    .map((link) => graph.record(link.from))
    .filter(
      (record) => record !== undefined && record.status !== 'retired' && record.type !== 'legal-requirement',
    )
    .map((record) => record?.id ?? '');

const recognitionCell = ({ fields }: Standard): readonly Inline[] =>
  onLines([
    [fields.recognition === undefined ? nothing('not stated') : text(fields.recognition)],
    ...(fields.recognition_checked === undefined
      ? []
      : [[text(`looked up on ${fields.recognition_checked}`)]]),
  ]);

const editionCell = ({ fields }: Standard): readonly Inline[] =>
  onLines([
    [text(fields.edition)],
    ...(fields.superseded_by
      ? [[text(`followed by ${fields.superseded_by.edition}`, { tone: 'caution', bold: true })]]
      : []),
  ]);

const list = (standards: readonly Standard[], options: Options, context: ViewContext): readonly Block[] => [
  {
    kind: 'table',
    ...captionOf(options),
    columns: [
      { title: 'Record', width: 8 },
      { title: 'Standard', width: 28 },
      { title: 'Edition', width: 12 },
      { title: 'Applied', width: 22 },
      { title: 'Recognition', width: 16 },
      { title: 'For clauses', width: 30 },
      { title: 'Other records', width: 18 },
    ],
    rows: standards.map((standard) => {
      const { fields } = standard;
      return {
        recordId: standard.id,
        cells: [
          cell(reference(standard.id)),
          cell(...onLines([[text(fields.designation, { bold: true })], [text(standard.title)]])),
          cell(...editionCell(standard)),
          cell(
            ...onLines([
              [
                fields.extent === undefined
                  ? nothing('not stated')
                  : text(fields.extent === 'full' ? 'in full' : 'in part'),
              ],
              ...(fields.clauses === undefined ? [] : [[text(fields.clauses)]]),
            ]),
          ),
          cell(...recognitionCell(standard)),
          cell(...orNothing(onLines(clausesFor(standard, context)))),
          cell(...orNothing(listed(otherRecords(standard, context)))),
        ],
      };
    }),
    description:
      'Each row is one standard: edition, how far it was applied, its recognition as looked up, and where it was applied.',
  },
];

const actionsOf = ({ fields }: Standard): readonly (readonly Inline[])[] =>
  (fields.gap_analysis?.actions ?? []).map(({ action, due, done }) => [
    text(`${action} ${done === undefined ? `Due on ${due}.` : `Done on ${done}.`}`),
  ]);

/** Standards whose edition has been followed by another, with what that means for this file. */
const editions = (
  standards: readonly Standard[],
  options: Options,
  { asOf }: ViewContext,
): readonly Block[] => {
  const moved = standards.filter(({ fields }) => fields.superseded_by !== undefined);
  if (moved.length === 0)
    return [
      notice('For none of the standards is a later edition entered. Whether there is one must be looked up.'),
    ];
  return [
    {
      kind: 'table',
      ...captionOf(options),
      columns: [
        { title: 'Record', width: 8 },
        { title: 'Edition in this file', width: 20 },
        { title: 'Later edition', width: 24 },
        { title: 'What differs', width: 40 },
        { title: 'Records affected', width: 16 },
        { title: 'Conclusion', width: 26 },
      ],
      rows: moved.map((standard) => {
        const { superseded_by: later, gap_analysis: gap, designation, edition } = standard.fields;
        const until = later?.transition_until;
        return {
          cells: [
            cell(reference(standard.id)),
            cell(text(`${designation}:${edition}`)),
            cell(
              ...onLines([
                [text(`${later?.edition ?? ''}, published or learnt of on ${later?.published ?? ''}`)],
                ...(until === undefined
                  ? []
                  : [
                      [
                        text(
                          `the older one may be used until ${until}`,
                          until < asOf ? { tone: 'bad', bold: true } : {},
                        ),
                      ],
                    ]),
                ...(later?.source === undefined ? [] : [[text(`Source: ${later.source}`)]]),
              ]),
            ),
            cell(gap ? text(gap.differences) : nothing('not analysed')),
            cell(...orNothing(listed(gap?.affected ?? []))),
            cell(
              ...(gap
                ? onLines([
                    [
                      text(
                        gap.conclusion,
                        gap.conclusion === 'work needed' ? { bold: true, tone: 'caution' } : { bold: true },
                      ),
                    ],
                    [text(`${gap.role}, ${gap.date}`)],
                    ...actionsOf(standard),
                  ])
                : [text('gap analysis missing', { bold: true, tone: 'bad' })]),
            ),
          ],
        };
      }),
      description:
        'Each row is one standard of which there is a later edition, with the gap analysis: what differs, which records are affected, and what follows.',
    },
  ];
};

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  const standards = context.graph.recordsOf('standard').filter((standard) => isShown(standard, options));
  if (standards.length === 0) return { blocks: [notice('There are no standards in the list yet.')] };
  return {
    blocks:
      (options.part ?? 'list') === 'list'
        ? list(standards, options, context)
        : editions(standards, options, context),
  };
};

/** The standards applied, with edition, extent and recognition; and what later editions mean. */
export const standardsView: View = { name: 'standards', draw };
