import type { Finding, Level } from '../findings/finding.ts';
import type { Approvals } from '../graph/approvals.ts';
import type { Standing } from '../graph/standing.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { RecordOf, TechnicalRecord } from '../records/record.ts';

type Stage = RecordOf<'design-plan'>['fields']['stages'][number];
type Gate = Stage['gate'];

/** One condition of a gate, as the design plan states it. */
export type GateCondition = Gate['conditions'][number];

/** A gate of a design plan with the reviews that held it. */
export interface PlannedGate {
  readonly plan: RecordOf<'design-plan'>;
  readonly stage: Stage;
  readonly gate: Gate;
  /** Place among the stages, from 0. */
  readonly index: number;
  /** Reviews that name the gate, not retired, in order of the day of the decision. */
  /** Whether a review of the plan names a gate that the plan does not have: it may have held this one. */
  readonly mayBeMisnamed: boolean;
  readonly reviews: readonly RecordOf<'design-review'>[];
  /** The last review that passed the gate. */
  readonly passedBy?: RecordOf<'design-review'>;
  /** Day of that decision. */
  readonly passedOn?: string;
}

/** Day on which a review decided on its gate. */
export const decidedOn = (review: RecordOf<'design-review'>): string =>
  review.fields.gate?.decided ?? review.fields.date;

/** The gates of a plan in the order of its stages. */
export const gatesOf = (plan: RecordOf<'design-plan'>, graph: TraceGraph): readonly PlannedGate[] => {
  const held = graph
    .sources(plan.id, 'gate', 'design-review')
    .toSorted((a, b) => (decidedOn(a) < decidedOn(b) ? -1 : decidedOn(a) > decidedOn(b) ? 1 : 0));
  const names = new Set(plan.fields.stages.map((stage) => stage.gate.gate));
  const isStray = held.some((review) => !names.has(review.fields.gate?.gate ?? ''));
  return plan.fields.stages.map((stage, index): PlannedGate => {
    const reviews = held.filter((review) => review.fields.gate?.gate === stage.gate.gate);
    const passedBy = reviews.findLast((review) => review.fields.gate?.outcome === 'passed');
    return {
      plan,
      stage,
      gate: stage.gate,
      index,
      mayBeMisnamed: reviews.length === 0 && isStray,
      reviews,
      ...(passedBy ? { passedBy, passedOn: decidedOn(passedBy) } : {}),
    };
  });
};

/** Design plans that are not retired. */
export const currentDesignPlans = (graph: TraceGraph): readonly RecordOf<'design-plan'>[] =>
  graph.recordsOf('design-plan').filter((plan) => plan.status !== 'retired');

/** What the records say of a condition today. */
export type ConditionState =
  | { readonly state: 'holds'; readonly words: string }
  | { readonly state: 'does not hold'; readonly words: string; readonly because: readonly string[] }
  | { readonly state: 'for people to judge'; readonly words: string };

/** What the state of a condition is read from. */
export interface GateContext {
  readonly graph: TraceGraph;
  readonly approvals: Approvals;
  readonly standing: ReadonlyMap<string, Standing>;
  /** Findings that stand, waived ones left out. */
  readonly findings: readonly Finding[];
}

/** The records that a condition speaks of: those it names, and all of its types that are not retired. */
export const recordsUnder = (condition: GateCondition, graph: TraceGraph): readonly TechnicalRecord[] => {
  const named = (condition.records ?? []).flatMap((id) => graph.record(id) ?? []);
  const types = new Set(condition.types ?? []);
  const ofTypes = [...graph.records.values()].filter(
    (record) => types.has(record.type) && record.status !== 'retired',
  );
  return [...new Set([...named, ...ofTypes])];
};

const graver: Readonly<Record<Level, readonly Level[]>> = {
  error: ['error'],
  warning: ['error', 'warning'],
  note: ['error', 'warning', 'note'],
};

/** What the records say of a condition as the file is now. What a computer cannot know is left to people. */
export const conditionState = (condition: GateCondition, context: GateContext): ConditionState => {
  const { graph, approvals, standing } = context;
  switch (condition.asks) {
    case 'judged by people':
      return { state: 'for people to judge', words: 'the review says' };
    case 'free of findings':
      return freeOfFindings(condition, context);
    case 'actions closed':
      return actionsClosed(graph);
    case 'approved':
      return ofAll(
        condition,
        graph,
        'approved',
        (record) => record.status === 'approved' && (approvals.of(record.id)?.inForce ?? false),
      );
    case 'shown':
      return ofAll(condition, graph, 'shown', (record) => standing.get(record.id)?.state === 'passed');
  }
  return condition.asks satisfies never;
};

const ofAll = (
  condition: GateCondition,
  graph: TraceGraph,
  what: string,
  holds: (record: TechnicalRecord) => boolean,
): ConditionState => {
  const missing = (condition.records ?? []).filter((id) => graph.record(id) === undefined);
  const records = recordsUnder(condition, graph);
  const open = records.filter((record) => !holds(record)).map((record) => record.id);
  const empty = (condition.types ?? []).filter((type) => !records.some((record) => record.type === type));
  const words = `${records.length - open.length} of ${records.length + missing.length} ${what}`;
  return open.length + missing.length + empty.length === 0 && records.length > 0
    ? { state: 'holds', words }
    : {
        state: 'does not hold',
        words: [words, ...empty.map((type) => `there is no ${type}`)].join('; '),
        because: [...open, ...missing],
      };
};

const freeOfFindings = (condition: GateCondition, { graph, findings }: GateContext): ConditionState => {
  const codes = new Set(condition.codes ?? []);
  const levels = condition.level ? graver[condition.level] : [];
  const types = new Set(condition.types ?? []);
  const counted = findings.filter(
    ({ code, level, records }) =>
      (codes.has(code) || levels.includes(level)) &&
      (types.size === 0 || records.some((id) => types.has(graph.record(id)?.type ?? ''))),
  );
  const because = [...new Set(counted.flatMap(({ records }) => records.slice(0, 1)))];
  return counted.length === 0
    ? { state: 'holds', words: 'none stands' }
    : {
        state: 'does not hold',
        words: `${counted.length} ${counted.length === 1 ? 'stands' : 'stand'}`,
        because,
      };
};

const actionsClosed = (graph: TraceGraph): ConditionState => {
  const reviews = graph.recordsOf('design-review').filter((review) => review.status !== 'retired');
  const actions = reviews.flatMap((review) =>
    (review.fields.actions ?? []).map((action) => ({ review, action })),
  );
  const open = actions.filter(({ action }) => action.closed === undefined);
  const words = `${actions.length - open.length} of ${actions.length} closed`;
  return open.length === 0
    ? { state: 'holds', words }
    : { state: 'does not hold', words, because: [...new Set(open.map(({ review }) => review.id))] };
};
