import type { Block, Inline, Table } from '../document/model.ts';
import { readRealTimeSchedule } from '../evidence/calculations/real-time-schedule.ts';
import {
  type ConditioningNode,
  type ConditioningPlan,
  conditionAfter,
  conditioningPlans,
  isSterilised,
  type PlacedNode,
  placedNodes,
  plannedAgeing,
  readingsOf,
} from '../evidence/conditioning-tree.ts';
import { pullSchedules } from '../evidence/real-time-pulls.ts';
import { conditioningTree } from '../figures/conditioning-tree.ts';
import { cell, nothing, notice, onLines, orNothing, reference, text, verdictText } from './cells.ts';
import { figureBlock } from './evidence-working.ts';
import { captionOf, type View, type ViewContext } from './view.ts';

type Part = 'figure' | 'steps' | 'draws' | 'calendar';

interface Options {
  readonly part?: Part;
  readonly caption?: string;
  readonly anchor?: string;
}

/** Nodes with their depth, each after its parent; those of a circle or of an unknown parent come last, at the edge. */
const inTreeOrder = (
  plan: ConditioningPlan,
): readonly { readonly placed: PlacedNode; readonly depth: number }[] => {
  const all = placedNodes(plan);
  const ordered: { placed: PlacedNode; depth: number }[] = [];
  const done = new Set<PlacedNode>();
  const visit = (placed: PlacedNode, depth: number): void => {
    if (done.has(placed)) return;
    done.add(placed);
    ordered.push({ placed, depth });
    for (const child of all) if (child.node.from === placed.node.node) visit(child, depth + 1);
  };
  for (const placed of all) if (placed.node.from === undefined) visit(placed, 0);
  for (const placed of all) visit(placed, 0);
  return ordered;
};

const daysOf = ({ begins, ends }: ConditioningNode): string | undefined =>
  begins === undefined
    ? ends === undefined
      ? undefined
      : `until ${ends}`
    : ends === undefined
      ? `from ${begins}`
      : `${begins} to ${ends}`;

const figure = (plan: ConditioningPlan): readonly Block[] => {
  const lots = plan.fields.lots;
  const drawing = conditioningTree({
    lots: `${lots.map(({ lot }) => lot).join(', ')}: ${lots.reduce((sum, { units }) => sum + units, 0)} units`,
    nodes: inTreeOrder(plan).map(({ placed: { node, draws, used }, depth }) => {
      const when = daysOf(node);
      return {
        name: node.node,
        step: node.step,
        units: node.units,
        used: Math.max(
          used,
          (node.pulls ?? []).reduce((sum, { units }) => sum + units, 0),
        ),
        depth,
        ...(when === undefined ? {} : { when }),
        draws: [
          ...draws.map(({ draw }) =>
            draw.again === undefined
              ? `${draw.record ?? draw.protocol} ${draw.units}`
              : `${draw.record ?? draw.protocol} again ${draw.units}`,
          ),
          ...(node.pulls ?? []).map(({ months, units }) => `${months} months ${units}`),
        ],
      };
    }),
  });
  return drawing
    ? [figureBlock({ caption: `Conditioning of the units, ${plan.id}`, drawing })]
    : [notice('The plan has no nodes.')];
};

const ageingWords = (
  { ageing, analysis, pulls }: ConditioningNode,
  { evidence }: ViewContext,
): readonly Inline[] => {
  const lines: (readonly Inline[])[] = [];
  const planned = ageing && plannedAgeing(ageing);
  if (ageing && planned)
    lines.push([
      text(
        `${ageing.days} d at ${ageing.temperature} °C against ${ageing.reference_temperature} °C, factor ${planned.factor.toFixed(2)}, stand for ${Math.floor(planned.represents)} d`,
      ),
    ]);
  if (pulls) lines.push([text(`pulls after ${pulls.map(({ months }) => months).join(', ')} months`)]);
  if (analysis !== undefined) {
    const verdict = evidence.get(analysis)?.verdict;
    lines.push([reference(analysis), ...(verdict === undefined ? [] : [text(': '), verdictText(verdict)])]);
  }
  return onLines(lines);
};

const steps = (plan: ConditioningPlan, context: ViewContext): Table => ({
  kind: 'table',
  columns: [
    { title: 'Node', width: 22 },
    { title: 'After', width: 18 },
    { title: 'Step', width: 18 },
    { title: 'Days', width: 18 },
    { title: 'Units', width: 8, align: 'right' },
    { title: 'Used', width: 8, align: 'right' },
    { title: 'Left', width: 8, align: 'right' },
    { title: 'Ageing and evidence', width: 36 },
    { title: 'State after it', width: 18 },
  ],
  rows: inTreeOrder(plan).map(({ placed: { node, chain, used } }) => {
    const pulled = (node.pulls ?? []).reduce((sum, { units }) => sum + units, 0);
    const taken = Math.max(used, pulled);
    return {
      cells: [
        cell(
          text(node.node, { bold: true }),
          ...(node.note === undefined ? [] : [text(`: ${node.note}`, { tone: 'quiet' as const })]),
        ),
        cell(text(node.from ?? 'the lots')),
        cell(
          ...onLines([
            [text(node.step)],
            ...(node.by === undefined ? [] : [[text('by '), reference(node.by)]]),
          ]),
        ),
        cell(
          ...orNothing(
            // Each day on a line of its own, so that no date is broken.
            onLines(
              (daysOf(node) ?? '')
                .split(/ (?=to )/)
                .filter((line) => line !== '')
                .map((line) => [text(line)]),
            ),
            'not dated',
          ),
        ),
        cell(text(String(node.units))),
        cell(text(String(taken))),
        cell(text(String(node.units - taken), taken > node.units ? { tone: 'bad', bold: true } : {})),
        cell(...orNothing(ageingWords(node, context))),
        cell(
          text(
            [
              isSterilised(chain) ? 'sterilised' : 'not sterilised',
              conditionAfter(chain),
              ...(chain.some(({ step }) => step === 'storage extremes') ? ['after storage extremes'] : []),
            ].join(', '),
          ),
        ),
      ],
    };
  }),
  description: 'Each row is one step of conditioning with its units, days and what it stands for.',
});

const draws = (plan: ConditioningPlan, { graph, evidence }: ViewContext): Table => ({
  kind: 'table',
  columns: [
    { title: 'Protocol', width: 34 },
    { title: 'From', width: 20 },
    { title: 'Units', width: 8, align: 'right' },
    { title: 'Readings', width: 10, align: 'right' },
    { title: 'Sample planned', width: 12, align: 'right' },
    { title: 'State tested', width: 16 },
    { title: 'Record', width: 22 },
  ],
  rows: plan.fields.draws.map((draw) => {
    const protocol = graph.recordOf('verification-protocol', draw.protocol);
    const size =
      protocol?.fields.sampling?.size ??
      graph.recordOf('validation-protocol', draw.protocol)?.fields.sampling?.size;
    const verdict = evidence.get(draw.record ?? '')?.verdict;
    return {
      cells: [
        cell(
          ...onLines([
            [reference(draw.protocol), text(` ${graph.record(draw.protocol)?.title ?? ''}`)],
            ...(draw.again === undefined ? [] : [[text('units of '), reference(draw.again)]]),
            ...(draw.note === undefined ? [] : [[text(draw.note, { tone: 'quiet' as const })]]),
          ]),
        ),
        cell(text(draw.node)),
        cell(text(draw.again === undefined ? String(draw.units) : `(${draw.units})`)),
        cell(
          protocol?.fields.sampling?.kind === 'inspection-checklist'
            ? nothing('no units')
            : text(String(readingsOf(draw))),
        ),
        cell(size === undefined ? nothing() : text(String(size))),
        cell(protocol?.fields.condition === undefined ? nothing() : text(protocol.fields.condition)),
        cell(
          ...(draw.record === undefined
            ? [nothing('not yet')]
            : [reference(draw.record), ...(verdict === undefined ? [] : [text(': '), verdictText(verdict)])]),
        ),
      ],
    };
  }),
  description:
    'Each row is a protocol with the units that it draws; units in parentheses are used once more and were counted before.',
});

interface Day {
  readonly day: string;
  readonly what: readonly Inline[];
  readonly units: string;
  readonly state: Inline;
}

const calendar = (plan: ConditioningPlan, { graph, asOf }: ViewContext): Table => {
  const past = (day: string): Inline => (day <= asOf ? text('past') : text('to come', { tone: 'caution' }));
  const nodeDays = plan.fields.nodes.flatMap((node): readonly Day[] => [
    ...(node.begins === undefined
      ? []
      : [
          {
            day: node.begins,
            what: [text(`"${node.node}" begins: ${node.step}`)],
            units: String(node.units),
            state: past(node.begins),
          },
        ]),
    ...(node.ends === undefined
      ? []
      : [
          {
            day: node.ends,
            what: [text(`"${node.node}" ends: ${node.step}`)],
            units: String(node.units),
            state: past(node.ends),
          },
        ]),
  ]);
  const tests = plan.fields.draws.flatMap((draw): readonly Day[] => {
    const record =
      graph.recordOf('verification-record', draw.record ?? '') ??
      graph.recordOf('validation-record', draw.record ?? '');
    if (!record) return [];
    // The days are those of the whole record: its first one may lie before these units were ready.
    const { from, to } = record.fields.executed;
    return [
      {
        day: to,
        what: [
          text('test '),
          reference(record.id),
          text(` of units from "${draw.node}"${from === to ? '' : `, begun ${from}`}`),
        ],
        units: draw.again === undefined ? String(draw.units) : `(${draw.units})`,
        state: past(to),
      },
    ];
  });
  const schedules = pullSchedules(graph);
  const pulls = plan.fields.nodes
    .filter(({ step }) => step === 'real-time ageing')
    .flatMap((node): readonly Day[] => {
      const own = schedules.find(({ owner, node: name }) =>
        node.analysis === undefined ? owner === plan.id && name === node.node : owner === node.analysis,
      );
      const started =
        node.begins ??
        readRealTimeSchedule(
          graph.recordOf('analysis', node.analysis ?? '')?.fields.calculation.real_time,
          [],
        )?.start;
      return (own?.pulls ?? []).map(({ months, due }) => {
        const tested = own?.tests.filter((record) => record.fields.real_time_pull?.months === months) ?? [];
        const units = node.pulls?.find((pull) => pull.months === months)?.units;
        return {
          day: due,
          what: [
            text(
              `pull after ${months} months from "${node.node}"${started === undefined ? '' : `, in store since ${started}`}`,
            ),
          ],
          units: units === undefined ? '' : String(units),
          state:
            tested.length > 0
              ? reference(tested[0]?.id ?? '')
              : due <= asOf
                ? text('due', { tone: 'bad', bold: true })
                : text('to come', { tone: 'caution' }),
        };
      });
    });
  const days = [...nodeDays, ...tests, ...pulls].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
  return {
    kind: 'table',
    columns: [
      { title: 'Day', width: 14 },
      { title: 'What', width: 60 },
      { title: 'Units', width: 10, align: 'right' },
      { title: `As of ${asOf}`, width: 20 },
    ],
    rows: days.map(({ day, what, units, state }) => ({
      cells: [cell(text(day)), cell(...what), cell(units === '' ? nothing() : text(units)), cell(state)],
    })),
    description: 'All days of the plan in order: steps, tests and pulls of real-time ageing.',
  };
};

const parts: Readonly<Record<Part, (plan: ConditioningPlan, context: ViewContext) => readonly Block[]>> = {
  figure: (plan) => figure(plan),
  steps: (plan, context) => [steps(plan, context)],
  draws: (plan, context) => [draws(plan, context)],
  calendar: (plan, context) => [calendar(plan, context)],
};

const draw: View['draw'] = (body, context) => {
  const options = body as Options;
  const plans = conditioningPlans(context.graph);
  if (plans.length === 0) return { blocks: [notice('There is no conditioning plan yet.')] };
  const wanted: readonly Part[] = options.part ? [options.part] : ['figure', 'steps', 'draws', 'calendar'];
  const blocks = plans.flatMap((plan) => wanted.flatMap((part) => parts[part](plan, context)));
  return {
    blocks: blocks.map((block, index) =>
      index === 0 && (block.kind === 'table' || block.kind === 'figure')
        ? { ...block, ...captionOf(options) }
        : block,
    ),
  };
};

export const conditioningTreeView: View = { name: 'conditioning-tree', draw };
