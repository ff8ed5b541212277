import type { Block, Heading, Inline, Row } from '../document/model.ts';
import { repetitionsOf, testsAtRevision } from '../graph/tested-revisions.ts';
import { nearestName } from '../records/nearest-name.ts';
import type { RecordOf } from '../records/record.ts';
import {
  cell,
  nothing,
  notice,
  onLines,
  orNothing,
  reference,
  references,
  standingText,
  text,
  verdictText,
} from './cells.ts';
import type { View, ViewContext } from './view.ts';

type Change = RecordOf<'design-change'>;

const heading = (change: Change, { enclosingLevel }: ViewContext): Heading => ({
  kind: 'heading',
  level: Math.min(enclosingLevel + 1, 6) as Heading['level'],
  children: [text(`${change.id} ${change.title}`)],
  recordId: change.id,
});

/** Results on the revision before the change: those with a decision, in its order, then those without. */
const resultIds = ({ fields }: Change, { graph }: ViewContext): readonly string[] => [
  ...new Set([
    ...(fields.decisions ?? []).map(({ record }) => record),
    ...fields.changes.flatMap(({ output, from }) =>
      testsAtRevision(graph, output, from)
        .filter(({ fields: { executed } }) => executed.from <= fields.date)
        .map(({ id }) => id),
    ),
  ]),
];

const resultRow = (change: Change, id: string, { graph, evidence }: ViewContext): Row => {
  const record = graph.record(id);
  const decision = change.fields.decisions?.find((each) => each.record === id);
  const verdict = evidence.get(id)?.verdict;
  const repetitions =
    record?.type === 'verification-record' || record?.type === 'validation-record'
      ? repetitionsOf(graph, record as RecordOf<'verification-record'>)
      : [];
  const came = repetitions.map((each): readonly Inline[] => {
    const found = evidence.get(each.id)?.verdict;
    return [reference(each.id), text(': '), found ? verdictText(found) : nothing('no verdict')];
  });
  return {
    cells: [
      cell(...onLines([[reference(id)], [text(record?.title ?? '')]])),
      cell(verdict ? verdictText(verdict) : nothing('no verdict')),
      cell(
        decision ? text(decision.decision, { bold: true }) : text('no decision', { bold: true, tone: 'bad' }),
      ),
      cell(decision ? text(decision.reason) : nothing('–')),
      cell(
        ...(came.length > 0
          ? onLines(came)
          : decision?.decision === 'repeat'
            ? [text('not repeated yet', { tone: 'bad' })]
            : [nothing('not repeated')]),
      ),
    ],
  };
};

const changeBlocks = (change: Change, context: ViewContext): readonly Block[] => {
  const { graph, standing } = context;
  const { fields } = change;
  const results = resultIds(change, context);
  const affected = fields.affected ?? [];
  return [
    heading(change, context),
    {
      kind: 'particulars',
      entries: [
        { name: 'Decided on', value: [text(fields.date)] },
        {
          name: 'Changes',
          value: onLines(
            fields.changes.map(({ output, from, to }) => [
              reference(output),
              text(` ${graph.record(output)?.title ?? ''}, revision ${from} to ${to}`),
            ]),
          ),
        },
        { name: 'Significance', value: [text(fields.significance)] },
      ],
    },
    ...context.bodyOf(change, Math.min(context.enclosingLevel + 2, 6)),
    ...(results.length === 0
      ? [notice('No result on the revision before the change is known.')]
      : [
          {
            kind: 'table' as const,
            caption: `Results before ${change.id}, and what was decided on them`,
            columns: [
              { title: 'Result', width: 20 },
              { title: 'Verdict', width: 10 },
              { title: 'Decision', width: 11 },
              { title: 'Reason', width: 42 },
              { title: 'Repetition', width: 15 },
            ],
            rows: results.map((id) => resultRow(change, id, context)),
            description:
              'Each row is a result on the revision before the change, with the decision on it, its reason, and the result of a repetition.',
          },
        ]),
    ...(affected.length === 0
      ? [notice(`${change.id} names no record that it affects.`)]
      : [
          {
            kind: 'table' as const,
            caption: `Records that ${change.id} affects, and how they stand`,
            columns: [
              { title: 'Record', width: 40 },
              { title: 'Kind', width: 24 },
              { title: 'Standing', width: 14 },
              { title: 'Answers to', width: 20 },
            ],
            rows: affected.map((id): Row => {
              const record = graph.record(id);
              const state = standing.get(id)?.state;
              const above = ['verifies', 'satisfies', 'derives_from', 'controls'].flatMap((link) =>
                graph.linksFrom(id, link).map(({ to }) => to),
              );
              return {
                cells: [
                  cell(...onLines([[reference(id)], [text(record?.title ?? '')]])),
                  cell(text(record ? (graph.types.get(record.type)?.title ?? record.type) : 'not known')),
                  cell(state ? standingText(state) : nothing('–')),
                  cell(...orNothing(references([...new Set(above)]), '–')),
                ],
              };
            }),
            description: 'Each row is a record that the change affects, with how far it is shown today.',
          },
        ]),
  ];
};

const draw: View['draw'] = (body, context) => {
  const { change: wanted } = body as { readonly change?: string };
  const all = context.graph.recordsOf('design-change');
  const changes = all.filter(({ id, status }) =>
    wanted === undefined ? status !== 'retired' : id === wanted,
  );
  if (changes.length === 0 && wanted !== undefined) {
    const ids = all.map(({ id }) => id);
    const near = nearestName(wanted, ids);
    return {
      blocks: [notice(`There is no design change ${wanted}.`, 'bad')],
      problems: [
        {
          path: ['change'],
          message: `there is no design change ${wanted}`,
          hint: near ? `Did you mean "${near}"?` : 'Name a record of type design-change.',
        },
      ],
    };
  }
  if (changes.length === 0) return { blocks: [notice('There are no design changes.')] };
  return { blocks: changes.flatMap((change) => changeBlocks(change, context)) };
};

/** A design change with its decisions and what came of them. */
export const changeImpactView: View = { name: 'change-impact', draw };
