/**
 * What a recorded temperature history is worth at one reference temperature, by the rule that a reaction runs `q10` times
 * as fast for each 10 degrees (ASTM F1980): the ageing factor integrated over time.
 */
import { ageingFactor } from './ageing.ts';
import { requireFinite, requirePositive } from './argument-checks.ts';
import { type Computed, computed, dataProblem, findDataProblem } from './data-problem.ts';
import { compensatedSum } from './descriptive.ts';

/** A reading of a logger: time in days from any start, temperature in degrees Celsius. */
export interface TemperatureReading {
  readonly time: number;
  readonly temperature: number;
}

/** A history and what it is worth. Times in days, temperatures in degrees Celsius. */
export interface TemperatureHistory {
  readonly duration: number;
  /** Days at the reference temperature that age as much. */
  readonly equivalentDuration: number;
  /** The constant temperature that would have aged as much in the same time. */
  readonly equivalentTemperature: number;
  readonly lowest: number;
  readonly highest: number;
  /** Days above `upper`, where it was given; the temperature is taken as a straight line between readings. */
  readonly durationAbove?: number;
  /** The longest time between two readings. */
  readonly longestGap: number;
}

/**
 * Integrates the ageing factor over the readings. Between two of them the temperature is taken as a straight line,
 * over which the integral of the factor is exact: dt (r2 - r1) / ln(r2 / r1). Needs two readings in ascending order
 * of time. Throws a RangeError on a `q10` that is not above 1 or a reference that is no number.
 *
 * Source: ASTM F1980, ageing factor (the clause from memory); the integral over a straight piece is derived here: of
 * q10^(T / 10) with T linear in time.
 */
export function temperatureHistory(
  readings: readonly TemperatureReading[],
  {
    q10,
    referenceTemperature,
    upper,
  }: { readonly q10: number; readonly referenceTemperature: number; readonly upper?: number },
): Computed<TemperatureHistory> {
  requirePositive('q10', q10);
  if (q10 <= 1) throw new RangeError(`q10 is ${q10}; it must be above 1`);
  requireFinite('referenceTemperature', referenceTemperature);
  if (upper !== undefined) requireFinite('upper', upper);
  const times = readings.map((reading) => reading.time);
  const temperatures = readings.map((reading) => reading.temperature);
  const problem = findDataProblem(times, { minimum: 2 }) ?? findDataProblem(temperatures, { minimum: 2 });
  if (problem) return problem;
  const turn = times.findIndex((time, place) => place > 0 && time <= times[place - 1]!);
  if (turn > 0)
    return dataProblem(
      'out-of-order',
      `reading ${turn + 1} of ${readings.length} is not later than the one before it`,
    );
  const aged: number[] = [];
  const above: number[] = [];
  let longestGap = 0;
  for (let place = 1; place < readings.length; place++) {
    const from = readings[place - 1]!;
    const to = readings[place]!;
    const days = to.time - from.time;
    longestGap = Math.max(longestGap, days);
    const factor = ageingFactor({
      q10,
      ageingTemperature: from.temperature,
      storageTemperature: referenceTemperature,
    });
    const rise = (Math.log(q10) * (to.temperature - from.temperature)) / 10;
    aged.push(days * factor * (rise === 0 ? 1 : Math.expm1(rise) / rise));
    if (upper !== undefined) above.push(days * shareAbove(from.temperature, to.temperature, upper));
  }
  const duration = times.at(-1)! - times[0]!;
  const equivalentDuration = compensatedSum(aged);
  if (!Number.isFinite(equivalentDuration) || equivalentDuration <= 0)
    return dataProblem(
      'no-bound',
      'the temperatures are so far from the reference that no factor can be given',
    );
  return computed({
    duration,
    equivalentDuration,
    equivalentTemperature:
      referenceTemperature + (10 * Math.log(equivalentDuration / duration)) / Math.log(q10),
    lowest: temperatures.reduce((a, b) => Math.min(a, b)),
    highest: temperatures.reduce((a, b) => Math.max(a, b)),
    ...(upper === undefined ? {} : { durationAbove: compensatedSum(above) }),
    longestGap,
  });
}

/** Which share of a straight line from one temperature to another lies above `upper`. */
function shareAbove(from: number, to: number, upper: number): number {
  const [low, high] = from < to ? [from, to] : [to, from];
  if (low > upper) return 1;
  if (high <= upper) return 0;
  return (high - upper) / (high - low);
}
