import {
  type ConditioningPlan,
  conditionAfter,
  conditioningPlans,
  type Draw,
  isSterilised,
  type PlacedNode,
  placedNodes,
  readingsOf,
  startsAtLots,
} from '../evidence/conditioning-tree.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

type Protocol = RecordOf<'verification-protocol'>;

interface Supply {
  readonly plan: ConditioningPlan;
  readonly draw: Draw;
  readonly index: number;
  readonly placed: PlacedNode | undefined;
}

/** Methods that look at papers, or judge what is not a number of units. */
const withoutUnits = ['inspection-checklist'];

const words = (count: number): string => `${count} reading${count === 1 ? '' : 's'}`;

export const conditioningNotSupplied = defineCheck({
  code: 'conditioning-not-supplied',
  level: 'error',
  title: 'No conditioned units are planned for a protocol, too few, or in another state',
  basis:
    'Regulation (EU) 2017/745 Annex II 6.1(b) and 6.2(e); ISO 13485:2016 7.3.6; ISO 11607-1 (tests after sterilisation, ageing and transport, from memory)',
  explain:
    'The file has a conditioning plan, and a protocol whose units go through `conditioning` is not supplied by it: no node gives it units, the units give fewer readings than its sample needs, the node leaves them in another state than its `condition`, or they have not been sterilised although the protocol says so.\n\nA test of aged packs on packs that were never aged shows nothing, and reviewers compare exactly these columns. Ageing takes months, so a forgotten group delays the file by months.\n\nDraw the units from the right node with `draws`. Give `readings_per_unit` where a unit gives several readings, such as strips of a pack, `units_per_reading` for pools, and `again` where a test uses the units of another one.',
  examines: 'protocols with conditioning',
  subjects: ({ graph }) => {
    const plans = conditioningPlans(graph);
    if (plans.length === 0) return [];
    const supplies = plans.flatMap((plan) => {
      const placed = placedNodes(plan);
      return plan.fields.draws.map(
        (draw, index): Supply => ({
          plan,
          draw,
          index,
          placed: placed.find(({ node }) => node.node === draw.node),
        }),
      );
    });
    return graph
      .recordsOf('verification-protocol')
      .filter(
        ({ status, fields }) =>
          status !== 'retired' &&
          (fields.conditioning ?? []).length > 0 &&
          !withoutUnits.includes(fields.sampling?.kind ?? ''),
      )
      .map((protocol) => ({
        protocol,
        plan: plans[0] as ConditioningPlan,
        supplies: supplies.filter(({ draw }) => draw.protocol === protocol.id),
      }));
  },
  judge: ({ protocol, plan, supplies }): readonly Draft[] => {
    if (supplies.length === 0)
      return [
        {
          place: placeOf(protocol, 'conditioning'),
          message: `${protocol.id} needs conditioned units, and no conditioning plan supplies it`,
          hint: `Add a draw for it to ${plan.id}.`,
          records: [protocol.id, plan.id],
          related: [{ place: placeOf(plan, 'draws'), message: `draws of ${plan.id}` }],
        },
      ];
    // A node that is not there is told by conditioning-node-unknown.
    if (supplies.some(({ placed }) => placed === undefined)) return [];
    // So is one that does not come from the lots; what its units went through is not known.
    if (supplies.some(({ placed }) => !startsAtLots(placed?.chain ?? []))) return tooFew(protocol, supplies);
    return [
      ...tooFew(protocol, supplies),
      ...wrongState(protocol, supplies),
      ...notSterilised(protocol, supplies),
    ];
  },
});

/** Each carrying-out of the protocol needs the whole sample. */
const tooFew = (protocol: Protocol, supplies: readonly Supply[]): readonly Draft[] => {
  const size = protocol.fields.sampling?.size;
  if (size === undefined) return [];
  const runs = new Map<string, Supply[]>();
  for (const supply of supplies) {
    const key = supply.draw.record ?? '';
    runs.set(key, [...(runs.get(key) ?? []), supply]);
  }
  return [...runs].flatMap(([record, run]): readonly Draft[] => {
    const readings = run.reduce((sum, { draw }) => sum + readingsOf(draw), 0);
    const [first] = run;
    if (readings >= size || !first) return [];
    return [
      {
        place: placeOf(first.plan, 'draws', first.index, 'units'),
        message: `${first.plan.id} supplies ${protocol.id}${record === '' ? '' : ` (${record})`} with units for ${words(readings)}, its sample needs ${size}`,
        hint: 'Draw more units, or state how many readings a unit gives.',
        records: [first.plan.id, protocol.id],
        related: [{ place: placeOf(protocol, 'sampling', 'size'), message: `the sample of ${protocol.id}` }],
        data: { readings, size },
      },
    ];
  });
};

const wrongState = (protocol: Protocol, supplies: readonly Supply[]): readonly Draft[] => {
  const { condition } = protocol.fields;
  const states = supplies.map(({ placed }) => conditionAfter(placed?.chain ?? []));
  const [first] = supplies;
  if (condition === undefined || !first || states.includes(condition)) return [];
  // Words that the tree does not know are left to people.
  if (!['fresh', 'aged', 'shipped', 'aged and shipped'].includes(condition)) return [];
  return [
    {
      place: placeOf(first.plan, 'draws', first.index, 'node'),
      message: `${first.plan.id} supplies ${protocol.id} from "${first.draw.node}" with units that are ${states[0]}, it tests units that are ${condition}`,
      hint: 'Draw from a node that follows the right steps, or correct the condition.',
      records: [first.plan.id, protocol.id],
      related: [{ place: placeOf(protocol, 'condition'), message: `the condition of ${protocol.id}` }],
    },
  ];
};

const notSterilised = (protocol: Protocol, supplies: readonly Supply[]): readonly Draft[] =>
  (protocol.fields.conditioning ?? []).some((step) => /sterilis|steriliz/i.test(step))
    ? supplies
        .filter(({ placed }) => !isSterilised(placed?.chain ?? []))
        .map(({ plan, draw, index }) => ({
          place: placeOf(plan, 'draws', index, 'node'),
          message: `${plan.id} supplies ${protocol.id} from "${draw.node}", which no sterilisation precedes, and the protocol tests sterilised units`,
          hint: 'Draw from a node after sterilisation.',
          records: [plan.id, protocol.id],
          related: [
            { place: placeOf(protocol, 'conditioning'), message: `the conditioning of ${protocol.id}` },
          ],
        }))
    : [];
