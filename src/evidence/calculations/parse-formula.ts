/**
 * Formulas from text. The parser (jsep) turns text into a tree and can run nothing; this file takes over what is arithmetic
 * and refuses the rest, so that a formula has no way to a property, a string, an assignment or a function beyond the list.
 */
import jsep from 'jsep';
import { nearestName } from '../../records/nearest-name.ts';
import {
  type Formula,
  type OneArgumentFunction,
  type Operator,
  oneArgumentFunctions,
  type TwoArgumentFunction,
  twoArgumentFunctions,
} from '../../statistics/formula.ts';

/** Characters that a formula may have, and how deep it may nest. */
const longest = 400;
const deepest = 30;

const operators: readonly Operator[] = ['+', '-', '*', '/', '^'];

const constants: ReadonlyMap<string, number> = new Map([
  ['pi', Math.PI],
  ['e', Math.E],
]);

/** Names that a variable can't have: constants and functions. */
export const reservedNames: readonly string[] = [
  ...constants.keys(),
  ...oneArgumentFunctions,
  ...twoArgumentFunctions,
];

export type ParsedFormula =
  | { readonly ok: true; readonly formula: Formula }
  /** A clause for a reader, lower case, no full stop. */
  | { readonly ok: false; readonly reason: string };

/** The arithmetic of formulas: the parser comes with that of a programming language. */
const setUp = (): void => {
  jsep.removeAllUnaryOps();
  jsep.removeAllBinaryOps();
  jsep.removeAllLiterals();
  jsep.addUnaryOp('-');
  for (const [precedence, names] of [
    [1, ['+', '-']],
    [2, ['*', '/']],
  ] as const)
    for (const name of names) jsep.addBinaryOp(name, precedence);
  jsep.addBinaryOp('^', 3, true);
};
setUp();

/**
 * Reads a formula over variables with the given names. Powers bind tighter than signs, as on paper; since the parser would
 * read -x^2 as (-x)^2, a sign right before a power has to be set in brackets.
 */
export const parseFormula = (text: string, names: readonly string[]): ParsedFormula => {
  if (text.length > longest)
    return { ok: false, reason: `the formula has ${text.length} characters, at most ${longest} are allowed` };
  const places = new Map(names.map((name, place) => [name, place]));
  let tree: jsep.Expression;
  try {
    tree = jsep(text);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { ok: false, reason: `the formula cannot be read: ${message}` };
  }
  try {
    return { ok: true, formula: taken(tree, places, 0) };
  } catch (error) {
    if (error instanceof RangeError) return { ok: false, reason: error.message };
    throw error;
  }
};

/** The tree as a formula. Throws a RangeError that says what is refused. */
const taken = (node: jsep.Expression, places: ReadonlyMap<string, number>, depth: number): Formula => {
  if (depth > deepest) throw new RangeError(`the formula nests deeper than ${deepest} levels`);
  const inner = (child: unknown): Formula => taken(child as jsep.Expression, places, depth + 1);
  switch (node.type) {
    case 'Literal': {
      const value = node['value'];
      if (typeof value !== 'number') throw new RangeError(`${String(node['raw'])} is not a number`);
      if (!Number.isFinite(value)) throw new RangeError(`${String(node['raw'])} is too large for a number`);
      return { kind: 'number', value };
    }
    case 'Identifier':
      return named(String(node['name']), places);
    case 'UnaryExpression':
      return { kind: 'negative', of: inner(node['argument']) };
    case 'BinaryExpression': {
      const name = operators.find((operator) => operator === node['operator']);
      if (name === undefined) throw new RangeError(`the operator ${String(node['operator'])} is not allowed`);
      const left = node['left'] as jsep.Expression;
      if (name === '^' && left.type === 'UnaryExpression')
        throw new RangeError(
          'a sign before a power reads two ways; write -(x^2) for the negative square, (0 - x)^2 for the other',
        );
      return { kind: 'pair', name, left: inner(left), right: inner(node['right']) };
    }
    case 'CallExpression':
      return called(node, inner);
    case 'Compound':
      throw new RangeError(
        (node['body'] as readonly unknown[]).length === 0
          ? 'the formula is empty'
          : 'the formula holds more than one expression; write every product with *',
      );
    case 'MemberExpression':
      throw new RangeError('the formula asks for a property; numbers have none');
    default:
      throw new RangeError(`the formula holds a ${node.type}, which is no arithmetic`);
  }
};

const named = (name: string, places: ReadonlyMap<string, number>): Formula => {
  const place = places.get(name);
  if (place !== undefined) return { kind: 'variable', place };
  const constant = constants.get(name);
  if (constant !== undefined) return { kind: 'number', value: constant };
  const near = nearestName(name, [...places.keys(), ...constants.keys()]);
  throw new RangeError(
    `the formula names "${name}", which is no variable${near === undefined ? '' : `; is "${near}" meant?`}`,
  );
};

const called = (node: jsep.Expression, inner: (child: unknown) => Formula): Formula => {
  const callee = node['callee'] as jsep.Expression;
  const given = node['arguments'] as readonly unknown[];
  const name = callee.type === 'Identifier' ? String(callee['name']) : '';
  const expect = (count: number): void => {
    if (given.length !== count)
      throw new RangeError(
        `${name} takes ${count === 1 ? 'one value' : `${count} values`}, not ${given.length}`,
      );
  };
  const one = oneArgumentFunctions.find((known): known is OneArgumentFunction => known === name);
  if (one !== undefined) {
    expect(1);
    return { kind: 'function', name: one, of: inner(given[0]) };
  }
  const two = twoArgumentFunctions.find((known): known is TwoArgumentFunction => known === name);
  if (two !== undefined) {
    expect(2);
    return { kind: 'pair', name: two, left: inner(given[0]), right: inner(given[1]) };
  }
  if (name === 'log') throw new RangeError('log reads two ways; write ln or log10');
  throw new RangeError(
    `the function ${name === '' ? 'that the formula calls' : `"${name}"`} is not allowed; there are ${[...oneArgumentFunctions, ...twoArgumentFunctions].join(', ')}`,
  );
};
