/**
 * The pivotal quantity behind a confidence bound on a Weibull percentile. With y = log x, location u = log scale and
 * spread s = 1 / shape, and their maximum likelihood estimates marked ^, the distribution of
 *
 *     W = (u^ - y_p) / s^,   y_p = u + s log(-log(1 - p)),
 *
 * hangs neither on u nor on s, if the sample is complete or the test ends with the last failure (type II censoring):
 * only on the numbers of units and failures (Thoman, Bain and Antle, Technometrics 12, 1970; Lawless, Statistical
 * Models and Methods for Lifetime Data, 1982, section 4.1). So exp(u^ - q s^), q the quantile of W, is an exact bound.
 *
 * The quantile is found by simulation, but not by counting. Given how the sample is spread about its own estimates
 * (the ancillaries a = (y - u^) / s^), W has a distribution that one integral gives (Lawless, Technometrics 20, 1978):
 *
 *     P(W <= t | a) = integral of h(z) G(e^(w + t z) S(z)) dz,   w = log(-log(1 - p)),
 *     h(z) proportional to z^(r - 2) exp(z sum of a over failures) / S(z)^r,   S(z) = sum of e^(a z) over all units,
 *
 * with G the gamma distribution of shape r, the number of failures. Averaged over simulated samples this is the
 * distribution of W with an error as small as that of a thousand times as many samples counted.
 */
import { chiSquareCdf, normalQuantile } from './distributions.ts';
import { seededExponentials, simulationSeed } from './seeded-generator.ts';
import { fitRelativeLogs } from './weibull.ts';

/** How many units are on test, and how many of them have failed when it ends. */
export interface FailurePattern {
  readonly count: number;
  readonly failureCount: number;
}

/** A number found by simulation, with its standard error. */
export interface SimulatedValue {
  readonly value: number;
  readonly standardError: number;
}

/** Points over z for one simulated sample after another. */
interface PivotPoints {
  readonly failureCount: number;
  readonly samples: number;
  readonly weights: Float64Array;
  readonly z: Float64Array;
  readonly logSums: Float64Array;
}

/**
 * Points for each sample: a trapezoid rule over log z. G rises from 0 to 1 within about 1 / (q z) of z, so that few failures
 * and high reliabilities, where q is large, need many: with 36 points q was off by a hundredth to a twentieth at 3 to 10 units.
 */
const pointCount = 240;

/** How far below its maximum the density of log z may be left out: e^-20 is 2e-9. */
const depth = 20;

/** Samples: enough for a standard error below a hundredth of W's own spread; fewer where each of them is large. */
function sampleCount({ count }: FailurePattern): number {
  return Math.min(Math.max(Math.round(20_000 / count), 200), 1000);
}

const pointsByPattern = new Map<string, PivotPoints>();

/** Points of the last few patterns: a bound and a reliability are often asked for the same one. */
function pointsOf(pattern: FailurePattern): PivotPoints {
  const key = `${pattern.count} ${pattern.failureCount}`;
  const known = pointsByPattern.get(key);
  if (known) return known;
  const points = simulatePoints(pattern);
  const oldest = pointsByPattern.keys().next().value;
  if (pointsByPattern.size >= 4 && oldest !== undefined) pointsByPattern.delete(oldest);
  pointsByPattern.set(key, points);
  return points;
}

/** Samples of the standard Weibull distribution, shape and scale 1, from the seed of this folder. */
function simulatePoints(pattern: FailurePattern): PivotPoints {
  const { count, failureCount } = pattern;
  const samples = sampleCount(pattern);
  const exponential = seededExponentials(simulationSeed);
  const weights = new Float64Array(samples * pointCount);
  const z = new Float64Array(samples * pointCount);
  const logSums = new Float64Array(samples * pointCount);
  const logs = new Float64Array(failureCount);
  const counts = new Float64Array(failureCount).fill(1);
  counts[failureCount - 1] = 1 + count - failureCount;
  for (let sample = 0; sample < samples; sample++) {
    drawSmallest(count, exponential, logs);
    const { shape, logScale } = fitRelativeLogs(logs, counts, failureCount);
    const standardised = logs.map((log) => (log - logScale) * shape);
    placePoints(standardised, counts, sample * pointCount, { weights, z, logSums });
  }
  return { failureCount, samples, weights, z, logSums };
}

/**
 * The smallest of `count` standard exponential numbers, as logarithms relative to the largest of these. Their gaps
 * are independent exponentials divided by the units still on test: nothing need be sorted.
 *
 * Source: Rényi, Acta Mathematica Academiae Scientiarum Hungaricae 4 (1953), on order statistics.
 */
export function drawSmallest(count: number, exponential: () => number, logs: Float64Array): void {
  let value = 0;
  for (let i = 0; i < logs.length; i++) {
    value += exponential() / (count - i);
    logs[i] = Math.log(value);
  }
  const largest = logs[logs.length - 1]!;
  for (let i = 0; i < logs.length; i++) logs[i]! -= largest;
}

function placePoints(
  standardised: Float64Array,
  counts: Float64Array,
  offset: number,
  { weights, z, logSums }: Pick<PivotPoints, 'weights' | 'z' | 'logSums'>,
): void {
  const failures = standardised.length;
  const total = standardised.reduce((sum, a) => sum + a, 0);
  const largest = standardised[failures - 1]!;
  const logSum = (step: number): number => {
    // The largest term is taken out, so that nothing overflows.
    let sum = 0;
    for (let i = 0; i < failures; i++) sum += counts[i]! * Math.exp((standardised[i]! - largest) * step);
    return largest * step + Math.log(sum);
  };
  const logDensity = (v: number, sum = logSum(Math.exp(v))): number =>
    (failures - 1) * v + Math.exp(v) * total - failures * sum;
  const peak = logDensity(0);
  const spread = 1 / Math.sqrt(failures);
  const reach = (direction: -1 | 1): number => {
    let distance = 5 * spread;
    while (logDensity(direction * distance) > peak - depth) distance *= 1.15;
    return direction * distance;
  };
  const [start, end] = [reach(-1), reach(1)];
  let mass = 0;
  for (let i = 0; i < pointCount; i++) {
    const v = start + ((end - start) * i) / (pointCount - 1);
    const at = offset + i;
    z[at] = Math.exp(v);
    logSums[at] = logSum(z[at]!);
    weights[at] = Math.exp(logDensity(v, logSums[at]) - peak);
    mass += weights[at]!;
  }
  for (let i = offset; i < offset + pointCount; i++) weights[i]! /= mass;
}

/**
 * Solves mean over samples of sum h G(exp(logArgument(x))) = share for x, where the argument rises with x, by Newton's
 * method in a bracket, from `start`. `slope` is the derivative of the log argument by x.
 */
function solve(
  points: PivotPoints,
  share: number,
  start: number,
  logArgument: (x: number, z: number) => number,
  slope: (z: number) => number,
): SimulatedValue {
  const { failureCount, samples, weights, z, logSums } = points;
  const logGamma = logFactorial(failureCount - 1);
  const reach = reachOf(failureCount);
  const evaluate = (x: number) => {
    let sum = 0;
    let squares = 0;
    let density = 0;
    for (let sample = 0; sample < samples; sample++) {
      let probability = 0;
      for (let at = sample * pointCount; at < (sample + 1) * pointCount; at++) {
        const log = logArgument(x, z[at]!) + logSums[at]!;
        // Far beyond the gamma distribution's own range the probability is 0 or 1 and the density 0.
        const argument = Math.exp(Math.min(log, 600));
        probability += weights[at]! * gammaShare(argument, log, failureCount, reach, logGamma);
        density += weights[at]! * slope(z[at]!) * Math.exp(failureCount * log - argument - logGamma);
      }
      sum += probability;
      squares += probability * probability;
    }
    const mean = sum / samples;
    const variance = Math.max(squares / samples - mean * mean, 0);
    return { mean, density: density / samples, error: Math.sqrt(variance / samples) };
  };
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  let x = start;
  for (let step = 0; ; step++) {
    const { mean, density, error } = evaluate(x);
    const gap = mean - share;
    if (gap > 0) high = x;
    else low = x;
    // Where the distribution is flat a step of Newton's would lead far away, or nowhere.
    const longest = 0.5 + 0.2 * Math.abs(x);
    const wish = gap / density;
    const change = Number.isNaN(wish) ? 0 : Math.min(Math.max(wish, -longest), longest);
    let next = x - change;
    if (density > 0 && Math.abs(wish) <= 1e-8 * (1 + Math.abs(x)))
      return { value: next, standardError: error / density };
    if (step >= 200) return { value: x, standardError: Number.POSITIVE_INFINITY };
    if (!(next > low && next < high))
      next =
        Number.isFinite(low) && Number.isFinite(high)
          ? 0.5 * (low + high)
          : x - (gap > 0 ? longest : -longest);
    x = next;
  }
}

const quantiles = new Map<string, SimulatedValue>();

/**
 * Where to look first: W is near enough normal about -w, with the variance of the estimates in large complete samples
 * (Lawless 1982, section 4.1).
 */
function normalStart({ failureCount }: FailurePattern, w: number, share: number): number {
  const variance = (1.109 - 0.514 * w + 0.608 * w * w) / failureCount;
  return -w + normalQuantile(share) * Math.sqrt(variance);
}

/**
 * The quantile of W at `share` for the percentile with log(-log(1 - p)) = `logQuantile`. Needs 3 failures.
 *
 * Source: Lawless, Technometrics 20 (1978); Thoman, Bain and Antle, Technometrics 12 (1970).
 */
export function percentilePivotQuantile(
  pattern: FailurePattern,
  logQuantile: number,
  share: number,
): SimulatedValue {
  const key = `${pattern.count} ${pattern.failureCount} ${logQuantile} ${share}`;
  const known = quantiles.get(key);
  if (known) return known;
  const found = solve(
    pointsOf(pattern),
    share,
    normalStart(pattern, logQuantile, share),
    (t, z) => logQuantile + t * z,
    (z) => z,
  );
  quantiles.set(key, found);
  return found;
}

/** Distances, in spreads, between the places at which the reliability bound is solved for exactly. */
const nodeStep = 0.25;

/** The bound at one node, and its derivative by the distance. */
interface BoundNode extends SimulatedValue {
  readonly slope: number;
}

const nodes = new Map<string, BoundNode>();

/**
 * At the bound, F(w, d) = mean over samples of sum h G(e^(w + d z) S(z)) keeps its value, so dw/dd is the density weighted
 * by z over the density.
 */
function boundNode(pattern: FailurePattern, place: number, share: number): BoundNode {
  const key = `${pattern.count} ${pattern.failureCount} ${place} ${share}`;
  const known = nodes.get(key);
  if (known) return known;
  const distance = place * nodeStep;
  const points = pointsOf(pattern);
  const found = solve(
    points,
    share,
    -distance,
    (w, z) => w + distance * z,
    () => 1,
  );
  let density = 0;
  let weighted = 0;
  for (const [at, z] of points.z.entries()) {
    const log = found.value + distance * z + points.logSums[at]!;
    const part = points.weights[at]! * Math.exp(points.failureCount * log - Math.exp(Math.min(log, 600)));
    density += part;
    weighted += part * z;
  }
  const node = { ...found, slope: -weighted / density };
  // So many tests are not in one file; the store is emptied rather than kept in order.
  if (nodes.size >= 4096) nodes.clear();
  nodes.set(key, node);
  return node;
}

/**
 * The w for which W <= `distance` has the probability `share`: a confidence bound of log(-log R) of the reliability R at
 * the value that lies `distance` spreads below the location, by the estimates. Needs 3 failures. Solved exactly at the two
 * nodes around the distance and carried between them by Hermite's cubic, which is off by less than a hundredth of the
 * simulation's own error; the same distance gives the same number whatever was asked before.
 *
 * Source: Lawless, Technometrics 20 (1978), solved for the reliability; Hermite's cubic, Abramowitz and Stegun, Handbook of
 * Mathematical Functions (1964), 25.2.
 */
export function reliabilityPivotBound(
  pattern: FailurePattern,
  distance: number,
  share: number,
): SimulatedValue {
  const place = Math.floor(distance / nodeStep);
  const from = boundNode(pattern, place, share);
  const to = boundNode(pattern, place + 1, share);
  const t = distance / nodeStep - place;
  const value =
    from.value * (1 + 2 * t) * (1 - t) ** 2 +
    to.value * t ** 2 * (3 - 2 * t) +
    nodeStep * (from.slope * t * (1 - t) ** 2 + to.slope * t ** 2 * (t - 1));
  return { value, standardError: (1 - t) * from.standardError + t * to.standardError };
}

/** Beyond these the share is 0 or 1 to 1e-12: the gamma distribution of this shape has nothing there. */
const reachOf = (shape: number): { readonly low: number; readonly high: number } => ({
  low: shape * Math.exp(-1 - 28 / shape),
  high: shape + 9 * Math.sqrt(shape) + 40,
});

/**
 * P(X <= x) of the gamma distribution with a whole shape: below the shape its series, above it one less a sum of Poisson
 * probabilities (Abramowitz and Stegun, Handbook of Mathematical Functions, 1964, 6.5.29 and 6.5.13). The library's function,
 * which is slower, is asked for large shapes.
 */
function gammaShare(
  x: number,
  log: number,
  shape: number,
  { low, high }: ReturnType<typeof reachOf>,
  logGamma: number,
): number {
  if (x <= low) return 0;
  if (x >= high) return 1;
  if (shape > 200) return chiSquareCdf(2 * x, 2 * shape);
  if (x < shape) {
    let part = Math.exp(shape * log - x - logGamma) / shape;
    let total = part;
    for (let k = 1; part > 1e-13 * total; k++) {
      part *= x / (shape + k);
      total += part;
    }
    return total;
  }
  let term = Math.exp(-x);
  let sum = term;
  for (let k = 1; k < shape; k++) {
    term *= x / k;
    sum += term;
  }
  return 1 - sum;
}

function logFactorial(n: number): number {
  let sum = 0;
  for (let i = 2; i <= n; i++) sum += Math.log(i);
  return sum;
}
