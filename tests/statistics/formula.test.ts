import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formulaRange, propagate } from '../../src/statistics/error-propagation.ts';
import {
  evaluateFormula,
  type Formula,
  type OneArgumentFunction,
  type Operator,
  oneArgumentFunctions,
  type TwoArgumentFunction,
} from '../../src/statistics/formula.ts';
import { slopesOver } from '../../src/statistics/formula-slopes.ts';
import { pointInterval } from '../../src/statistics/interval.ts';
import { seededUniforms } from '../../src/statistics/seeded-generator.ts';
import { productStackup } from '../../src/statistics/stackup.ts';
import { expectRelative, valueFrom } from './reference-values.ts';

const seed = 20260615;
const number = (value: number): Formula => ({ kind: 'number', value });
const variable = (place: number): Formula => ({ kind: 'variable', place });
const pair = (left: Formula, name: Operator | TwoArgumentFunction, right: Formula): Formula => ({
  kind: 'pair',
  name,
  left,
  right,
});
const call = (name: OneArgumentFunction, of: Formula): Formula => ({ kind: 'function', name, of });
const [x, y, z] = [variable(0), variable(1), variable(2)];

describe('value and slopes', () => {
  test.each<[OneArgumentFunction, number, number]>([
    // Derivatives from a table of calculus: f, x, f'(x).
    ['abs', -2, -1],
    ['acos', 0.5, -1 / Math.sqrt(0.75)],
    ['asin', 0.5, 1 / Math.sqrt(0.75)],
    ['atan', 2, 0.2],
    ['cos', 0.7, -Math.sin(0.7)],
    ['exp', 1.5, Math.exp(1.5)],
    ['ln', 4, 0.25],
    ['log10', 4, 0.25 / Math.LN10],
    ['sin', 0.7, Math.cos(0.7)],
    ['sqrt', 9, 1 / 6],
    ['tan', 0.7, 1 / Math.cos(0.7) ** 2],
  ])('%s at %d', (name, at, slope) => {
    const { value, slopes } = slopesOver(call(name, x), [pointInterval(at)]);
    expectRelative(slopes[0]!.low, slope, 1e-14);
    expect(slopes[0]!.low).toBe(slopes[0]!.high);
    expect(value.low).toBe(Math[name === 'ln' ? 'log' : name](at));
  });

  test('every function of one argument is in the table above', () => {
    expect(oneArgumentFunctions.length).toBe(11);
  });

  test('agree with central differences on random formulas', () => {
    const leaf = fc.oneof(
      fc.constantFrom(x, y, z),
      fc.double({ min: 0.5, max: 3, noNaN: true }).map((value) => number(value)),
    );
    const { tree } = fc.letrec<{ tree: Formula; node: Formula }>((tie) => ({
      tree: fc.oneof({ maxDepth: 4 }, leaf, tie('node')),
      node: fc.oneof(
        fc
          .tuple(tie('tree'), fc.constantFrom<Operator>('+', '-', '*', '/'), tie('tree'))
          .map(([a, op, b]) => pair(a, op, b)),
        fc
          .tuple(fc.constantFrom<OneArgumentFunction>('sin', 'cos', 'atan'), tie('tree'))
          .map(([name, of]) => call(name, of)),
        fc.tuple(tie('tree'), fc.constantFrom(2, 3)).map(([a, power]) => pair(a, '^', number(power))),
      ),
    }));
    let compared = 0;
    fc.assert(
      fc.property(
        tree,
        fc.tuple(...[0, 1, 2].map(() => fc.double({ min: 0.5, max: 2, noNaN: true }))),
        (formula, at) => {
          let found: ReturnType<typeof slopesOver>;
          try {
            found = slopesOver(formula, at.map(pointInterval));
          } catch {
            return;
          }
          for (const place of [0, 1, 2]) {
            const moved = (by: number) =>
              evaluateFormula(
                formula,
                at.map((value, i) => (i === place ? value + by : value)),
              );
            const step = 1e-5;
            const difference = (moved(step) - moved(-step)) / (2 * step);
            const curvature = Math.abs(moved(step) + moved(-step) - 2 * moved(0)) / step ** 2;
            const scale = Math.abs(difference) + Math.abs(moved(0));
            // Near a pole differences say nothing.
            if (!(curvature < 1e3) || !(scale < 1e3)) continue;
            compared++;
            expect(Math.abs(found.slopes[place]!.low - difference)).toBeLessThan(1e-4 * (1 + scale));
          }
        },
      ),
      { seed, numRuns: 400 },
    );
    expect(compared).toBeGreaterThan(600);
  });

  test('x^y by both arguments: y x^(y - 1) and x^y ln x', () => {
    const { slopes } = slopesOver(pair(x, '^', y), [pointInterval(3), pointInterval(2.5)]);
    expectRelative(slopes[0]!.low, 2.5 * 3 ** 1.5, 1e-14);
    expectRelative(slopes[1]!.low, 3 ** 2.5 * Math.log(3), 1e-14);
  });

  test('max and min have the slope of the one that counts', () => {
    const box = [pointInterval(3), pointInterval(2)];
    expect(slopesOver(pair(x, 'max', y), box).slopes.map((slope) => slope.low)).toEqual([1, 0]);
    expect(slopesOver(pair(x, 'min', y), box).slopes.map((slope) => slope.low)).toEqual([0, 1]);
  });
});

describe('propagation', () => {
  test('JCGM 100:2008 (GUM), 5.1.3 and H.1 pattern: a power P = V^2 / R by hand', () => {
    // V = 10 +/- 0.1, R = 50 +/- 0.5: dP/dV = 0.4, dP/dR = -0.04; u = sqrt(0.04^2 + 0.02^2).
    const formula = pair(pair(x, '^', number(2)), '/', y);
    const found = valueFrom(propagate(formula, [10, 50], [0.1, 0.5]));
    expect(found.value).toBe(2);
    expectRelative(found.slopes[0]!, 0.4, 1e-14);
    expectRelative(found.slopes[1]!, -0.04, 1e-14);
    expectRelative(found.spread, Math.hypot(0.04, 0.02), 1e-13);
    expectRelative(found.contributions[0]!, 0.8, 1e-13);
  });

  test('NIST/SEMATECH e-Handbook 2.5.5: the variance of a product X Y is Y^2 s_X^2 + X^2 s_Y^2', () => {
    const found = valueFrom(propagate(pair(x, '*', y), [3, 7], [0.2, 0.3]));
    expectRelative(found.spread ** 2, 49 * 0.04 + 9 * 0.09, 1e-13);
  });

  test('a product of powers agrees with the product stack-up', () => {
    const dimension = fc.record({
      nominal: fc.double({ min: 1, max: 20, noNaN: true }),
      plus: fc.double({ min: 0.01, max: 0.4, noNaN: true }),
    });
    fc.assert(
      fc.property(dimension, dimension, (a, b) => {
        const formula = pair(pair(number(0.7), '*', pair(x, '^', number(2))), '/', y);
        const terms = [
          { ...a, minus: a.plus, exponent: 2 },
          { ...b, minus: b.plus, exponent: -1 },
        ];
        const stack = productStackup(terms, 0.7);
        const found = valueFrom(propagate(formula, [a.nominal, b.nominal], [a.plus, b.plus]));
        expectRelative(found.spread, stack.rootSumSquare.halfWidth, 1e-12);
        const box = [a, b].map(({ nominal, plus }) => ({ low: nominal - plus, high: nominal + plus }));
        const range = valueFrom(formulaRange(formula, box));
        expect(range.exact).toBe(true);
        expectRelative(range.low, stack.worstCase.lower, 1e-12);
        expectRelative(range.high, stack.worstCase.upper, 1e-12);
      }),
      { seed },
    );
  });

  test('nothing that varies, nothing that spreads', () => {
    expect(valueFrom(propagate(number(5), [], []))).toEqual({
      value: 5,
      slopes: [],
      spread: 0,
      contributions: [],
    });
    expect(valueFrom(propagate(x, [5], [0])).contributions).toEqual([0]);
  });

  test.each<[string, Formula, readonly number[], string]>([
    ['a division by 0', pair(number(1), '/', x), [0], 'a divisor can be 0'],
    ['the root of 0', call('sqrt', x), [0], 'no slope'],
    ['the root of a negative number', pair(x, '^', number(0.5)), [-1], 'no whole number'],
    ['a logarithm of 0', call('ln', x), [0], 'not above 0'],
    ['an arc sine of 2', call('asin', x), [2], 'not between -1 and 1'],
    ['the kink of an amount', call('abs', x), [0], 'a kink'],
    ['a tie of two values', pair(x, 'max', y), [1, 1], 'a kink'],
    ['an overflow', call('exp', x), [1000], 'infinite'],
    ['a varying power of a negative number', pair(x, '^', y), [-1, 2], 'not above 0'],
  ])('%s has a reason, never NaN', (_, formula, at, words) => {
    const found = propagate(
      formula,
      at,
      at.map(() => 0.1),
    );
    expect(found).toMatchObject({ ok: false, reason: expect.stringContaining(words) });
  });
});

describe('range over a box', () => {
  test('is exact where the formula turns within the box and the corners miss it', () => {
    // x (1 - x) over 0 to 1: the corners give 0, the largest value is 1/4 in the middle.
    const range = valueFrom(formulaRange(pair(x, '*', pair(number(1), '-', x)), [{ low: 0, high: 1 }]));
    expect(range.low).toBeLessThanOrEqual(0);
    expect(range.low).toBeGreaterThan(-1e-9);
    expect(range.high).toBeGreaterThanOrEqual(0.25);
    expect(range.high).toBeLessThan(0.25 + 1e-9);
    expect(range.exact).toBe(true);
  });

  test('holds every value that the formula takes in the box', () => {
    const uniform = seededUniforms(seed);
    const formulas: Formula[] = [
      pair(call('sin', pair(x, '*', y)), '+', pair(z, '^', number(2))),
      pair(call('abs', pair(x, '-', y)), 'max', call('cos', z)),
      pair(pair(x, '^', y), '/', pair(z, '+', number(3))),
      pair(call('exp', call('atan', x)), '*', call('log10', pair(y, '+', number(1)))),
      pair(pair(x, '-', number(1)), '^', number(4)),
    ];
    const side = fc.record({
      low: fc.double({ min: 0.1, max: 2, noNaN: true }),
      width: fc.double({ min: 0, max: 2, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.constantFrom(...formulas), side, side, side, (formula, a, b, c) => {
        const box = [a, b, c].map(({ low, width }) => ({ low, high: low + width }));
        const range = valueFrom(formulaRange(formula, box));
        for (let draw = 0; draw < 30; draw++) {
          const value = evaluateFormula(
            formula,
            box.map(({ low, high }) => low + (high - low) * uniform()),
          );
          expect(value).toBeGreaterThanOrEqual(range.low - 1e-9);
          expect(value).toBeLessThanOrEqual(range.high + 1e-9);
        }
      }),
      { seed, numRuns: 60 },
    );
  });

  test('says where its ends are bounds only', () => {
    // (x - y)^2 over a square turns along the whole diagonal: 0 is reached, but not by a few boxes.
    const difference = pair(x, '-', y);
    const range = valueFrom(
      formulaRange(pair(difference, '*', difference), [
        { low: 0, high: 1 },
        { low: 0, high: 1 },
      ]),
    );
    expect(range.exact).toBe(false);
    expect(range.low).toBeLessThan(0);
    expect(range.low).toBeGreaterThan(-0.05);
    expect(range.high).toBeCloseTo(1, 12);
    // As a square it is never negative, and 0 is reached.
    const square = valueFrom(
      formulaRange(pair(difference, '^', number(2)), [
        { low: 0, high: 1 },
        { low: 0, high: 1 },
      ]),
    );
    expect(square).toMatchObject({ low: 0, exact: true });
  });

  test('a box over a pole has a reason', () => {
    expect(formulaRange(pair(number(1), '/', x), [{ low: -1, high: 1 }])).toMatchObject({
      ok: false,
      reason: 'a divisor can be 0',
    });
    expect(formulaRange(call('tan', x), [{ low: 1, high: 2 }])).toMatchObject({
      ok: false,
      reason: 'a tangent can become infinite',
    });
  });
});
