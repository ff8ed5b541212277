import fc from 'fast-check';
import { expect, test } from 'vitest';
// @ts-expect-error The module is plain JavaScript without types.
import { modernJavaScript } from '../../.ci/modern-javascript.mjs';

// As the helper of that name is written in packages (ECMAScript 2018, 13.2.5: what a spread does to its object).
const helper = 'function _objectSpread2(target, ...sources) { return Object.assign(target, ...sources); }\n';

/** What the function `made` of a module returns. */
const valueOf = (module: string, given: unknown): unknown =>
  new Function('given', `${module}\nreturn made(given);`)(given);

test('a copy written as a call is a spread, in the order in which it was set', () => {
  const module = `${helper}const made = ({ one, two }) =>
  _objectSpread2(_objectSpread2(_objectSpread2({ first: 1 }, one), {}, { b: _objectSpread2({}, two), c: 0 }), two === undefined ? {} : { d: 4 });\n`;
  const modern = modernJavaScript(module);
  expect(modern).toContain(
    '({ first: 1, ...one, b: ({ ...two }), c: 0, ...two === undefined ? {} : { d: 4 } })',
  );
  const member = fc.dictionary(fc.constantFrom('a', 'b', 'c', 'first'), fc.nat());
  fc.assert(
    fc.property(fc.option(member, { nil: undefined }), fc.option(member, { nil: undefined }), (one, two) => {
      const made = valueOf(modern, { one, two });
      expect(made).toEqual(valueOf(module, { one, two }));
      expect(Object.keys(made as object)).toEqual(Object.keys(valueOf(module, { one, two }) as object));
    }),
  );
});

test('a regular expression is made once where it keeps nothing, and stays in its place where it does', () => {
  const module = `const made = (text) => [
  new RegExp("[\\\\p{L}]", "u").test(text), text.split(new RegExp("(\\\\d)")), new RegExp("a", "g").exec(text),
  new RegExp(text).test("b"), ["x", "y"].map((at) => new RegExp("[\\\\p{L}]", "u").test(at)),
];\n`;
  const modern = modernJavaScript(module);
  expect(modern.match(/new RegExp/g)).toHaveLength(4);
  expect(modern).toMatch(/^const steadyExpression1 = new RegExp\("\[\\\\p\{L\}\]", "u"\);\n/);
  for (const text of ['a1b2', 'é', '', '7']) expect(valueOf(modern, text)).toEqual(valueOf(module, text));
});

test('what else a module says stays as it is', () => {
  const module =
    '// remark\nimport { a } from "a";\nexport const { b, c = `x` } = a, d = /r/u;\n\nexport default { b, c };\n';
  expect(modernJavaScript(module)).toBe(module);
});
