import { withUnit } from '../../records/units.ts';
import { simulationSeed } from '../../statistics/seeded-generator.ts';
import { weibullPercentileBound, weibullReliabilityBound } from '../../statistics/weibull-bound.ts';
import { weibullFitTest } from '../../statistics/weibull-fit-test.ts';
import { confidenceReliability, confidenceText, decimalsThatTell, fixed } from '../number-text.ts';
import type { Assumption, CharacteristicEvidence } from '../result.ts';
import { limitText } from './conformity.ts';
import { limitFault } from './limit-fault.ts';
import { lotMeans } from './lot-means.ts';
import type { EvidenceMethod, MethodInput } from './method.ts';
import { namedValues } from './named-values.ts';
import { normalityLevel } from './normality.ts';
import { runOrder, runOrderExplanation } from './run-order.ts';
import { boundValues, plannedBeforeTheData, toleranceVerdict } from './tolerance-verdict.ts';
import { beyondRange, shownValues, unitRanges } from './unit-ranges.ts';
import { undecidedOn } from './values-by-unit.ts';

/** A bound nearer to the limit than this many standard errors of the simulation does not decide. */
const simulationErrors = 3;

const evaluate = ({ limits, perUnit, sampling, readings }: MethodInput): CharacteristicEvidence => {
  const taken = unitRanges(readings.list, perUnit);
  const { groups } = taken;
  const ranges = taken.ok ? taken.ranges : [];
  const values = shownValues(ranges);
  const base = { limits, sampleSize: groups.length, readings: values, ...beyondRange(ranges) };
  if (!taken.ok) return undecidedOn(base, taken.reason, taken.remedy);
  const fault = limitFault(limits);
  if (fault) return undecidedOn(base, fault.reason, fault.remedy);
  const { lower: limit, unit } = limits;
  if (limit === undefined || limits.upper !== undefined)
    return undecidedOn(
      base,
      'the method gives a lower bound only, and the acceptance has an upper limit',
      'Use the method for a lower limit alone; for an upper limit plan another one.',
    );
  if (ranges.some(({ low }) => low === Number.NEGATIVE_INFINITY))
    return undecidedOn(
      base,
      'some readings are below the range of the instrument',
      'Measure with an instrument that covers them: the weakest units decide a lower bound.',
    );
  const failures = ranges.filter(({ low, high }) => low === high).map(({ low }) => low);
  const censored = ranges.filter(({ low, high }) => low !== high).map(({ low }) => low);
  const sample = { failures, censored };
  const confidence = sampling.confidence ?? Number.NaN;
  const coverage = sampling.reliability ?? Number.NaN;
  const result = weibullPercentileBound(sample, { coverage, confidence, side: 'lower' });
  if (!result.ok)
    return undecidedOn(
      base,
      result.reason,
      result.problem === 'uneven-censoring'
        ? 'Hold every unit up to the same value, or use a distribution-free method.'
        : 'Take more units and test them until they fail, or use an attribute method.',
    );
  const { fit, censoring, estimate, bound, factor, simulationError } = result.value;
  const shown = limit > 0 ? weibullReliabilityBound(sample, { limit, confidence }) : undefined;
  const decimals = readings.decimals;
  const named = namedValues(unit, decimals);
  const plain = (decimalPlaces: number) => ({ decimals: decimalPlaces, unit: '1' });
  const plan = confidenceReliability(confidence, coverage);
  const numbers = [
    named('n', 'units', groups.length, plain(0)),
    named('failures', 'units that failed within the range', failures.length, plain(0)),
    named('censored', 'units that held to the end of the range', censored.length, plain(0)),
    named('shape', 'Weibull shape', fit.shape, plain(4)),
    named('scale', 'Weibull scale', fit.scale, { decimals: decimals + 2 }),
    named('estimate', `estimate of the value that ${confidenceText(coverage)} of units reach`, estimate, {
      decimals: decimals + 1,
    }),
    named('factor', 'factor q of scale exp(-q / shape)', factor, plain(4)),
    ...boundValues({ lower: bound }, plan, unit, decimals + 1),
    named('simulation_error', 'standard error of the simulation', simulationError, {
      decimals: decimals + 3,
    }),
    ...(shown?.ok
      ? [
          named(
            'reliability_bound',
            `${confidenceText(confidence)} lower bound of the share that keeps the limit`,
            // Rounded down: a bound must not be printed as certainty.
            Math.floor(shown.value.bound * 1e5) / 1e3,
            { decimals: 3, unit: '%' },
          ),
        ]
      : []),
  ];
  const fits = testFit(sample);
  const assumptions: readonly Assumption[] = [
    fits,
    ...(censoring === 'type I'
      ? [
          {
            name: 'end of the test',
            outcome: 'not tested' as const,
            detail: `${censored.length} of ${groups.length} units held to the end of the range, so the confidence is near the stated one, not exact`,
          },
        ]
      : []),
    ...lotMeans(groups, values, decimals),
    ...(censored.length === 0 ? runOrder(values, groups) : []),
  ];
  const more = { values: numbers, assumptions };
  if (fits.outcome !== 'met')
    return undecidedOn(
      base,
      fits.outcome === 'not met'
        ? `the readings do not look like a Weibull distribution (${fits.detail}), so the bound does not hold`
        : `whether the readings follow a Weibull distribution cannot be tested (${fits.detail}), so the bound has no ground`,
      fits.outcome === 'not met'
        ? 'Look for two kinds of failure, mixed lots or an outlier; else plan a distribution-free method or an attribute plan anew.'
        : 'Take more units, or use an attribute plan.',
      more,
    );
  if (Math.abs(bound - limit) < simulationErrors * simulationError) {
    const digits = decimalsThatTell(bound, limit, decimals + 1);
    return undecidedOn(
      base,
      `${plan} lower tolerance bound ${withUnit(fixed(bound, digits), unit)}, required ${limitText(limits)}: nearer to the limit than the simulation can tell`,
      'Take more units: a verdict must not hang on a simulation.',
      more,
    );
  }
  return { ...base, ...toleranceVerdict({ lower: bound }, limits, plan, decimals + 1), ...more };
};

/** Units were held up to a value beyond the last failure: the test of fit has no exact distribution then. */
const endsEarly = ({
  failures,
  censored,
}: {
  readonly failures: readonly number[];
  readonly censored: readonly number[];
}): boolean => censored.length > 0 && Math.max(...censored) > Math.max(...failures);

const testFit = (sample: {
  readonly failures: readonly number[];
  readonly censored: readonly number[];
}): Assumption => {
  const name = 'Weibull distribution';
  const test = weibullFitTest(sample);
  if (!test.ok) return { name, outcome: 'not tested', detail: test.reason };
  const { statistic, pValue, simulations } = test.value;
  return {
    name,
    outcome: pValue >= normalityLevel ? 'met' : 'not met',
    detail: `Anderson-Darling A² ${fixed(statistic, 3)}, p ${pValue < 0.001 ? 'below 0.001' : fixed(pValue, 3)}, counted from ${simulations} simulated samples${endsEarly(sample) ? ', as if the test had ended with the last failure' : ''}`,
  };
};

export const weibullLowerBoundMethod: EvidenceMethod = {
  name: 'weibull-lower-bound',
  title: 'Weibull lower bound',
  basis:
    'maximum likelihood and pivotal quantities; Thoman, Bain and Antle, Technometrics 12 (1970); Lawless, Technometrics 20 (1978)',
  explain: `Shape and scale of a Weibull distribution are found by maximum likelihood. The bound is scale x exp(-q / shape): with the stated confidence at least the stated share of all units reaches it. The verdict is \`pass\` where it keeps the lower limit. The report adds the share that keeps the limit, with the same confidence.

Use it for strengths and lives, which end at the weakest place: burst, tensile and peel forces, cycles to failure. Units that held to the end of the range are written \`>60\` and count as having held up to 60: they are neither left out nor taken as failures.

The factor q is the quantile of (log of the estimated scale - log of the true value) x estimated shape. In samples of n units with r failures its distribution hangs on n, r and the reliability alone, so it is simulated once, from the seed ${simulationSeed} (generator xoshiro128**), by averaging exact conditional distributions over simulated samples. This is exact for complete samples and for tests that end with the last failure, but for a simulation error that the report states. Where units held to the end of the range of the instrument, the quantile is simulated from the estimates (parametric bootstrap), and the confidence is near the stated one. A profile likelihood bound is not used: in small samples it falls short of its confidence. A bound within three standard errors of the limit is \`undecided\`.

It holds for independent units from one Weibull distribution. That is tested (Anderson-Darling from 5 failures, p simulated) at the level 0.05; where it fails, or cannot be tested, the verdict is \`undecided\`. Two kinds of failure make two distributions. Readings must be above 0, and five failures are the least that the test of fit takes. Several readings of one unit are first made one value by \`per_unit\`.

Where it is undecided, look at how the units failed: a second kind of failure is analysed by itself. Else plan \`nonparametric-tolerance-interval\` or an attribute plan, with new units. Caution: a distribution that starts above 0 is fitted as one that starts at 0, which is mostly on the safe side; a few units from a weaker lot are not.

${plannedBeforeTheData}

${runOrderExplanation}

Needs \`confidence\` and \`reliability\` under \`sampling\`, and a lower limit alone.`,
  needs: ['confidence', 'reliability'],
  statesReliability: true,
  // The test of fit takes five failures; with fewer units no result could pass.
  fewestUnits: () => 5,
  evaluate,
};
