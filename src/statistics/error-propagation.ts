import { requireFinite, requireNonNegative } from './argument-checks.ts';
import { type Computed, computed, dataProblem } from './data-problem.ts';
import { evaluateFormula, type Formula } from './formula.ts';
import { slopesOver } from './formula-slopes.ts';
import { holdsZero, type Interval, pointInterval } from './interval.ts';

/** First-order propagation of standard deviations, or of half widths, through a formula. */
export interface Propagation {
  readonly value: number;
  /** The first derivative with respect to each variable, exact to rounding. */
  readonly slopes: readonly number[];
  /** Root of the sum of (slope x spread) squared, in the sense of the spreads that were given. */
  readonly spread: number;
  /** Share of each variable in the squared spread, in the order given; all 0 when nothing varies. */
  readonly contributions: readonly number[];
}

/**
 * Propagates spreads of independent variables about `values` to first order: u(y)^2 = sum of (df/dx u(x))^2.
 * Derivatives by automatic differentiation. A formula without a value or slope there is a problem of the data. Throws
 * a RangeError on a spread that is negative.
 *
 * Source: JCGM 100:2008, Guide to the expression of uncertainty in measurement, 5.1.2, equation 10.
 */
export function propagate(
  formula: Formula,
  values: readonly number[],
  spreads: readonly number[],
): Computed<Propagation> {
  for (const value of values) requireFinite('value', value);
  for (const spread of spreads) requireNonNegative('spread', spread);
  const at = boundsOf(formula, values.map(pointInterval));
  if (!at.ok) return at;
  const value = evaluateFormula(formula, values);
  if (!Number.isFinite(value))
    return dataProblem('non-finite-value', 'the formula has no value that is a finite number');
  const slopes = at.value.slopes.map((slope) => slope.low / 2 + slope.high / 2);
  if (at.value.slopes.some(({ low, high }, place) => high - low > 1e-9 * Math.abs(slopes[place]!)))
    return dataProblem('no-slope', 'the formula has a kink at these values, where it has no slope');
  const parts = slopes.map((slope, place) => slope * (spreads[place] ?? 0));
  const spread = Math.hypot(...parts);
  return computed({
    value,
    slopes,
    spread,
    contributions: parts.map((part) => (spread === 0 ? 0 : (part / spread) ** 2)),
  });
}

/** The smallest and largest value of a formula over a box. */
export interface FormulaRange extends Interval {
  /** Whether both ends are reached; otherwise they are safe bounds, a little too wide. */
  readonly exact: boolean;
}

/** Boxes that are looked at before bounds are taken as they are. */
const boxLimit = 2000;

/**
 * The range of a formula when each variable may lie anywhere in its interval. Where every derivative keeps its sign,
 * the ends lie in two corners and are exact; else the box is halved, up to 2000 boxes, and what is left is bounded by
 * interval arithmetic, which can only err to the outside. A formula without bounds is a problem of the data.
 *
 * Source: Moore, Interval Analysis (1966): monotone parts and bisection of the box.
 */
export function formulaRange(formula: Formula, box: readonly Interval[]): Computed<FormulaRange> {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  // The ends that the formula is known to reach; where they meet the bounds, these are exact.
  let reachedLow = Number.POSITIVE_INFINITY;
  let reachedHigh = Number.NEGATIVE_INFINITY;
  const reach = (value: number): number => {
    reachedLow = Math.min(reachedLow, value);
    reachedHigh = Math.max(reachedHigh, value);
    return value;
  };
  const waiting: (readonly Interval[])[] = [box];
  let looked = 0;
  for (let place = 0; place < waiting.length; place++) {
    const part = waiting[place]!;
    const bounds = boundsOf(formula, part);
    if (!bounds.ok) return bounds;
    looked++;
    const { value, slopes } = bounds.value;
    const turning = slopes.map((slope, i) => holdsZero(slope) && part[i]!.low < part[i]!.high);
    if (!turning.some((turns, i) => turns && (slopes[i]!.low !== 0 || slopes[i]!.high !== 0))) {
      const corner = (rising: boolean): number =>
        reach(
          evaluateFormula(
            formula,
            part.map((side, i) => (slopes[i]!.low >= 0 === rising ? side.high : side.low)),
          ),
        );
      low = Math.min(low, corner(false));
      high = Math.max(high, corner(true));
    } else if (looked + (waiting.length - place) < boxLimit) {
      const swing = part.map((side, i) =>
        turning[i] ? (side.high - side.low) * Math.max(-slopes[i]!.low, slopes[i]!.high) : -1,
      );
      const widest = swing.indexOf(Math.max(...swing));
      const side = part[widest]!;
      const middle = side.low / 2 + side.high / 2;
      waiting.push(
        part.with(widest, { low: side.low, high: middle }),
        part.with(widest, { low: middle, high: side.high }),
      );
    } else {
      reach(
        evaluateFormula(
          formula,
          part.map((side) => side.low / 2 + side.high / 2),
        ),
      );
      low = Math.min(low, value.low);
      high = Math.max(high, value.high);
    }
  }
  if (!Number.isFinite(low) || !Number.isFinite(high))
    return dataProblem('non-finite-value', 'the formula has no value that is a finite number');
  const hair = 1e-9 * Math.max(high - low, 1e-6 * Math.max(Math.abs(low), Math.abs(high)));
  return computed({ low, high, exact: reachedLow - low <= hair && high - reachedHigh <= hair });
}

function boundsOf(formula: Formula, box: readonly Interval[]): Computed<ReturnType<typeof slopesOver>> {
  try {
    return computed(slopesOver(formula, box));
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return dataProblem('no-bound', error.message);
  }
}
