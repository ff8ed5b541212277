import { decimalsOf, fixed, percent, printedNumber, valueText } from '../evidence/number-text.ts';
import type { CharacteristicEvidence, EvidenceResult, NamedValue } from '../evidence/result.ts';
import { transformOf } from '../evidence/transform.ts';
import { biasPlot } from '../figures/bias-plot.ts';
import type { Drawing, Mark } from '../figures/drawing.ts';
import { groupPlot } from '../figures/group-plot.ts';
import { histogram } from '../figures/histogram.ts';
import { attributePlan, operatingCharacteristic } from '../figures/operating-characteristic.ts';
import { probabilityPlot } from '../figures/probability-plot.ts';
import { runChart } from '../figures/run-chart.ts';
import { contributorBars, shareBars } from '../figures/share-bars.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { unitText, withUnit } from '../records/units.ts';

/** A figure that the evidence of one characteristic allows. */
export interface EvidenceFigure {
  readonly name: string;
  readonly caption: string;
  /** Whether it belongs to the working; the others are drawn where they are asked for. */
  readonly usual: boolean;
  readonly drawing: Drawing;
}

/** Methods that rest on a normal distribution with this mean and standard deviation. */
const normalMethods = ['normal-tolerance-interval', 'mean', 'capability'];

/** Fewer readings than this show nothing that a list does not. */
const fewestReadings = 5;

/** The figures of one characteristic, in the order in which a reader wants them. */
export const figuresOf = (
  result: EvidenceResult,
  evidence: CharacteristicEvidence,
  graph: TraceGraph,
): readonly EvidenceFigure[] => {
  const all = [
    ...readingFigures(result, evidence, graph),
    ...planFigure(result, evidence, graph),
    ...chartFigure(evidence),
    ...contributorFigure(evidence),
  ];
  const subject = `${evidence.limits.characteristic}, ${result.record}`;
  return all.flatMap(({ name, title, usual, drawing }) =>
    drawing ? [{ name, caption: `${title}: ${subject}`, usual, drawing }] : [],
  );
};

interface Candidate {
  readonly name: string;
  readonly title: string;
  readonly usual: boolean;
  readonly drawing: Drawing | undefined;
}

const valueNamed = ({ values }: CharacteristicEvidence, key: string): NamedValue | undefined =>
  values.find((value) => value.key === key);

const printed = ({ label, value, unit, decimals }: NamedValue): Mark => ({
  label: `${label} ${valueText({ value, unit, decimals })}`,
  value,
});

/** What the heading of the readings' column calls them, without its unit. */
const measuredColumn = (
  { record }: EvidenceResult,
  characteristic: string,
  graph: TraceGraph,
): string | undefined =>
  (
    graph.recordOf('verification-record', record) ?? graph.recordOf('validation-record', record)
  )?.fields.data?.columns?.find((each) => each.characteristic === characteristic)?.column;

const readingFigures = (
  result: EvidenceResult,
  evidence: CharacteristicEvidence,
  graph: TraceGraph,
): readonly Candidate[] => {
  const { limits, readings: values } = evidence;
  // A shift between two groups is no reading, so limits of the shift say nothing beside them.
  if (evidence.groups)
    return groupFigure(evidence, evidence.groups, measuredColumn(result, limits.characteristic, graph));
  // Where every unit conformed, a plan that counts has one bar to show.
  if (values.length < fewestReadings || values.every((value) => value === values[0])) return [];
  const mean = valueNamed(evidence, 'mean');
  const deviation = valueNamed(evidence, 'standard_deviation');
  const own = values.reduce((sum, value) => sum + value, 0) / values.length;
  const decimals =
    mean?.decimals ?? Math.min(4, Math.max(...values.map((value) => decimalsOf(String(value)))));
  const limit = (side: 'lower' | 'upper'): Mark | undefined => {
    const value = limits[side];
    const written = side === 'lower' ? limits.lowerText : limits.upperText;
    return value === undefined
      ? undefined
      : { label: `${side} limit ${withUnit(printedNumber(written ?? String(value)), limits.unit)}`, value };
  };
  const [lower, upper] = [limit('lower'), limit('upper')];
  const bounds = ['lower_bound', 'upper_bound']
    .flatMap((key) => valueNamed(evidence, key) ?? [])
    .filter((value) => value.unit === limits.unit)
    .map(printed);
  const base = {
    characteristic: limits.characteristic,
    unit: limits.unit === '1' ? '' : unitText(limits.unit),
    values,
    decimals,
  };
  const isNormal = normalMethods.includes(result.method) && mean !== undefined && deviation !== undefined;
  const normal = isNormal ? { mean: mean.value, standardDeviation: deviation.value } : undefined;
  const test = evidence.assumptions.find((assumption) => assumption.name === 'normal distribution')?.detail;
  return [
    {
      name: 'histogram',
      title: isNormal ? 'Readings, limits and fitted curve' : 'Readings and limits',
      usual: true,
      drawing: histogram({
        ...base,
        limits: [lower, upper].filter((mark) => mark !== undefined),
        bounds,
        ...(normal ? { normal } : {}),
      }),
    },
    {
      name: 'probability-plot',
      title: 'Normal probability plot',
      usual: isNormal,
      drawing: probabilityPlot({
        ...base,
        mean: mean?.value ?? own,
        standardDeviation:
          deviation?.value ??
          Math.sqrt(values.reduce((sum, value) => sum + (value - own) ** 2, 0) / (values.length - 1)),
        bounds,
        ...(lower ? { lower } : {}),
        ...(upper ? { upper } : {}),
        ...(test === undefined ? {} : { test }),
      }),
    },
    ...transformedPlot(result, evidence),
    {
      name: 'run-chart',
      title: 'Readings in the order of the file',
      usual: false,
      drawing: runChart({
        ...base,
        lines: [
          {
            label: `mean ${withUnit(fixed(mean?.value ?? own, decimals), limits.unit)}`,
            value: mean?.value ?? own,
          },
        ],
        ...(lower ? { lower } : {}),
        ...(upper ? { upper } : {}),
      }),
    },
  ];
};

const groupFigure = (
  { limits }: CharacteristicEvidence,
  groups: NonNullable<CharacteristicEvidence['groups']>,
  column: string | undefined,
): readonly Candidate[] => [
  {
    name: 'group-plot',
    title: 'Readings and means of the groups',
    usual: true,
    drawing: groupPlot({
      // The characteristic is the shift between the groups; what is drawn are the readings that it is computed from.
      characteristic: column === undefined ? 'readings' : `readings, ${column}`,
      unit: limits.unit === '1' ? '' : unitText(limits.unit),
      decimals: Math.min(
        6,
        1 + Math.max(...groups.flatMap((group) => group.values.map((value) => decimalsOf(String(value))))),
      ),
      groups,
    }),
  },
];

/** The probability plot on the scale on which the readings are normal, for methods that transform them. */
const transformedPlot = (result: EvidenceResult, evidence: CharacteristicEvidence): readonly Candidate[] => {
  const transform = transformOf(result, evidence);
  if (!transform) return [];
  const { mean, standardDeviation } = transform;
  if (evidence.readings.some((value) => !(value > 0))) return [];
  const { limits } = evidence;
  const mark = (label: string, value: number | undefined): Mark | undefined =>
    value === undefined || value <= 0 ? undefined : { label, value: transform.of(value) };
  const lower = mark('lower limit, transformed', limits.lower);
  const upper = mark('upper limit, transformed', limits.upper);
  const test = evidence.assumptions.find((assumption) => /normal/.test(assumption.name))?.detail;
  return [
    {
      name: 'transformed-probability-plot',
      title: 'Normal probability plot of the transformed readings',
      usual: true,
      drawing: probabilityPlot({
        characteristic: `${transform.name} ${limits.characteristic}`,
        unit: '',
        values: evidence.readings.map(transform.of),
        decimals: 4,
        mean,
        standardDeviation,
        bounds: ['lower_bound', 'upper_bound'].flatMap((key) => {
          const bound = valueNamed(evidence, key);
          return (bound && mark(`${bound.label}, transformed`, bound.value)) ?? [];
        }),
        ...(lower ? { lower } : {}),
        ...(upper ? { upper } : {}),
        ...(test === undefined ? {} : { test }),
      }),
    },
  ];
};

/** The operating characteristic of an attribute plan, as far as it still accepts anything. */
const planFigure = (
  result: EvidenceResult,
  evidence: CharacteristicEvidence,
  graph: TraceGraph,
): readonly Candidate[] => {
  if (result.method !== 'attribute' && result.method !== 'success-run') return [];
  const accept = valueNamed(evidence, 'acceptance_number')?.value;
  const sampling =
    result.protocol === undefined
      ? undefined
      : (
          graph.recordOf('verification-protocol', result.protocol) ??
          graph.recordOf('validation-protocol', result.protocol)
        )?.fields.sampling;
  const size = result.plannedSize ?? evidence.sampleSize;
  if (accept === undefined || !sampling || size < 1 || accept >= size) return [];
  const plan = attributePlan(size, accept);
  const share = sampling.reliability === undefined ? undefined : 1 - sampling.reliability;
  let upTo = Math.max(0.001, share ?? 0);
  while (upTo < 1 && plan.acceptance(upTo) > 0.01) upTo *= 1.25;
  return [
    {
      name: 'operating-characteristic',
      title: 'Operating characteristic of the plan',
      usual: true,
      drawing: operatingCharacteristic({
        plans: [plan],
        upTo: Math.min(1, upTo),
        marks:
          share === undefined
            ? []
            : [
                {
                  share,
                  label: `reliability ${percent(1 - share, decimalsOf(String(Number(((1 - share) * 100).toPrecision(12)))))}`,
                },
              ],
      }),
    },
  ];
};

const chartFigure = ({ chart, limits }: CharacteristicEvidence): readonly Candidate[] => {
  if (chart?.kind === 'gauge-components') {
    const tolerance = chart.components.map((each) => each.percentTolerance ?? 0);
    return [
      {
        name: 'gauge-components',
        title: 'Components of variation',
        usual: true,
        drawing: shareBars({
          title: 'Components of variation',
          names: chart.components.map((each) => each.name),
          series: [
            { name: 'of total variance', shares: chart.components.map((each) => each.percentContribution) },
            {
              name: 'of study variation',
              shares: chart.components.map((each) => each.percentStudyVariation),
            },
            ...(tolerance.some((share) => share > 0) ? [{ name: 'of tolerance', shares: tolerance }] : []),
          ],
          ...(chart.accepted === undefined
            ? {}
            : {
                limit: {
                  label: `gauge accepted up to ${chart.accepted} % of the tolerance`,
                  value: chart.accepted,
                },
              }),
        }),
      },
    ];
  }
  if (chart?.kind === 'bias')
    return [
      {
        name: 'bias-plot',
        title: 'Bias at the references, with limits and fitted line',
        usual: true,
        drawing: biasPlot({
          unit: limits.unit === '1' ? '' : unitText(limits.unit),
          decimals: Math.min(6, Math.max(2, decimalsOf(String(limits.upper ?? 0)) + 2)),
          readings: chart.readings,
          references: chart.references,
          accepted: limits.upper ?? 0,
          ...(chart.line ? { line: chart.line } : {}),
        }),
      },
    ];
  return [];
};

const contributorFigure = ({ values }: CharacteristicEvidence): readonly Candidate[] => {
  const shares = values.filter((value) => /^share_\d+$/.test(value.key));
  return shares.length < 2
    ? []
    : [
        {
          name: 'contributor-bars',
          title: 'Shares of the contributors',
          usual: true,
          drawing: contributorBars(
            shares.map((each) => ({ name: each.label.replace(/^share of /, ''), share: each.value })),
          ),
        },
      ];
};
