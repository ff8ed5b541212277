import { type Dimension, unitText } from '../../records/units.ts';
import { evaluateFormula, type Formula, isConstant } from '../../statistics/formula.ts';
import { raisedDigits } from '../../statistics/number-notation.ts';

/** Thrown and caught within a dimension analysis; carries what does not fit. */
const misfit = (words: string): RangeError => new RangeError(words);

const isNone = (dimension: Dimension): boolean => Object.keys(dimension).length === 0;

/** Whether two dimensions are the same. */
export const sameDimension = (a: Dimension, b: Dimension): boolean =>
  [...new Set([...Object.keys(a), ...Object.keys(b)])].every(
    (base) => Math.abs((a[base] ?? 0) - (b[base] ?? 0)) < 1e-9,
  );

const combined = (a: Dimension, b: Dimension, sign: 1 | -1): Dimension => {
  const sum = new Map(Object.entries(a));
  for (const [base, power] of Object.entries(b)) sum.set(base, (sum.get(base) ?? 0) + sign * power);
  return Object.fromEntries([...sum].filter(([, power]) => Math.abs(power) > 1e-9));
};

const raised = (dimension: Dimension, exponent: number): Dimension =>
  Object.fromEntries(
    Object.entries(dimension)
      .map(([base, power]): [string, number] => [base, power * exponent])
      .filter(([, power]) => power !== 0),
  );

/** A power as printed: nothing for 1, raised digits for a whole one; a broken one, as of a square root, in brackets. */
const powerText = (power: number): string => {
  if (power === 1) return '';
  return Number.isInteger(power) ? raisedDigits(power) : `^(${Number(power.toPrecision(6))})`;
};

/**
 * A dimension in base units of the SI, the mass in kilograms, positive powers first: `kg·m·s⁻²`; `a bare number` where
 * there is none.
 */
export const dimensionText = (dimension: Dimension): string => {
  // UCUM counts in grams; only the name is of interest here, no factor goes with it.
  const names = Object.entries(dimension).map(([base, power]): readonly [string, number] => [
    base === 'g' ? 'kg' : base,
    power,
  ]);
  const order = ['kg', 'm', 's'];
  const rank = ([base, power]: readonly [string, number]): number =>
    (power < 0 ? 10 : 0) + (order.includes(base) ? order.indexOf(base) : order.length);
  const parts = names
    .sort((a, b) => rank(a) - rank(b) || (a[0] < b[0] ? -1 : 1))
    .map(([base, power]) => `${unitText(base)}${powerText(power)}`);
  return parts.length === 0 ? 'a bare number' : parts.join('·');
};

export type DimensionOutcome =
  | { readonly ok: true; readonly dimension: Dimension }
  | { readonly ok: false; readonly reason: string };

/**
 * The dimension of a formula whose variables have the given ones. Sums, differences, max and min need the same dimension on
 * both sides; functions other than abs and sqrt need a bare number; a power needs a fixed exponent unless its base is a
 * bare number. Angles count as bare numbers, in radians.
 */
export const formulaDimension = (formula: Formula, of: readonly Dimension[]): DimensionOutcome => {
  try {
    return { ok: true, dimension: dimensionOf(formula, of) };
  } catch (error) {
    if (error instanceof RangeError) return { ok: false, reason: error.message };
    throw error;
  }
};

const dimensionOf = (formula: Formula, of: readonly Dimension[]): Dimension => {
  switch (formula.kind) {
    case 'number':
      return {};
    case 'variable':
      return of[formula.place] ?? {};
    case 'negative':
      return dimensionOf(formula.of, of);
    case 'function': {
      const inner = dimensionOf(formula.of, of);
      if (formula.name === 'abs') return inner;
      if (formula.name === 'sqrt') return raised(inner, 0.5);
      if (!isNone(inner))
        throw misfit(`${formula.name} is taken of ${dimensionText(inner)}; it needs a bare number`);
      return {};
    }
    case 'pair': {
      const left = dimensionOf(formula.left, of);
      const right = dimensionOf(formula.right, of);
      switch (formula.name) {
        case '*':
          return combined(left, right, 1);
        case '/':
          return combined(left, right, -1);
        case '^': {
          if (!isNone(right))
            throw misfit(`an exponent is ${dimensionText(right)}; it must be a bare number`);
          if (isNone(left)) return {};
          if (!isConstant(formula.right))
            throw misfit(`${dimensionText(left)} is raised to a power that varies`);
          return raised(left, evaluateFormula(formula.right, []));
        }
        default:
          if (!sameDimension(left, right))
            throw misfit(
              `${dimensionText(left)} and ${dimensionText(right)} stand on the two sides of ${formula.name}`,
            );
          return left;
      }
    }
    default:
      return formula satisfies never;
  }
};
