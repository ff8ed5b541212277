import { residualRisk } from '../evidence/residual-risk.ts';
import { strongComponents } from '../graph/strong-components.ts';
import { compareIds } from '../graph/trace-graph.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

/** From a control to the risks that it brings, and from a risk to its controls. */
const following = (id: string, { graph }: CheckContext): readonly string[] =>
  graph.recordOf('risk-control', id)
    ? graph.targets(id, 'new_risks', 'risk').map((risk) => risk.id)
    : graph.sources(id, 'controls', 'risk-control').map((control) => control.id);

/** A shortest way from a control back to itself. */
const circleFrom = (start: string, context: CheckContext): readonly string[] => {
  const ways: (readonly string[])[] = [[start]];
  const seen = new Set<string>();
  for (let at = 0; at < ways.length; at += 1) {
    const way = ways[at] ?? [];
    for (const next of following(way.at(-1) ?? '', context)) {
      if (next === start) return [...way, start];
      if (seen.has(next)) continue;
      seen.add(next);
      ways.push([...way, next]);
    }
  }
  return [];
};

/** The first control of each circle, so that a circle is told of once. */
const circleStarts = (context: CheckContext): ReadonlySet<string> => {
  const { graph } = context;
  const ids = [...graph.recordsOf('risk-control'), ...graph.recordsOf('risk')]
    .filter((record) => record.status !== 'retired')
    .map((record) => record.id);
  return new Set(
    strongComponents(ids, (id) => following(id, context))
      .filter((group) => group.length > 1)
      .flatMap(
        (group) => group.filter((id) => graph.recordOf('risk-control', id)).toSorted(compareIds)[0] ?? [],
      ),
  );
};

/** What is open in a risk that a control brings; completes the sentence "RK-07 …". */
const openIn = (
  risk: RecordOf<'risk'>,
  control: RecordOf<'risk-control'>,
  { graph, approvals, project }: CheckContext,
): readonly string[] => [
  ...(control.status === 'approved' && risk.status !== 'approved' ? [`has the status ${risk.status}`] : []),
  ...(risk.status === 'retired' || graph.sources(risk.id, 'controls', 'risk-control').length > 0
    ? []
    : ['has no control']),
  ...(risk.status !== 'retired' &&
  residualRisk(risk, graph, approvals, project.fields).kind === 'not accepted'
    ? ['is not accepted']
    : []),
];

export const controlRiskOpen = defineCheck({
  code: 'control-risk-open',
  level: 'warning',
  title: 'A risk that a control brings is not closed',
  basis: 'Regulation (EU) 2017/745 Annex I 3(d) and 4; ISO 14971:2019 7.5 (from memory)',
  explain:
    'A measure against one risk can bring another, which `new_risks` of the control names. That risk is still open: its record is not approved, nothing controls it, or what remains of it is not accepted. Or the controls and the risks that they bring lead in a circle, so that the question never ends.\n\nA risk that came in with a measure is as real for the patient as the one that the measure removed. As long as it is open, the measure has moved the risk and not lowered it.\n\nClose the risk that the message names. In a circle, describe the risk that remains after both measures as one risk, and take the link out that points back.',
  awaits: ['risk-control'],
  examines: 'risk controls',
  subjects: (context) => {
    const starts = circleStarts(context);
    return context.graph
      .recordsOf('risk-control')
      .filter((control) => control.status !== 'retired')
      .map((control) => ({ control, circle: starts.has(control.id) ? circleFrom(control.id, context) : [] }));
  },
  judge: ({ control, circle }, context): readonly Draft[] => {
    const brought = context.graph.targets(control.id, 'new_risks', 'risk');
    return [
      ...brought.flatMap((risk): readonly Draft[] => {
        const open = openIn(risk, control, context);
        return open.length === 0
          ? []
          : [
              {
                place: placeOf(control, 'new_risks', 'risks'),
                message: `${control.id} "${control.title}" brings ${risk.id}, which ${open.join(' and ')}`,
                hint: `Close ${risk.id}: control it, have what remains judged, and have it approved.`,
                records: [control.id, risk.id],
                related: [{ place: placeOf(risk, 'status'), message: `${risk.id} ${open.join(' and ')}` }],
              },
            ];
      }),
      ...(circle.length === 0
        ? []
        : [
            {
              place: placeOf(control, 'new_risks', 'risks'),
              message: `controls and the risks that they bring lead in a circle: ${circle.join(' → ')}`,
              hint: 'Describe what remains after these measures as one risk, and remove the link that points back.',
              records: [...new Set(circle)],
            },
          ]),
    ];
  },
});
