import {
  type ConditioningNode,
  type ConditioningPlan,
  conditioningPlans,
  plannedAgeing,
} from '../evidence/conditioning-tree.ts';
import { isRealDate } from '../records/calendar.ts';
import { daysBetween, daysOf, durationOf, sameDuration } from '../records/duration-words.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { ageingDuration } from '../statistics/ageing.ts';
import { type Draft, defineCheck } from './check.ts';

type Ageing = NonNullable<ConditioningNode['ageing']>;

const fields = [
  ['q10', 'q10'],
  ['temperature', 'ageing_temperature'],
  ['reference_temperature', 'reference_temperature'],
] as const;

const two = (value: number): string => value.toFixed(2);

export const plannedAgeingTooShort = defineCheck({
  code: 'planned-ageing-too-short',
  level: 'error',
  title: 'The planned ageing does not reach the shelf life that is claimed',
  basis:
    'ASTM F1980 (ageing time = claimed time / Q10^((chamber - storage) / 10), from memory; worked figures of public calculators agree); ISO 13485:2016 7.3.6',
  explain:
    'A conditioning plan ages units for fewer days than the claim divided by the ageing factor, rounded up; or the days between its two dates are fewer than it says; or its factor and temperatures are not those of the analysis that evaluates the run; or the claim of the plan is not the shelf life of plinth.yaml.\n\nThe mistake shows when the chamber has been emptied, and costs another run of months.\n\nPlan the days that the formula asks for. Whether the formula may be used at all, with this Q10 and these materials, is a judgement of qualified people.',
  examines: 'nodes of accelerated ageing, and claims of conditioning plans',
  subjects: ({ graph }) =>
    conditioningPlans(graph).flatMap((plan) => [
      ...(plan.fields.claim === undefined ? [] : [{ plan, node: undefined, index: -1 }]),
      ...plan.fields.nodes.flatMap((node, index) =>
        node.step === 'accelerated ageing' && node.ageing !== undefined ? [{ plan, node, index }] : [],
      ),
    ]),
  judge: ({ plan, node, index }, { project, graph }): readonly Draft[] => {
    const phrase = project.fields.phrases?.['shelf_life'];
    const claim = durationOf(plan.fields.claim ?? phrase ?? '');
    if (!node) {
      const shelfLife = durationOf(phrase ?? '');
      return !claim || !shelfLife || sameDuration(claim, shelfLife)
        ? []
        : [
            {
              place: placeOf(plan, 'claim'),
              message: `${plan.id} is made for ${plan.fields.claim}, the shelf life is ${phrase}`,
              hint: 'Plan for the shelf life that is claimed, or change the wording in plinth.yaml.',
              records: [plan.id],
              related: [
                { place: project.yaml.place(['phrases', 'shelf_life']), message: 'the wording "shelf_life"' },
              ],
            },
          ];
    }
    const { ageing } = node;
    if (!ageing) return [];
    return [
      ...(claim ? tooShort(plan, node, index, ageing, daysOf(claim)) : []),
      ...betweenDates(plan, node, index, ageing),
      ...againstAnalysis(plan, index, ageing, graph.recordOf('analysis', node.analysis ?? '')),
    ];
  },
});

const tooShort = (
  plan: ConditioningPlan,
  node: ConditioningNode,
  index: number,
  ageing: Ageing,
  claimDays: number,
): readonly Draft[] => {
  const place = placeOf(plan, 'nodes', index, 'ageing', 'days');
  const planned = plannedAgeing(ageing);
  if (!planned)
    return [
      {
        place: placeOf(plan, 'nodes', index, 'ageing', 'q10'),
        message: `${plan.id}: q10 and temperatures of "${node.node}" give no factor that can be computed with`,
        hint: 'Correct q10, which is above 0, and the temperatures.',
        records: [plan.id],
      },
    ];
  const { factor } = planned;
  const { wholeDays } = ageingDuration({ realTimeDays: claimDays, factor });
  return ageing.days >= wholeDays
    ? []
    : [
        {
          place,
          message: `${plan.id}: "${node.node}" ages for ${ageing.days} d, ${claimDays} d of the claim need ${wholeDays} d at ${ageing.temperature} °C (factor ${two(factor)})`,
          hint: `Age for ${wholeDays} d, or claim ${Math.floor(ageing.days * factor)} d.`,
          records: [plan.id],
          data: { days: ageing.days, needed: wholeDays },
        },
      ];
};

const betweenDates = (
  plan: ConditioningPlan,
  { node, begins, ends }: ConditioningNode,
  index: number,
  ageing: Ageing,
): readonly Draft[] => {
  if (begins === undefined || ends === undefined || !isRealDate(begins) || !isRealDate(ends)) return [];
  const days = daysBetween(begins, ends);
  return days < 0 || days >= ageing.days
    ? []
    : [
        {
          place: placeOf(plan, 'nodes', index, 'ends'),
          message: `${plan.id}: "${node}" lasts ${days} d from ${begins} to ${ends}, and ages for ${ageing.days} d`,
          hint: 'Correct the dates or the days.',
          records: [plan.id],
          data: { days, stated: ageing.days },
        },
      ];
};

const againstAnalysis = (
  plan: ConditioningPlan,
  index: number,
  ageing: Ageing,
  analysis: RecordOf<'analysis'> | undefined,
): readonly Draft[] => {
  if (!analysis) return [];
  const calculation: Readonly<Record<string, unknown>> = analysis.fields.calculation;
  return fields.flatMap(([own, other]): readonly Draft[] => {
    const theirs = calculation[other];
    return typeof theirs !== 'number' || theirs === ageing[own]
      ? []
      : [
          {
            place: placeOf(plan, 'nodes', index, 'ageing', own),
            message: `${plan.id} plans ${own} ${ageing[own]}, and ${analysis.id} reckons with ${theirs}`,
            hint: 'Correct whichever is wrong.',
            records: [plan.id, analysis.id],
            related: [
              { place: placeOf(analysis, 'calculation', other), message: `${other} of ${analysis.id}` },
            ],
          },
        ];
  });
};
