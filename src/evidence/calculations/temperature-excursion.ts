import { unitConverter } from '../../records/units.ts';
import { temperatureHistory } from '../../statistics/temperature-history.ts';
import { limitText } from '../methods/conformity.ts';
import { fixed } from '../number-text.ts';
import type { Assumption } from '../result.ts';
import {
  type Calculation,
  type CalculationInput,
  type CalculationOutcome,
  type InputProblem,
  namedValue,
  numberAt,
  optionalNumberAt,
  requireThat,
} from './calculation.ts';
import { belowTransition, humidityAssumption, oneRateLaw } from './rate-law.ts';
import { readTemperatureLog } from './temperature-log.ts';

const calculate = ({ analysis, limits, table }: CalculationInput): CalculationOutcome => {
  const fields: Readonly<Record<string, unknown>> = analysis.fields.calculation;
  const problems: InputProblem[] = [];
  const q10 = numberAt(fields, 'q10', problems);
  const referenceTemperature = numberAt(fields, 'reference_temperature', problems);
  const upper = optionalNumberAt(fields, 'upper_temperature', problems);
  const transition = optionalNumberAt(fields, 'transition_temperature', problems);
  const maximumGap = optionalNumberAt(fields, 'maximum_gap', problems);
  const humidityLower = optionalNumberAt(fields, 'humidity_lower', problems);
  const humidityUpper = optionalNumberAt(fields, 'humidity_upper', problems);
  requireThat(q10 > 1 && q10 <= 10, 'q10', 'above 1, at most 10', problems);
  requireThat(maximumGap === undefined || maximumGap > 0, 'maximum_gap', 'above 0', problems);
  const limit = limits[0];
  if (!limit)
    problems.push({
      path: [],
      message: 'acceptance is missing: an excursion needs a limit in a unit of time',
    });
  const fromDays = limit && unitConverter('d', limit.unit);
  if (limit && !fromDays)
    problems.push({ path: [], message: `the limit is in ${limit.unit}, which is no unit of time` });
  if (!table)
    problems.push({
      path: [],
      message: 'data is missing: the file of the logger, with time and temperature',
    });
  const log =
    table && problems.length === 0
      ? readTemperatureLog(table, (analysis.fields.data ?? {}) as Readonly<Record<string, unknown>>, problems)
      : undefined;
  if (problems.length > 0 || !limit || !fromDays || !log) return { ok: false, problems };
  const outcome = temperatureHistory(log.readings, {
    q10,
    referenceTemperature,
    ...(upper === undefined ? {} : { upper }),
  });
  if (!outcome.ok)
    return { ok: false, problems: [{ path: [], message: `the log cannot be used: ${outcome.reason}` }] };
  const found = outcome.value;
  const equivalent = fromDays(found.equivalentDuration);
  const slack = 1e-9 * Math.abs(equivalent);
  const within =
    equivalent >= (limit.lower ?? Number.NEGATIVE_INFINITY) - slack &&
    equivalent <= (limit.upper ?? Number.POSITIVE_INFINITY) + slack;
  const gapHours = found.longestGap * 24;
  const humidities = log.humidities;
  const assumptions: readonly Assumption[] = [
    {
      name: 'log without gaps',
      outcome: maximumGap === undefined ? 'not tested' : gapHours <= maximumGap + 1e-6 ? 'met' : 'not met',
      detail: `the longest time between two readings is ${fixed(gapHours, 2)} h${maximumGap === undefined ? '' : `, allowed ${maximumGap} h`}; between readings the temperature is taken as a straight line`,
    },
    oneRateLaw,
    ...belowTransition(found.highest, transition),
    humidityAssumption(
      humidities && {
        lowest: humidities.reduce((a, b) => Math.min(a, b)),
        highest: humidities.reduce((a, b) => Math.max(a, b)),
      },
      {
        ...(humidityLower === undefined ? {} : { lower: humidityLower }),
        ...(humidityUpper === undefined ? {} : { upper: humidityUpper }),
      },
    ),
  ];
  const broken = assumptions.filter((each) => each.outcome === 'not met');
  const result = `${fixed(found.duration, 2)} d between ${fixed(found.lowest, 1)} and ${fixed(found.highest, 1)} °C are worth ${fixed(found.equivalentDuration, 2)} d at ${referenceTemperature} °C, required ${limitText(limit)}`;
  return {
    ok: true,
    characteristics: [
      {
        limits: limit,
        verdict: broken.length > 0 ? 'undecided' : within ? 'pass' : 'fail',
        reason: broken.length > 0 ? `${result}; ${broken.map((each) => each.detail).join('; ')}` : result,
        ...(broken.length > 0
          ? { remedy: 'Judge by hand what the log or the formula does not cover, or test the units again.' }
          : {}),
        sampleSize: log.readings.length,
        readings: [],
        values: [
          namedValue('duration', 'time in the log', found.duration, 'd', 2),
          namedValue(
            'equivalent_duration',
            `time at ${referenceTemperature} °C that ages as much`,
            found.equivalentDuration,
            'd',
            2,
          ),
          namedValue(
            'equivalent_temperature',
            'constant temperature that ages as much',
            found.equivalentTemperature,
            'Cel',
            2,
          ),
          namedValue('lowest', 'lowest temperature', found.lowest, 'Cel', 1),
          namedValue('highest', 'highest temperature', found.highest, 'Cel', 1),
          namedValue('longest_gap', 'longest time between readings', gapHours, 'h', 2),
          ...(found.durationAbove === undefined
            ? []
            : [namedValue('duration_above', `time above ${upper} °C`, found.durationAbove * 24, 'h', 2)]),
        ],
        assumptions,
      },
    ],
  };
};

export const temperatureExcursion: Calculation = {
  name: 'temperature-excursion',
  title: 'Temperature excursion from a log',
  basis: 'ageing factor Q10^((T − T reference) / 10) integrated over the log, ASTM F1980',
  explain: `What a recorded temperature history is worth in days at the reference temperature. Use it for an excursion in transport or storage (with an upper limit: days of shelf life used up) and for the log of an ageing chamber (with a lower limit: days that the claim needs).

The factor Q10^((T - T reference) / 10) is integrated over the log. Between two readings the temperature is taken as a straight line, over which the integral is exact. The constant temperature that would have aged as much is given beside it.

Inputs: \`q10\`, \`reference_temperature\` (°C); the limit under \`acceptance\`, in a unit of time; the file under \`data\`, with the columns time (moments such as 2026-01-12 08:30, or numbers with a unit such as time [h]) and temperature, and relative humidity where there is one. \`upper_temperature\` gives the time above it, \`maximum_gap\` (h) the longest time between readings, \`transition_temperature\` the lowest transition of the materials, \`humidity_lower\` and \`humidity_upper\` (%) what the materials stand.

The verdict is undecided where the log has a longer gap than allowed, came within 10 °C of a transition (ASTM F1980, from memory), or left the humidity allowed: then the formula does not hold.

Caution: Q10 knows chemical ageing only. It knows nothing of humidity, of melting and setting again, or of thermal shock, and a reading says nothing of what happened between two readings.`,
  calculate,
};
