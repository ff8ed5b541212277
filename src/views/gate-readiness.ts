import type { Block, Inline, Row, Table } from '../document/model.ts';
import {
  conditionState,
  decidedOn,
  type GateCondition,
  gatesOf,
  type PlannedGate,
} from '../evidence/gates.ts';
import { type ConditionMark, type GateBar, gateBars } from '../figures/gate-bars.ts';
import type { RecordOf } from '../records/record.ts';
import { cell, nothing, notice, onLines, orNothing, reference, spanning, text } from './cells.ts';
import { figureBlock } from './evidence-working.ts';
import { type CommonOptions, captionOf, isShown, type View, type ViewContext } from './view.ts';

type Part = 'stages' | 'gates' | 'figure' | 'conditions';

interface Options extends CommonOptions {
  readonly parts?: readonly Part[];
}

type Review = RecordOf<'design-review'>;

/** A gate that is behind counts as its review found it; one that lies ahead as the records are today. */
interface ConditionRow {
  readonly condition: GateCondition;
  readonly mark: ConditionMark;
  readonly found: readonly Inline[];
  readonly today: readonly Inline[];
}

const tones = { met: 'good', 'not met': 'bad', 'for people to judge': 'caution' } as const;

const markText = (mark: ConditionMark): Inline => text(mark, { bold: true, tone: tones[mark] });

/** Ids, and how many more there are. */
const listed = (ids: readonly string[], most = 6): readonly Inline[] => {
  const shown = ids
    .slice(0, most)
    .flatMap((id, at): readonly Inline[] => (at === 0 ? [reference(id)] : [text(', '), reference(id)]));
  return ids.length > most ? [...shown, text(` and ${ids.length - most} more`)] : shown;
};

const todayOf = (
  condition: GateCondition,
  context: ViewContext,
): { readonly mark: ConditionMark; readonly words: readonly Inline[] } => {
  const state = conditionState(condition, context);
  switch (state.state) {
    case 'holds':
      return { mark: 'met', words: [text(state.words)] };
    case 'does not hold':
      return {
        mark: 'not met',
        words: [
          text(state.words),
          ...(state.because.length > 0 ? [text(': '), ...listed(state.because)] : []),
        ],
      };
    case 'for people to judge':
      return { mark: 'for people to judge', words: [nothing('only people can say')] };
  }
  return state satisfies never;
};

const foundBy = (
  review: Review,
  condition: GateCondition,
): { readonly mark: ConditionMark; readonly words: readonly Inline[] } => {
  const row = review.fields.gate?.conditions.find((each) => each.condition === condition.condition);
  if (!row) return { mark: 'not met', words: [text(`${review.id} does not say`, { tone: 'bad' })] };
  const mark: ConditionMark = row.met ? 'met' : 'not met';
  return {
    mark,
    words: [markText(mark), ...(row.reason === undefined ? [] : [text(`: ${row.reason}`)])],
  };
};

const conditionsOf = ({ gate, reviews }: PlannedGate, context: ViewContext): readonly ConditionRow[] => {
  const last = reviews.at(-1);
  return gate.conditions.map((condition): ConditionRow => {
    const today = todayOf(condition, context);
    const found = last && foundBy(last, condition);
    return {
      condition,
      mark: last?.fields.gate?.outcome === 'passed' && found ? found.mark : today.mark,
      found: found?.words ?? [nothing('not held yet')],
      today: today.words,
    };
  });
};

const dayMs = 86_400_000;

/** Days between the plan and what happened, in words. */
const lateness = (planned: string, actual: string): string => {
  const days = Math.round((Date.parse(`${actual}T00:00:00Z`) - Date.parse(`${planned}T00:00:00Z`)) / dayMs);
  if (!Number.isFinite(days) || days === 0) return 'as planned';
  return days > 0 ? `${days} d later` : `${-days} d earlier`;
};

const stateWords = ({ gate, reviews, passedOn }: PlannedGate, asOf: string): string => {
  if (passedOn !== undefined) return `passed ${passedOn}`;
  const due = gate.planned < asOf ? `overdue since ${gate.planned}` : `planned ${gate.planned}`;
  return reviews.length > 0 ? `not passed, ${due}` : due;
};

const stagesTable = (gates: readonly PlannedGate[]): Table => ({
  kind: 'table',
  columns: [
    { title: 'Stage', width: 18 },
    { title: 'Activities', width: 46 },
    { title: 'Responsible', width: 20 },
    { title: 'Planned', width: 16 },
    { title: 'Gate', width: 8 },
  ],
  rows: gates.map(({ stage, gate }) => ({
    cells: [
      cell(text(stage.stage, { bold: true })),
      cell(...orNothing(onLines((stage.activities ?? []).map((each) => [text(each)])))),
      cell(...orNothing(onLines((stage.responsible ?? []).map((each) => [text(each)])), 'nobody')),
      cell(
        ...(stage.planned
          ? onLines([[text(`${stage.planned.from} to`)], [text(stage.planned.to)]])
          : [nothing('not planned')]),
      ),
      cell(text(gate.gate)),
    ],
  })),
  description: 'The stages of design and development: what is done, by whom, and when.',
});

const gatesTable = (gates: readonly PlannedGate[], asOf: string): Table => ({
  kind: 'table',
  columns: [
    { title: 'Gate', width: 8 },
    { title: 'At the end of', width: 20 },
    { title: 'Planned', width: 22 },
    { title: 'Decided by', width: 18 },
    { title: 'Review', width: 12 },
    { title: 'Outcome', width: 24 },
  ],
  rows: gates.map((each) => {
    const { gate, stage, reviews, passedOn } = each;
    return {
      cells: [
        cell(text(gate.gate, { bold: true })),
        cell(text(stage.stage)),
        cell(
          ...onLines([
            [text(gate.planned)],
            ...(gate.planned_before ?? []).map(({ day, reason }) => [
              text(`first ${day}: ${reason}`, { tone: 'quiet' }),
            ]),
          ]),
        ),
        cell(...orNothing(onLines((gate.decided_by ?? []).map((role) => [text(role)])), 'nobody')),
        cell(...orNothing(onLines(reviews.map((review) => [reference(review.id)])), 'not held yet')),
        cell(
          ...(passedOn === undefined
            ? [text(stateWords(each, asOf), { tone: gate.planned < asOf ? 'bad' : 'caution' })]
            : onLines([
                [text('passed', { bold: true, tone: 'good' })],
                [text(`${passedOn}, ${lateness(gate.planned, passedOn)}`)],
                ...reviews
                  .filter((review) => review.fields.gate?.outcome === 'not passed')
                  .map((review) => [text(`not passed on ${decidedOn(review)} (${review.id})`)]),
              ])),
        ),
      ],
    };
  }),
  description: 'The gates of the design plan: planned and actual days, reviews and outcome.',
});

const conditionsTable = (gates: readonly PlannedGate[], context: ViewContext): Table => ({
  kind: 'table',
  columns: [
    { title: 'Gate', width: 8 },
    { title: 'Condition', width: 36 },
    { title: 'Found by the review', width: 32 },
    { title: `The records on ${context.asOf}`, width: 30 },
  ],
  rows: gates.flatMap((gate) =>
    conditionsOf(gate, context).map(
      ({ condition, mark, found, today }, at): Row => ({
        cells: [
          ...(at === 0 ? [spanning(gate.gate.conditions.length, text(gate.gate.gate, { bold: true }))] : []),
          cell(text(condition.says)),
          cell(...found),
          cell(...(gate.passedBy ? today : onLines([[markText(mark)], today]))),
        ],
      }),
    ),
  ),
  description: 'Each condition of each gate: what the review found, and what the records say today.',
});

const bars = (gates: readonly PlannedGate[], context: ViewContext): readonly GateBar[] =>
  gates.map((gate) => ({
    name: `${gate.gate.gate} ${gate.stage.stage}`,
    state: stateWords(gate, context.asOf),
    conditions: conditionsOf(gate, context).map((row) => row.mark),
  }));

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  const plans = context.graph.recordsOf('design-plan').filter((plan) => isShown(plan, options));
  if (plans.length === 0) return { blocks: [notice('There is no design plan yet.')] };
  const parts = options.parts ?? ['stages', 'gates', 'figure', 'conditions'];
  const blocks = plans.flatMap((plan) => {
    const gates = gatesOf(plan, context.graph);
    return parts.flatMap((part): readonly Block[] => {
      switch (part) {
        case 'stages':
          return [stagesTable(gates)];
        case 'gates':
          return [gatesTable(gates, context.asOf)];
        case 'conditions':
          return [conditionsTable(gates, context)];
        case 'figure': {
          const drawing = gateBars(bars(gates, context));
          return drawing
            ? [figureBlock({ caption: 'Conditions of the gates, met and not met', drawing })]
            : [];
        }
      }
      return part satisfies never;
    });
  });
  const at = blocks.findIndex((block) => block.kind === 'table' || block.kind === 'figure');
  return {
    blocks: blocks.map((block, index) =>
      index === at ? ({ ...block, ...captionOf(options) } as Block) : block,
    ),
  };
};

export const gateReadiness: View = { name: 'gate-readiness', draw };
