import type { Block, Document, Row, Table } from '../document/model.ts';
import { shortCaution } from '../document/short-caution.ts';
import { limitWords } from '../evidence/limit-words.ts';
import { confidenceReliability, fixed, printedNumber } from '../evidence/number-text.ts';
import { operatingCharacteristic } from '../figures/operating-characteristic.ts';
import { type PlanComparison, reachesChance } from '../planning/compare-plans.ts';
import { type ComparedPlan, type SequentialCandidate, unitsOf } from '../planning/compared-plan.ts';
import { withUnit } from '../records/units.ts';
import { cell, notice, text } from './cells.ts';
import { characterCurves } from './character-plot.ts';
import { heading, paragraph, table } from './vouch-pieces.ts';

export interface PlanDocumentInputs {
  readonly comparison: PlanComparison;
  /** Unit of mean, standard deviation and limits; `1` where none was given. */
  readonly unit: string;
  /** Confidence and reliability as they were written. */
  readonly written: { readonly confidence: string; readonly reliability: string };
  /** Figures as characters for a terminal, or as drawings for pages. */
  readonly figures: 'characters' | 'drawings';
  readonly toolVersion: string;
}

const caution =
  'A plan is chosen, with its reason, before the units are made and measured. What this report expects of them is an assumption: if it is wrong, the chance of passing is another one, but the statement that a passed plan supports stays as it is.';

/** Sampling plans that support one statement, side by side, with what each costs and how often it passes. */
export const planDocument = (inputs: PlanDocumentInputs): Document => {
  const { comparison, toolVersion } = inputs;
  const { confidence, reliability } = comparison.statement;
  const statement = confidenceReliability(confidence, reliability);
  return {
    id: 'plan',
    title: `Sampling plans for ${statement}`,
    subtitle: `With ${percentOf(confidence)} confidence, at least ${percentOf(reliability)} of all units conform`,
    number: `Plans ${statement}`,
    revision: '',
    status: 'for choosing a plan',
    date: '',
    organisation: '',
    product: '',
    language: 'en-GB',
    signatures: [],
    blocks: [
      ...expectation(inputs),
      heading(1, 'Plans that support the statement'),
      plansTable(comparison),
      ...unavailablePlans(comparison),
      ...choice(inputs),
      ...comparison.plans.flatMap((plan) => (plan.kind === 'sequential' ? sequentialBlocks(plan) : [])),
      heading(1, 'Operating characteristic'),
      ...curveBlocks(inputs),
      ...(comparison.expected?.distances
        ? [
            paragraph(
              text(
                'With two limits, the plan by variables is drawn for a spread that grows about the expected mean.',
              ),
            ),
          ]
        : []),
      operatingTable(comparison),
    ],
    footnotes: [],
    caution: shortCaution,
    provenance: [
      {
        name: 'Formulas from',
        value:
          'attribute: exact binomial; variables: exact tolerance factors, ISO 16269-6:2014, with the noncentral t distribution (two limits: integral over the spread); sequential: Wald, Sequential Analysis (1947), followed exactly from unit to unit',
      },
      { name: 'Compiled with', value: `plinth ${toolVersion}` },
      { name: 'Caution', value: caution },
    ],
    recordTitles: new Map(),
  };
};

/** A share as per cent with all its digits. */
const percentOf = (share: number): string => `${Number((share * 100).toPrecision(12))} %`;

/** A share of failing units as per cent, to three digits that count. */
const shareText = (share: number): string => {
  const value = share * 100;
  return value === 0 || value >= 1e-4
    ? `${Number(value.toPrecision(3))} %`
    : `${printedNumber(value.toExponential(1))} %`;
};

/** A probability to four decimals; never 1 or 0 where it is not. */
const chanceText = (probability: number): string => {
  const words = fixed(probability, 4);
  if (probability < 1 && words === '1.0000') return '> 0.9999';
  return probability > 0 && Number(words) < 1e-4 ? '< 0.0001' : words;
};

const planTitle = (plan: ComparedPlan): string => {
  if (plan.kind === 'attribute') return `attribute, ${plan.name}`;
  if (plan.kind === 'variables') return `variables, ${plan.sides === 'one' ? 'one limit' : 'two limits'}`;
  return 'sequential';
};

const ruleText = (plan: ComparedPlan): string => {
  if (plan.kind === 'attribute') return `at most ${plan.acceptanceNumber} failing`;
  if (plan.kind === 'variables') return `k = ${fixed(plan.factor, 4)}`;
  return `on average; ${plan.largestSample} at most`;
};

const unitsText = (plan: ComparedPlan): string =>
  plan.kind === 'sequential' ? fixed(plan.averageSampleNumber, 1) : String(plan.sampleSize);

const expectation = ({ comparison, unit }: PlanDocumentInputs): readonly Block[] => {
  const { expected, chance, limit } = comparison;
  if (!expected)
    return [
      notice(
        'No quality was given, so only plans that count failures are shown, without their chance of passing. Give --fraction, or --mean and --sd with --lower or --upper, to see how often each plan passes, and plans that measure.',
      ),
    ];
  const { spread } = expected;
  return [
    {
      kind: 'particulars',
      entries: [
        ...(spread
          ? [
              {
                name: 'Expected',
                value: [
                  text(
                    `mean ${withUnit(spread.mean, unit)}, standard deviation ${withUnit(spread.standardDeviation, unit)}; limits ${limitWords({ ...spread, unit })}`,
                  ),
                ],
              },
            ]
          : []),
        {
          name: 'Failing units',
          value: [
            text(
              `${shareText(expected.fraction)} expected, ${percentOf(limit)} is the most that the statement allows`,
            ),
          ],
        },
        {
          name: 'Wanted',
          value: [text(`a probability of at least ${chance} of passing at the expected quality`)],
        },
      ],
    },
  ];
};

const plansTable = (comparison: PlanComparison): Table => {
  const { expected, chance, plans, cheapest } = comparison;
  return table(
    'Plans side by side',
    [
      { title: 'Plan', width: 32 },
      { title: 'Units', width: 12, align: 'right' },
      { title: 'Rule', width: 24 },
      ...(expected
        ? [
            { title: 'Passes', width: 12, align: 'right' as const },
            { title: `At least ${chance}`, width: 20 },
          ]
        : []),
    ],
    plans.map((plan) => {
      const reaches = reachesChance(plan, chance);
      return [
        cell(text(planTitle(plan), { bold: plan === cheapest })),
        cell(text(unitsText(plan), { bold: plan === cheapest })),
        cell(text(ruleText(plan))),
        ...(plan.chance === undefined
          ? []
          : [
              cell(text(chanceText(plan.chance))),
              cell(
                text(reaches ? (plan === cheapest ? 'yes, cheapest' : 'yes') : 'no', {
                  tone: reaches ? 'good' : 'caution',
                }),
              ),
            ]),
      ];
    }),
  );
};

const unavailablePlans = ({ unavailable }: PlanComparison): readonly Block[] =>
  unavailable.map(({ kind, reason }) =>
    notice(`No ${kind === 'variables' ? 'plan by variables' : 'sequential plan'}: ${reason}.`, 'caution'),
  );

/** What speaks for which plan, and how the cheapest one is written into a protocol. */
const choice = ({ comparison, written }: PlanDocumentInputs): readonly Block[] => {
  const { cheapest, expected, plans, chance } = comparison;
  const sequential = plans.find((plan) => plan.kind === 'sequential');
  if (!cheapest)
    return [
      notice(
        `No plan passes the expected quality with a probability of at least ${chance}. Make the product better or its margin wider, claim less, or take the risk of failing a good product.`,
        'bad',
      ),
    ];
  const lines = [
    'sampling:',
    `  kind: ${cheapest.kind === 'variables' ? 'normal-tolerance-interval' : 'attribute'}`,
    `  confidence: ${written.confidence}`,
    `  reliability: ${written.reliability}`,
    ...(cheapest.kind === 'attribute' ? [`  accept: ${cheapest.acceptanceNumber}`] : []),
    `  size: ${unitsOf(cheapest)}`,
    '  rationale: <why this plan>',
  ];
  return [
    ...(expected && cheapest.kind === 'variables'
      ? [
          paragraph(
            text(
              'A plan by variables needs readings from a normal distribution; where the test of normality fails, its verdict is undecided. That test, at the level 0.05, also fails about 5 of 100 samples that are normal, which the probabilities here leave out. A plan that counts failures needs no distribution.',
            ),
          ),
        ]
      : []),
    ...plans.flatMap((plan) =>
      plan.kind === 'variables' && plan.sizeOfStatement !== undefined
        ? [
            paragraph(
              text(
                `By variables, ${plan.sizeOfStatement} units would do for the statement itself. The plan takes ${plan.sampleSize}, because with fewer normality could not be tested and the verdict would be undecided.`,
              ),
            ),
          ]
        : [],
    ),
    ...(sequential && sequential.chance !== undefined && unitsOf(sequential) < unitsOf(cheapest)
      ? [
          paragraph(
            text(
              `The sequential plan takes fewer units on average, ${unitsText(sequential)}, but may go on up to ${sequential.largestSample}.`,
            ),
          ),
        ]
      : []),
    {
      kind: 'paragraph',
      children: [text('In a protocol, the plan with the fewest units reads:')],
      leadsIn: true,
    },
    { kind: 'code', value: lines.join('\n'), language: 'yaml' },
  ];
};

const sequentialBlocks = (plan: SequentialCandidate): readonly Block[] => [
  heading(1, 'The sequential plan'),
  paragraph(
    text(
      `After each unit, accept where the failing units are at most ${fixed(plan.slope, 5)} n − ${fixed(plan.acceptanceIntercept, 4)}, reject where they are at least ${fixed(plan.slope, 5)} n + ${fixed(plan.rejectionIntercept, 4)}, else take another unit. After unit ${plan.largestSample}, accept with at most ${plan.acceptedAtEnd} failing. Units on average: ${fixed(plan.averageSampleNumber, 1)} at the expected quality, ${fixed(plan.averageSampleNumberAtLimit, 1)} at the quality to be kept out. The risks hold for the plan as it stands here, with its end. Plinth has no evidence method for it.`,
    ),
  ),
  table(
    'When failing units decide',
    [
      { title: 'Failing units', width: 30, align: 'right' },
      { title: 'Accept from unit', width: 35, align: 'right' },
      { title: 'Reject up to unit', width: 35, align: 'right' },
    ],
    plan.steps.map(({ failures, acceptFrom, rejectUpTo }) => [
      cell(text(String(failures))),
      cell(text(acceptFrom === undefined ? 'at the end at most' : String(acceptFrom))),
      cell(text(rejectUpTo === undefined ? 'never' : String(rejectUpTo))),
    ]),
  ),
];

/** Right end of the curves: twice what the statement allows, and past an expected quality that is worse. */
const endOf = ({ limit, expected }: PlanComparison): number =>
  Math.min(1, Math.max(2 * limit, 1.25 * (expected?.fraction ?? 0)));

const curveBlocks = ({ comparison, figures }: PlanDocumentInputs): readonly Block[] => {
  const { plans, limit, expected } = comparison;
  const upTo = endOf(comparison);
  const marked = [limit, ...(expected ? [expected.fraction] : [])];
  if (figures === 'characters')
    return [
      {
        kind: 'code',
        value: characterCurves({
          curves: plans.map(({ sign, acceptance }) => ({ sign, at: acceptance })),
          upTo,
          marks: marked,
          axisText: shareText,
          axisName: 'failing units in the population; upwards, the probability of passing',
        }),
      },
      paragraph(
        text(
          `${plans.map(({ sign, name }) => `${sign} is ${name}`).join(', ')}; * where curves meet; dots at ${expected ? `${shareText(expected.fraction)} (expected) and ` : ''}${percentOf(limit)} (the most that the statement allows).`,
        ),
      ),
    ];
  const marks = [
    ...(expected ? [{ share: expected.fraction, label: `expected ${shareText(expected.fraction)}` }] : []),
    { share: limit, label: `claim: at most ${percentOf(limit)}` },
  ];
  // Lines of four plans can be told apart in grey.
  const counting = plans.filter((plan) => plan.kind === 'attribute' && plan.acceptanceNumber <= 3);
  const others = plans.filter((plan) => plan === comparison.cheapest || !counting.includes(plan));
  return [
    curveFigure('Plans that count failures', counting, upTo, marks),
    ...(others.some((plan) => !counting.includes(plan))
      ? [curveFigure('Fewest units, and plans of other kinds', others, upTo, marks)]
      : []),
  ].filter((block) => block !== undefined);
};

const curveFigure = (
  caption: string,
  plans: readonly ComparedPlan[],
  upTo: number,
  marks: readonly { readonly share: number; readonly label: string }[],
): Block | undefined => {
  const drawing = operatingCharacteristic({
    plans: plans.map((plan) => ({
      name: `${plan.name}, ${plan.kind === 'sequential' ? `${unitsText(plan)} on average` : `${plan.sampleSize} units`}`,
      acceptance: plan.acceptance,
    })),
    upTo,
    marks,
  });
  return drawing ? { kind: 'figure', caption, ...drawing } : undefined;
};

const operatingTable = ({ plans, points, limit, expected }: PlanComparison): Table => {
  const rows: Row[] = points.map(({ share, acceptance }) => {
    const isMarked = share === limit || share === expected?.fraction;
    return {
      cells: [
        cell(text(shareText(share), { bold: isMarked })),
        ...acceptance.map((probability) => cell(text(chanceText(probability), { bold: isMarked }))),
      ],
    };
  });
  return {
    kind: 'table',
    caption: 'Probability of passing by the share of failing units',
    columns: [
      { title: 'Failing', width: 16, align: 'right' },
      ...plans.map(({ name }) => ({ title: name, width: 84 / plans.length, align: 'right' as const })),
    ],
    rows,
  };
};
