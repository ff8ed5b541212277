import type { Inline } from '../document/model.ts';
import { controlOptionOrder } from '../evidence/control-option-order.ts';
import { residualRisk } from '../evidence/residual-risk.ts';
import { estimateRisk, type RiskEstimate } from '../evidence/risk-estimate.ts';
import { compareIds } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';
import { nothing, onLines, orNothing, reference, standingText, text, verdictText } from './cells.ts';
import { probabilityWords } from './probability-words.ts';
import type { ViewContext } from './view.ts';

/** What several views say about a risk and its controls, in the same words. */

type Risk = RecordOf<'risk'>;
type Control = RecordOf<'risk-control'>;

/** The controls of a risk that are not retired, those of the first priority first. */
export const controlsOf = (risk: Risk, { graph }: ViewContext): readonly Control[] =>
  [...graph.sources(risk.id, 'controls', 'risk-control')]
    .filter((control) => control.status !== 'retired')
    .sort(
      (a, b) =>
        controlOptionOrder.indexOf(a.fields.option) - controlOptionOrder.indexOf(b.fields.option) ||
        compareIds(a.id, b.id),
    );

export const estimateOf = (
  risk: Risk,
  when: 'before' | 'after',
  { project }: ViewContext,
): RiskEstimate | undefined =>
  project.fields.risk && estimateRisk(risk.fields.severity, risk.fields[when], project.fields.risk);

/** Ids in one line; `nothing` where there are none, so that a gap is seen. */
export const idList = (ids: readonly string[], why = 'nothing'): readonly Inline[] =>
  ids.length === 0
    ? [nothing(why)]
    : ids.flatMap((id, index): readonly Inline[] =>
        index === 0 ? [reference(id)] : [text(', '), reference(id)],
      );

/** Severity and band, and whether the criteria of the plan accept the pair. */
export const evaluationWords = (
  risk: Risk,
  when: 'before' | 'after',
  context: ViewContext,
): readonly Inline[] => {
  const estimate = estimateOf(risk, when, context);
  if (!estimate) return [nothing('no criteria')];
  const { p1, p2 } = risk.fields[when];
  const written = (name: 'p1' | 'p2', value: number): string =>
    probabilityWords(value, risk.yaml.written([when, name]) ?? String(value));
  return onLines([
    [
      text(
        `${estimate.severity}, ${estimate.kind === 'by probability' ? estimate.band : 'probability not estimable'}`,
        { bold: true },
      ),
    ],
    ...(p1 === undefined || p2 === undefined
      ? []
      : [[text(`P1 ${written('p1', p1)}, P2 ${written('p2', p2)}`, { tone: 'quiet' as const })]]),
    [
      estimate.acceptable
        ? text('within the criteria', { tone: 'good' })
        : text('not within the criteria', { tone: when === 'after' ? 'bad' : 'caution' }),
    ],
  ]);
};

/**
 * What the estimate after control counts on and is not shown: controls whose evidence has not passed, each with its
 * standing, or that there is none. Empty where everything is shown.
 */
export const countsOnWords = (risk: Risk, context: ViewContext): readonly Inline[] => {
  const controls = controlsOf(risk, context);
  if (controls.length === 0) return [text('no control', { tone: 'caution' })];
  const open = controls.flatMap((control) => {
    const state = context.standing.get(control.id)?.state ?? 'unplanned';
    return state === 'passed' && control.status === 'approved'
      ? []
      : [{ id: control.id, words: state === 'passed' ? control.status : state }];
  });
  return open.length === 0
    ? []
    : [
        text('counts on what is not shown: ', { tone: 'caution' }),
        ...open.flatMap(({ id, words }, index): readonly Inline[] => [
          ...(index === 0 ? [] : [text(', ')]),
          reference(id),
          text(` (${words})`, { tone: 'caution' }),
        ]),
      ];
};

/**
 * The evaluation after control, with what it counts on and is not shown, and with the decision on benefit and risk where
 * the criteria don't accept it.
 */
export const residualWords = (risk: Risk, context: ViewContext): readonly Inline[] => {
  const outcome = residualRisk(risk, context.graph, context.approvals, context.project.fields);
  const open = countsOnWords(risk, context);
  return onLines([
    evaluationWords(risk, 'after', context),
    ...(outcome.kind === 'accepted by decision' ? [[text('accepted by '), reference(outcome.decision)]] : []),
    ...(outcome.kind === 'not accepted'
      ? [[text('no decision in force', { tone: 'bad' as const, bold: true })]]
      : []),
    ...(open.length === 0 ? [] : [open]),
  ]);
};

/** Where a control is put into effect, and where that was seen; with the statement of what was seen, where asked for. */
export const inPlaceWords = (control: Control, withStatement = false): readonly Inline[] => {
  const { implemented_by, in_place } = control.fields;
  const seen = in_place?.seen_in ?? [];
  return onLines([
    idList(implemented_by ?? []),
    ...(in_place
      ? [
          ...(withStatement ? [[text(in_place.statement)]] : []),
          ...(seen.length > 0 ? [[text('seen in ', { tone: 'quiet' as const }), ...idList(seen)]] : []),
        ]
      : [[nothing('not seen in place')]]),
  ]);
};

/** What shows that a control works: each protocol or analysis, with its results and their verdicts. */
export const effectWords = (
  control: Control,
  { graph, evidence, standing }: ViewContext,
): readonly Inline[] =>
  orNothing(
    onLines(
      (control.fields.shown_by ?? []).map((id): readonly Inline[] => {
        const reports = [
          ...graph.sources(id, 'reports', 'verification-record'),
          ...graph.sources(id, 'reports', 'validation-record'),
        ].filter((record) => record.status !== 'retired');
        const own = evidence.get(id);
        if (own) return [reference(id), text(' '), verdictText(own.verdict)];
        if (reports.length === 0)
          return [reference(id), text(' '), standingText(standing.get(id)?.state ?? 'unplanned')];
        return [
          reference(id),
          text(': '),
          ...reports.flatMap((report, index): readonly Inline[] => {
            const verdict = evidence.get(report.id)?.verdict;
            return [
              ...(index === 0 ? [] : [text(', ')]),
              reference(report.id),
              text(' '),
              verdict ? verdictText(verdict) : nothing('no verdict'),
            ];
          }),
        ];
      }),
    ),
    'nothing shows it',
  );
