import { fewestValuesForNormality } from '../../statistics/anderson-darling.ts';
import {
  type BoxCoxEstimate,
  boxCox,
  estimateBoxCoxPower,
  estimatedPowerToleranceInterval,
  powerRange,
  transformedToleranceInterval,
} from '../../statistics/box-cox.ts';
import { confidenceReliability, fixed } from '../number-text.ts';
import type { Assumption, CharacteristicEvidence } from '../result.ts';
import { extremesOf } from './extremes.ts';
import { limitFault } from './limit-fault.ts';
import { lotMeans } from './lot-means.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';
import { namedValues } from './named-values.ts';
import { testNormality } from './normality.ts';
import { outlier } from './outlier.ts';
import { plotCorrelationValue } from './plot-correlation.ts';
import { runOrder, runOrderExplanation } from './run-order.ts';
import {
  boundValues,
  plannedBeforeTheData,
  sidesOf,
  type ToleranceBounds,
  toleranceVerdict,
} from './tolerance-verdict.ts';
import { undecidedOn, valuesByUnit } from './values-by-unit.ts';

/** Confidence of the interval of the power. */
const powerConfidence = 0.95;

const evaluate = ({ limits, perUnit, sampling, readings }: MethodInput): CharacteristicEvidence => {
  const taken = valuesByUnit(readings.list, perUnit);
  const { groups } = taken;
  const values = taken.ok ? taken.values : [];
  const base = { limits, sampleSize: groups.length, readings: values };
  if (!taken.ok) return undecidedOn(base, taken.reason, taken.remedy);
  const fault = limitFault(limits);
  if (fault) return undecidedOn(base, fault.reason, fault.remedy);
  const confidence = sampling.confidence ?? Number.NaN;
  const coverage = sampling.reliability ?? Number.NaN;
  const required = { coverage, confidence, sides: sidesOf(limits) };
  const estimate = estimateBoxCoxPower(values, { confidence: powerConfidence });
  if (!estimate.ok)
    return undecidedOn(
      base,
      estimate.reason,
      estimate.problem === 'not-positive'
        ? 'Use a method without transformation: only readings above 0 can be raised to any power.'
        : 'Take more units, or use an attribute method.',
    );
  const planned = sampling.power;
  const power = planned ?? estimate.value.power;
  const one = transformedToleranceInterval(values, { ...required, power });
  const interval = planned === undefined ? estimatedPowerToleranceInterval(values, required) : one;
  const decimals = readings.decimals;
  const named = namedValues(limits.unit, decimals);
  const plain = (places: number) => ({ decimals: places, unit: '1' });
  const plan = confidenceReliability(confidence, coverage);
  const extremes = extremesOf(values);
  const transformed = values.map((value) => boxCox(value, power));
  const { lowestPower, highestPower } = estimate.value;
  const bounds: ToleranceBounds = interval.ok
    ? {
        ...(interval.value.lower === undefined ? {} : { lower: interval.value.lower }),
        ...(interval.value.upper === undefined ? {} : { upper: interval.value.upper }),
      }
    : {};
  const numbers = [
    named('n', 'units', groups.length, plain(0)),
    named('minimum', 'smallest', extremes?.smallest ?? Number.NaN),
    named('maximum', 'largest', extremes?.largest ?? Number.NaN),
    named('power', planned === undefined ? 'best power' : 'planned power', power, plain(3)),
    named('power_estimate', 'power of highest likelihood', estimate.value.power, plain(3)),
    named('power_low', 'low end of the 95 % interval of the power', lowestPower, plain(3)),
    named('power_high', 'high end of the 95 % interval of the power', highestPower, plain(3)),
    named('power_to_plan', 'power to plan for further samples', estimate.value.suggestedPower, plain(2)),
    ...(one.ok
      ? [
          named('mean_transformed', 'mean of the transformed readings', one.value.mean, plain(4)),
          named(
            'standard_deviation_transformed',
            'standard deviation of the transformed readings',
            one.value.standardDeviation,
            plain(4),
          ),
          named('factor', 'tolerance factor k', one.value.factor, plain(4)),
        ]
      : []),
    ...plotCorrelationValue(transformed, 'the transformed readings'),
    ...boundValues(bounds, plan, limits.unit, decimals),
  ];
  const normality = testNormality(transformed, 'normal after transformation');
  const assumptions = [
    normality,
    ...powerAssumption(planned, estimate.value),
    ...lotMeans(groups, values, decimals),
    ...runOrder(values, groups),
    ...outlier(groups, transformed, 4, ', transformed'),
  ];
  const more = { values: numbers, assumptions };
  const distributionFree =
    'Look for mixed lots or an outlier; else plan nonparametric-tolerance-interval or an attribute plan, with new units.';
  if (normality.outcome !== 'met')
    return undecidedOn(
      base,
      normality.outcome === 'not met'
        ? `the transformed readings do not look normal (${normality.detail}), so the tolerance interval does not hold`
        : `whether the transformed readings are normal cannot be tested (${normality.detail}), so the tolerance interval has no ground`,
      normality.outcome === 'not met' ? distributionFree : 'Take more units, or use an attribute plan.',
      more,
    );
  if (planned !== undefined && (planned < lowestPower || planned > highestPower))
    return undecidedOn(
      base,
      `the readings speak against the planned power ${planned}: by them it lies from ${fixed(lowestPower, 2)} to ${fixed(highestPower, 2)}`,
      distributionFree,
      more,
    );
  const { smallest, largest } = powerRange;
  const isCut = lowestPower <= smallest + 1e-6 || highestPower >= largest - 1e-6;
  if (planned === undefined && isCut)
    return undecidedOn(
      base,
      `the interval of the power reaches an end of the range from ${smallest} to ${largest}, so what lies beyond is not known`,
      'No power makes much difference to such readings: plan a method without transformation, or a power, with new units.',
      more,
    );
  if (!interval.ok)
    return undecidedOn(
      base,
      interval.reason,
      'Plan a power of 0 or more, or a method without transformation, with new units.',
      more,
    );
  return { ...base, ...toleranceVerdict(bounds, limits, plan, decimals), ...more };
};

const powerAssumption = (
  planned: number | undefined,
  { power, lowestPower, highestPower }: BoxCoxEstimate,
): readonly Assumption[] => {
  const isAtEdge = power <= powerRange.smallest || power >= powerRange.largest;
  const interval = `95 % interval ${fixed(lowestPower, 2)} to ${fixed(highestPower, 2)}${isAtEdge ? ', the best power at the end of what is searched, so that none may fit' : ''}`;
  if (planned === undefined)
    return [
      {
        name: 'power',
        outcome: 'not tested',
        detail: `not planned: the widest tolerance interval over its ${interval} is taken, best power ${fixed(power, 2)}`,
      },
    ];
  return [
    {
      name: 'planned power',
      outcome: planned >= lowestPower && planned <= highestPower ? 'met' : 'not met',
      detail: `${planned}, by the readings ${interval}`,
    },
  ];
};

export const transformedNormalToleranceIntervalMethod: EvidenceMethod = {
  name: 'transformed-normal-tolerance-interval',
  title: 'Tolerance interval after a power transformation',
  basis:
    'Box and Cox, Journal of the Royal Statistical Society B 26 (1964); exact normal tolerance factors, ISO 16269-6:2014',
  explain: `The readings are transformed to (x^power - 1) / power, or to log x where the power is 0. The exact normal tolerance interval of the transformed readings is carried back to the scale of the readings: the transformation keeps the order, so coverage and confidence stay. The verdict is \`pass\` where the interval keeps the limits.

Write the power into the protocol, as \`power\` under \`sampling\`, before the data are taken, from earlier data on the same characteristic: 0 is the logarithm, 0.5 the square root, -1 the inverse. The interval is then exact. The data are still asked: the profile likelihood of the power, with the Jacobian of the transformation, gives its 95 % interval, and where the planned power lies outside, the verdict is \`undecided\`.

Without \`power\` it is found from the readings, and that costs. Taken as if it had been known, the best power would make a bound that is said to hold with 95 % confidence hold in 80 to 90 % of samples. So the widest interval over all powers of the 95 % interval is taken (from -5 to 5). In simulations of normal, lognormal, gamma and squared normal populations its confidence was about 99 % for a stated 95 %: it asks for more margin or more units. The report names the power to plan next time: 1 (none) if the interval holds it, else 0 (the logarithm), else the nearest of -2, -1, -0.5, 0.5 and 2 in the interval, else the best power.

It holds for independent units that are normal after the transformation. That is tested (Anderson-Darling, from 8 units on) at the level 0.05; where it fails, or there are fewer units, the verdict is \`undecided\`. Readings must be above 0. The correlation of the probability plot (Filliben, 1975) is reported and decides nothing. Several readings of one unit are first made one value by \`per_unit\`.

Where it is undecided, look for mixed lots or an outlier, which no method removes by itself; then plan \`nonparametric-tolerance-interval\` or an attribute plan, with new units. Caution: far out in a tail a transformation is an extrapolation. A reliability of 0.99 from 30 readings rests on the transformed readings being normal where none of them lies.

${plannedBeforeTheData}

${runOrderExplanation}

Needs \`confidence\` and \`reliability\` under \`sampling\`; \`power\` is advised.`,
  needs: ['confidence', 'reliability'],
  statesReliability: true,
  fewestUnits: () => fewestValuesForNormality,
  evaluate,
};
