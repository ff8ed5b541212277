// What lays out pages looks up the same few fonts for every word, and copies objects as engines of ten years ago had
// to. Both cost half of its time. The bundle gets these functions in a quicker form; what they return is the same, which
// tests/cli/build-again.test.ts holds. A new version of the package that reads otherwise fails the bundle here:
// then look whether this is still of use.

import { readFile } from 'node:fs/promises';

/** The function of a module's text that starts with `start`, up to its closing bracket. */
const functionText = (text, start) => {
  const from = text.indexOf(start);
  if (from < 0 || text.indexOf(start, from + 1) >= 0)
    throw new Error(`docx/layout reads otherwise than expected: "${start}" is not there once`);
  let depth = 0;
  for (let at = text.indexOf('{', from); at < text.length; at++) {
    if (text[at] === '{') depth++;
    if (text[at] === '}' && --depth === 0) return text.slice(from, at + 1);
  }
  throw new Error(`docx/layout reads otherwise than expected: "${start}" has no end`);
};

/** Puts a function into the text that asks `name` once for each key; `key` is an expression over its argument `font`. */
const asksOnce = (text, name, key) => {
  const original = functionText(text, `var ${name} = (font) =>`);
  const anew = `${name}Anew`;
  return text.replace(
    original,
    () => `${original.replace(`var ${name}`, `var ${anew}`)};
var ${name}Known = new Map();
var ${name} = (font) => {
  const key = ${key};
  let known = ${name}Known.get(key);
  if (known === undefined) ${name}Known.set(key, (known = { value: ${anew}(font) }));
  return known.value;
}`,
  );
};

/** The line of a module's text that starts with `start`. */
const lineText = (text, start) => {
  const lines = text.split('\n').filter((line) => line.startsWith(start));
  if (lines.length !== 1 || !lines[0].endsWith(';'))
    throw new Error(`docx/layout reads otherwise than expected: "${start}" is not there as one line`);
  return lines[0];
};

/** The text of docx/layout with its costly functions made quicker. */
export const quickerLayoutText = (text) =>
  asksOnce(
    asksOnce(
      text
        .replace(
          functionText(text, 'function _objectSpread2('),
          'function _objectSpread2(target, ...sources) { return Object.assign(target, ...sources); }',
        )
        .replace(
          lineText(text, 'var withoutUndefined = (object) =>'),
          'var withoutUndefined = (object) => combine([object]);',
        )
        .replace(
          lineText(text, 'var combine = (formats) =>'),
          `var combine = (formats) => {
  const all = {};
  for (const format of formats)
    for (const key of Object.keys(format)) if (format[key] !== undefined) all[key] = format[key];
  return all;
};`,
        ),
      'measuresOf',
      '[font.font, font.bold === true, font.italic === true].join()',
    ),
    'knownEastAsianFontOf',
    'font',
  );

export const quickerLayout = {
  name: 'quicker layout',
  setup(build) {
    build.onLoad({ filter: /[\\/]docx[\\/]dist[\\/]layout\.mjs$/ }, async ({ path }) => ({
      contents: quickerLayoutText(await readFile(path, 'utf8')),
      loader: 'js',
    }));
  },
};
