// Writes anew what a package wrote for engines of ten years ago, where it costs much of its time:
// - `_objectSpread2(_objectSpread2({}, one), {}, { two })` as `{ ...one, two }`: a call that every copy goes through sees
//   objects of all shapes and stays slow; a spread in its place is as quick as the shapes that it sees there allow;
// - `new RegExp("[a-z]", "u")`, which makes its expression each time that it is reached, as a constant of the module.

import { parse } from 'acorn';

/** Whether a node is a call that copies objects, with its arguments given one by one. */
const isCopy = (node) =>
  node.type === 'CallExpression' &&
  node.callee.name === '_objectSpread2' &&
  node.arguments.length > 0 &&
  node.arguments.every(({ type }) => type !== 'SpreadElement');

/** Whether a node makes a regular expression that keeps nothing from one use to the next. */
const isSteadyExpression = (node) =>
  node.type === 'NewExpression' &&
  node.callee.name === 'RegExp' &&
  node.arguments.every(({ type }) => type === 'Literal') &&
  !/[gy]/.test(node.arguments[1]?.value ?? '');

/** The nodes right below a node, in the order in which they are written. */
const childrenOf = (node) =>
  Object.values(node)
    .flat()
    .filter((value) => typeof value?.type === 'string')
    .sort((one, other) => one.start - other.start);

/** The text of a module that does the same in the words of today. */
export const modernJavaScript = (text) => {
  /** The name of the constant of each regular expression. */
  const expressions = new Map();
  const nameOf = (expression) => {
    if (!expressions.has(expression)) expressions.set(expression, `steadyExpression${expressions.size + 1}`);
    return expressions.get(expression);
  };
  /** What a node reads like with the nodes inside of it written anew. */
  const written = (node) => {
    if (isCopy(node)) return `({ ${membersOf(node).join(', ')} })`;
    if (isSteadyExpression(node)) return nameOf(text.slice(node.start, node.end));
    let result = '';
    let from = node.start;
    for (const child of childrenOf(node)) {
      // A name that stands for its value as well is two nodes at one place.
      if (child.start < from) continue;
      result += text.slice(from, child.start) + written(child);
      from = child.end;
    }
    return result + text.slice(from, node.end);
  };
  /** The members of the literal that a call stands for, in the order in which they are set. */
  const membersOf = (call) =>
    call.arguments.flatMap((argument) => {
      if (isCopy(argument)) return membersOf(argument);
      if (argument.type === 'ObjectExpression') return argument.properties.map(written);
      return [`...${written(argument)}`];
    });
  const module = written(parse(text, { ecmaVersion: 'latest', sourceType: 'module' }));
  const constants = [...expressions].map(([expression, name]) => `const ${name} = ${expression};\n`);
  return constants.join('') + module;
};
