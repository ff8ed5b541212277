/**
 * Formulas as trees of numbers, variables and a closed list of functions. Nothing here reads text: a tree can hold no name
 * but a place in a list of values, and no function but those below.
 */

/** Functions of one argument; angles in radians. */
export const oneArgumentFunctions = [
  'abs',
  'acos',
  'asin',
  'atan',
  'cos',
  'exp',
  'ln',
  'log10',
  'sin',
  'sqrt',
  'tan',
] as const;

export type OneArgumentFunction = (typeof oneArgumentFunctions)[number];

/** Functions of two arguments. */
export const twoArgumentFunctions = ['max', 'min'] as const;

export type TwoArgumentFunction = (typeof twoArgumentFunctions)[number];

export type Operator = '+' | '-' | '*' | '/' | '^';

export type Formula =
  | { readonly kind: 'number'; readonly value: number }
  /** The value at a place, counted from 0. */
  | { readonly kind: 'variable'; readonly place: number }
  | { readonly kind: 'negative'; readonly of: Formula }
  | { readonly kind: 'function'; readonly name: OneArgumentFunction; readonly of: Formula }
  | {
      readonly kind: 'pair';
      readonly name: TwoArgumentFunction | Operator;
      readonly left: Formula;
      readonly right: Formula;
    };

const functions: Readonly<Record<OneArgumentFunction, (x: number) => number>> = {
  abs: Math.abs,
  acos: Math.acos,
  asin: Math.asin,
  atan: Math.atan,
  cos: Math.cos,
  exp: Math.exp,
  ln: Math.log,
  log10: Math.log10,
  sin: Math.sin,
  sqrt: Math.sqrt,
  tan: Math.tan,
};

const pairs: Readonly<Record<TwoArgumentFunction | Operator, (x: number, y: number) => number>> = {
  '+': (x, y) => x + y,
  '-': (x, y) => x - y,
  '*': (x, y) => x * y,
  '/': (x, y) => x / y,
  '^': (x, y) => x ** y,
  max: Math.max,
  min: Math.min,
};

/**
 * The value of a formula; not a number or infinite where the formula has none there.
 *
 * Source: definition; arithmetic of the tree.
 */
export function evaluateFormula(formula: Formula, values: readonly number[]): number {
  switch (formula.kind) {
    case 'number':
      return formula.value;
    case 'variable':
      return values[formula.place] ?? Number.NaN;
    case 'negative':
      return -evaluateFormula(formula.of, values);
    case 'function':
      return functions[formula.name](evaluateFormula(formula.of, values));
    case 'pair':
      return pairs[formula.name](
        evaluateFormula(formula.left, values),
        evaluateFormula(formula.right, values),
      );
    default:
      return formula satisfies never;
  }
}

/**
 * Whether no variable occurs in a formula, so that it is the same number everywhere.
 *
 * Source: definition.
 */
export function isConstant(formula: Formula): boolean {
  switch (formula.kind) {
    case 'number':
      return true;
    case 'variable':
      return false;
    case 'negative':
    case 'function':
      return isConstant(formula.of);
    case 'pair':
      return isConstant(formula.left) && isConstant(formula.right);
    default:
      return formula satisfies never;
  }
}
