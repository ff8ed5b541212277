import type { TraceGraph } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';
import { ageingFactor, equivalentRealTime } from '../statistics/ageing.ts';

export type ConditioningPlan = RecordOf<'conditioning-plan'>;
export type ConditioningNode = ConditioningPlan['fields']['nodes'][number];
export type Draw = ConditioningPlan['fields']['draws'][number];

/** A node in its tree. */
export interface PlacedNode {
  readonly node: ConditioningNode;
  /** In the list of the record, for places. */
  readonly index: number;
  /** From the lots down to the node, the node itself last. */
  readonly chain: readonly ConditioningNode[];
  readonly children: readonly ConditioningNode[];
  readonly draws: readonly { readonly draw: Draw; readonly index: number }[];
  /** Units that go on to other nodes or are drawn for the first time. */
  readonly used: number;
}

/** Conditioning plans that count. */
export const conditioningPlans = (graph: TraceGraph): readonly ConditioningPlan[] =>
  graph.recordsOf('conditioning-plan').filter((plan) => plan.status !== 'retired');

/** The way from the lots to a node; ends early at a node that is not there or stands on the way twice. */
const chainTo = (
  node: ConditioningNode,
  byName: ReadonlyMap<string, ConditioningNode>,
): readonly ConditioningNode[] => {
  const chain: ConditioningNode[] = [];
  const seen = new Set<string>();
  for (
    let at: ConditioningNode | undefined = node;
    at && !seen.has(at.node);
    at = at.from === undefined ? undefined : byName.get(at.from)
  ) {
    seen.add(at.node);
    chain.unshift(at);
  }
  return chain;
};

/**
 * Whether a way starts at the lots. It does not where a node takes its units from one that is not there, or from
 * itself in a circle: then nothing can be said of what its units went through.
 */
export const startsAtLots = ([first]: readonly ConditioningNode[]): boolean =>
  first !== undefined && first.from === undefined;

/** Whether a node takes its units from itself, by way of others too. What only hangs on a circle is in none. */
export const isInCircle = ({ node, chain }: PlacedNode): boolean => chain[0]?.from === node.node;

/** Nodes of a plan with what goes in and out of each, in the order of the record. */
export const placedNodes = ({ fields }: ConditioningPlan): readonly PlacedNode[] => {
  const byName = new Map(fields.nodes.map((node) => [node.node, node]));
  return fields.nodes.map((node, index) => {
    const children = fields.nodes.filter((other) => other.from === node.node && other.node !== node.node);
    const draws = fields.draws
      .map((draw, at) => ({ draw, index: at }))
      .filter(({ draw }) => draw.node === node.node);
    const drawn = draws
      .filter(({ draw }) => draw.again === undefined)
      .reduce((sum, { draw }) => sum + draw.units, 0);
    return {
      node,
      index,
      chain: chainTo(node, byName),
      children,
      draws,
      used: children.reduce((sum, child) => sum + child.units, 0) + drawn,
    };
  });
};

const isAgeing = ({ step }: ConditioningNode): boolean =>
  step === 'accelerated ageing' || step === 'real-time ageing';

/** State of units at the end of a chain, in the words of `condition`: fresh, aged, shipped, aged and shipped. */
export const conditionAfter = (chain: readonly ConditioningNode[]): string => {
  const aged = chain.some(isAgeing);
  const shipped = chain.some(({ step }) => step === 'transport');
  return aged ? (shipped ? 'aged and shipped' : 'aged') : shipped ? 'shipped' : 'fresh';
};

export const isSterilised = (chain: readonly ConditioningNode[]): boolean =>
  chain.some(({ step }) => step === 'sterilisation');

/** Readings that the units of a draw give. */
export const readingsOf = ({ units, readings_per_unit, units_per_reading }: Draw): number =>
  Math.floor((units * (readings_per_unit ?? 1)) / (units_per_reading ?? 1));

/** Ageing factor of what is planned, and the days of storage that it stands for. Undefined where q10 gives no factor. */
export const plannedAgeing = ({
  q10,
  temperature,
  reference_temperature,
  days,
}: NonNullable<ConditioningNode['ageing']>):
  | { readonly factor: number; readonly represents: number }
  | undefined => {
  if (!(q10 > 0)) return undefined;
  const factor = ageingFactor({
    q10,
    ageingTemperature: temperature,
    storageTemperature: reference_temperature,
  });
  return factor > 0 && Number.isFinite(factor * days)
    ? { factor, represents: equivalentRealTime({ chamberDays: Math.max(0, days), factor }) }
    : undefined;
};
