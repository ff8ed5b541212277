/**
 * Tolerance stack-ups: what a result can become when its dimensions use up their tolerances, at worst and by the root
 * of the sum of squares. The second assumes independent dimensions and holds, for linear stacks, the same share of
 * assemblies as each tolerance holds of its dimension.
 */
import { requireFinite, requireNonNegative } from './argument-checks.ts';
import { compensatedSum } from './descriptive.ts';

/** A dimension with its tolerance, both deviations given as amounts that are not negative. */
interface TolerancedDimension {
  readonly nominal: number;
  readonly plus: number;
  readonly minus: number;
}

/** A dimension in a sum: `sensitivity` is the change of the result per unit, 1 unless given, -1 for a dimension that is subtracted. */
export interface LinearTerm extends TolerancedDimension {
  readonly sensitivity?: number;
}

/** A dimension in a product: the result is proportional to its power `exponent`, 1 unless given. */
export interface ProductFactor extends TolerancedDimension {
  readonly exponent?: number;
}

export interface Stackup {
  /** The result with every dimension at its nominal value. */
  readonly nominal: number;
  readonly worstCase: { readonly lower: number; readonly upper: number };
  readonly rootSumSquare: {
    /** The result with every dimension in the middle of its tolerance. */
    readonly centre: number;
    readonly halfWidth: number;
    readonly lower: number;
    readonly upper: number;
  };
  /** Share of each dimension in the squared half width, in the order given; all 0 when nothing varies. */
  readonly contributions: readonly number[];
}

/**
 * The stack sum of sensitivity x dimension. Throws a RangeError when there is no term, a number is not finite or a
 * deviation is negative.
 *
 * Source: worst case: the sum of the extremes, by definition; root of the sum of squares: JCGM 100:2008, Guide to the
 * expression of uncertainty in measurement, 5.1.2, equation 10, exact for a sum, applied to half widths; Evans,
 * Journal of Quality Technology 6 (1974), Statistical Tolerancing, part I (from memory).
 */
export function linearStackup(terms: readonly LinearTerm[]): Stackup {
  checkDimensions(terms);
  const scaled = terms.map(({ nominal, plus, minus, sensitivity = 1 }) => {
    requireFinite('sensitivity', sensitivity);
    const ends = [sensitivity * (nominal - minus), sensitivity * (nominal + plus)];
    return {
      nominal: sensitivity * nominal,
      lower: Math.min(...ends),
      upper: Math.max(...ends),
      centre: sensitivity * (nominal + (plus - minus) / 2),
      halfWidth: (Math.abs(sensitivity) * (plus + minus)) / 2,
    };
  });
  const total = (part: 'nominal' | 'lower' | 'upper' | 'centre') =>
    compensatedSum(scaled.map((term) => term[part]));
  return {
    nominal: total('nominal'),
    worstCase: { lower: total('lower'), upper: total('upper') },
    ...bySumOfSquares(
      total('centre'),
      scaled.map((term) => term.halfWidth),
    ),
  };
}

/**
 * The stack constant x product of dimension^exponent, all dimensions positive over their whole tolerance. Worst case
 * is exact; the root of the sum of squares uses first-order propagation about the middle of the tolerances. Throws a
 * RangeError when there is no factor, a number is not finite, a deviation is negative or a dimension can reach 0.
 *
 * Source: worst case: the extremes of each factor, by definition; root of the sum of squares: JCGM 100:2008, Guide to
 * the expression of uncertainty in measurement, 5.1.6, equation 12, relative variances of a product of powers,
 * applied to half widths.
 */
export function productStackup(factors: readonly ProductFactor[], constant = 1): Stackup {
  checkDimensions(factors);
  requireFinite('constant', constant);
  const nominalPowers: number[] = [];
  const lowPowers: number[] = [];
  const highPowers: number[] = [];
  const centrePowers: number[] = [];
  const relative: number[] = [];
  for (const { nominal, plus, minus, exponent = 1 } of factors) {
    requireFinite('exponent', exponent);
    if (nominal - minus <= 0)
      throw new RangeError(`nominal - minus is ${nominal - minus}; a factor must stay above 0`);
    const centre = nominal + (plus - minus) / 2;
    const ends = [(nominal - minus) ** exponent, (nominal + plus) ** exponent];
    nominalPowers.push(nominal ** exponent);
    lowPowers.push(Math.min(...ends));
    highPowers.push(Math.max(...ends));
    centrePowers.push(centre ** exponent);
    relative.push((Math.abs(exponent) * (plus + minus)) / 2 / centre);
  }
  const product = (powers: readonly number[]) => powers.reduce((a, b) => a * b, constant);
  const extremes = [product(lowPowers), product(highPowers)];
  const centre = product(centrePowers);
  return {
    nominal: product(nominalPowers),
    worstCase: { lower: Math.min(...extremes), upper: Math.max(...extremes) },
    ...bySumOfSquares(
      centre,
      relative.map((share) => share * Math.abs(centre)),
    ),
  };
}

function bySumOfSquares(
  centre: number,
  halfWidths: readonly number[],
): Pick<Stackup, 'rootSumSquare' | 'contributions'> {
  const halfWidth = Math.hypot(...halfWidths);
  return {
    rootSumSquare: { centre, halfWidth, lower: centre - halfWidth, upper: centre + halfWidth },
    contributions: halfWidths.map((width) => (halfWidth === 0 ? 0 : (width / halfWidth) ** 2)),
  };
}

function checkDimensions(dimensions: readonly TolerancedDimension[]): void {
  if (dimensions.length === 0) throw new RangeError('a stack-up needs at least one dimension');
  for (const { nominal, plus, minus } of dimensions) {
    requireFinite('nominal', nominal);
    requireNonNegative('plus', plus);
    requireNonNegative('minus', minus);
  }
}
