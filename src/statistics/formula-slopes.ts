/**
 * Bounds of a formula and of its derivatives over a box of values, by automatic differentiation in interval arithmetic
 * (Moore, Interval Analysis, 1966; Griewank and Walther, Evaluating Derivatives, 2008). Over a box that is a single point
 * these are the value and its exact first derivatives, without any step.
 */
import { evaluateFormula, type Formula, isConstant, type OneArgumentFunction } from './formula.ts';
import {
  absoluteInterval,
  addIntervals,
  cosineOfInterval,
  holdsZero,
  hullOf,
  type Interval,
  invertInterval,
  multiplyIntervals,
  negateInterval,
  pointInterval,
  powerOfInterval,
  risingOf,
  sineOfInterval,
} from './interval.ts';

/** A value with its derivative with respect to each variable. */
export interface Slopes {
  readonly value: Interval;
  readonly slopes: readonly Interval[];
}

/**
 * Bounds of value and derivatives when each variable may lie anywhere in its interval. Throws a RangeError that says
 * why where the formula or a derivative has no bounds.
 *
 * Source: Moore, Interval Analysis (1966); Griewank and Walther, Evaluating Derivatives (2008), forward mode.
 */
export function slopesOver(formula: Formula, box: readonly Interval[]): Slopes {
  const result = slopesOf(formula, box);
  for (const { low, high } of [result.value, ...result.slopes])
    if (!Number.isFinite(low) || !Number.isFinite(high))
      throw new RangeError('the formula or its slope can become infinite');
  return result;
}

function slopesOf(formula: Formula, box: readonly Interval[]): Slopes {
  switch (formula.kind) {
    case 'number':
      return { value: pointInterval(formula.value), slopes: box.map(() => pointInterval(0)) };
    case 'variable':
      return {
        value: box[formula.place]!,
        slopes: box.map((_, place) => pointInterval(place === formula.place ? 1 : 0)),
      };
    case 'negative': {
      const of = slopesOf(formula.of, box);
      return { value: negateInterval(of.value), slopes: of.slopes.map(negateInterval) };
    }
    case 'function': {
      const of = slopesOf(formula.of, box);
      const { value, slope } = oneArgument(formula.name, of.value);
      return { value, slopes: of.slopes.map((each) => multiplyIntervals(each, slope)) };
    }
    case 'pair':
      return pairSlopes(formula, box);
    default:
      return formula satisfies never;
  }
}

function pairSlopes(
  { name, left, right }: Extract<Formula, { readonly kind: 'pair' }>,
  box: readonly Interval[],
): Slopes {
  if (name === '^') return powerSlopes(left, right, box);
  const a = slopesOf(left, box);
  const b = slopesOf(right, box);
  const both = (f: (ofA: Interval, ofB: Interval) => Interval): readonly Interval[] =>
    a.slopes.map((ofA, place) => f(ofA, b.slopes[place]!));
  switch (name) {
    case '+':
      return { value: addIntervals(a.value, b.value), slopes: both(addIntervals) };
    case '-':
      return {
        value: addIntervals(a.value, negateInterval(b.value)),
        slopes: both((ofA, ofB) => addIntervals(ofA, negateInterval(ofB))),
      };
    case '*':
      return {
        value: multiplyIntervals(a.value, b.value),
        slopes: both((ofA, ofB) =>
          addIntervals(multiplyIntervals(ofA, b.value), multiplyIntervals(a.value, ofB)),
        ),
      };
    case '/': {
      const inverse = invertInterval(b.value);
      const value = multiplyIntervals(a.value, inverse);
      return {
        value,
        slopes: both((ofA, ofB) =>
          multiplyIntervals(addIntervals(ofA, negateInterval(multiplyIntervals(value, ofB))), inverse),
        ),
      };
    }
    case 'max':
      return {
        value: { low: Math.max(a.value.low, b.value.low), high: Math.max(a.value.high, b.value.high) },
        slopes: both((ofA, ofB) => chosen(a.value, ofA, b.value, ofB)),
      };
    case 'min':
      return {
        value: { low: Math.min(a.value.low, b.value.low), high: Math.min(a.value.high, b.value.high) },
        slopes: both((ofA, ofB) => chosen(b.value, ofA, a.value, ofB)),
      };
    default:
      return name satisfies never;
  }
}

/** The slope of the larger of two values; of both where it is not settled which one that is. */
function chosen(first: Interval, ofFirst: Interval, second: Interval, ofSecond: Interval): Interval {
  if (first.low > second.high) return ofFirst;
  if (second.low > first.high) return ofSecond;
  return hullOf(ofFirst.low, ofFirst.high, ofSecond.low, ofSecond.high);
}

function powerSlopes(left: Formula, right: Formula, box: readonly Interval[]): Slopes {
  const a = slopesOf(left, box);
  if (isConstant(right)) {
    const exponent = evaluateFormula(right, []);
    if (!Number.isFinite(exponent)) throw new RangeError('an exponent is no finite number');
    const value = powerOfInterval(a.value, exponent);
    if (exponent === 0) return { value, slopes: a.slopes.map(() => pointInterval(0)) };
    if (exponent < 1 && exponent > 0 && a.value.low <= 0)
      throw new RangeError('a root can be taken of 0, where its slope is infinite');
    const slope = multiplyIntervals(pointInterval(exponent), powerOfInterval(a.value, exponent - 1));
    return { value, slopes: a.slopes.map((each) => multiplyIntervals(each, slope)) };
  }
  if (a.value.low <= 0) throw new RangeError('a number that is not above 0 can come to a power that varies');
  const b = slopesOf(right, box);
  const log = risingOf(a.value, Math.log);
  const value = risingOf(multiplyIntervals(b.value, log), Math.exp);
  const inverse = invertInterval(a.value);
  return {
    value,
    slopes: a.slopes.map((ofA, place) =>
      multiplyIntervals(
        value,
        addIntervals(
          multiplyIntervals(b.slopes[place]!, log),
          multiplyIntervals(multiplyIntervals(b.value, inverse), ofA),
        ),
      ),
    ),
  };
}

function oneArgument(
  name: OneArgumentFunction,
  a: Interval,
): { readonly value: Interval; readonly slope: Interval } {
  switch (name) {
    case 'abs':
      return {
        value: absoluteInterval(a),
        slope: a.low > 0 ? pointInterval(1) : a.high < 0 ? pointInterval(-1) : { low: -1, high: 1 },
      };
    case 'exp': {
      const value = risingOf(a, Math.exp);
      return { value, slope: value };
    }
    case 'ln':
    case 'log10': {
      if (a.low <= 0) throw new RangeError('a logarithm can be taken of a number that is not above 0');
      const scale = name === 'ln' ? 1 : Math.LOG10E;
      return {
        value: risingOf(a, name === 'ln' ? Math.log : Math.log10),
        slope: multiplyIntervals(pointInterval(scale), invertInterval(a)),
      };
    }
    case 'sqrt': {
      if (a.low <= 0)
        throw new RangeError('a root can be taken of a number that is not above 0, where it has no slope');
      const value = risingOf(a, Math.sqrt);
      return { value, slope: multiplyIntervals(pointInterval(0.5), invertInterval(value)) };
    }
    case 'sin':
      return { value: sineOfInterval(a), slope: cosineOfInterval(a) };
    case 'cos':
      return { value: cosineOfInterval(a), slope: negateInterval(sineOfInterval(a)) };
    case 'tan': {
      if (holdsZero(cosineOfInterval(a))) throw new RangeError('a tangent can become infinite');
      const value = risingOf(a, Math.tan);
      return { value, slope: addIntervals(pointInterval(1), powerOfInterval(value, 2)) };
    }
    case 'asin':
    case 'acos': {
      if (a.low <= -1 || a.high >= 1)
        throw new RangeError(`${name} can be taken of a number that is not between -1 and 1`);
      const below = addIntervals(pointInterval(1), negateInterval(powerOfInterval(a, 2)));
      const slope = invertInterval(risingOf(below, Math.sqrt));
      if (name === 'asin') return { value: risingOf(a, Math.asin), slope };
      return { value: hullOf(Math.acos(a.low), Math.acos(a.high)), slope: negateInterval(slope) };
    }
    case 'atan':
      return {
        value: risingOf(a, Math.atan),
        slope: invertInterval(addIntervals(pointInterval(1), powerOfInterval(a, 2))),
      };
    default:
      return name satisfies never;
  }
}
