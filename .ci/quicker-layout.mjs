// What lays out pages looks up the same few fonts for every word, measures each table anew for whatever is kept with it,
// and copies objects as engines of ten years ago had to. That cost three quarters of its time. The bundle gets these
// functions in a quicker form; what they return is the same, which tests/cli/build-again.test.ts holds. A new version of
// the package that reads otherwise fails the bundle here: then look whether this is still of use.

import { readFile } from 'node:fs/promises';
import { modernJavaScript } from './modern-javascript.mjs';

/** The function of a module's text that starts with `start`, up to its closing bracket. */
const functionText = (text, start) => {
  const from = text.indexOf(start);
  if (from < 0 || text.indexOf(start, from + 1) >= 0)
    throw new Error(`docx/layout reads otherwise than expected: "${start}" is not there once`);
  let depth = 0;
  for (let at = text.indexOf('{', from + start.length); at < text.length; at++) {
    if (text[at] === '{') depth++;
    if (text[at] === '}' && --depth === 0) return text.slice(from, at + 1);
  }
  throw new Error(`docx/layout reads otherwise than expected: "${start}" has no end`);
};

/** Puts a function into the text that asks `name` once for each key; `key` is an expression over its arguments. */
const asksOnce = (text, name, parameters, key) => {
  const original = functionText(text, `var ${name} = (${parameters}) =>`);
  const anew = `${name}Anew`;
  return text.replace(
    original,
    () => `${original.replace(`var ${name}`, `var ${anew}`)};
var ${name}Known = new Map();
var ${name} = (${parameters}) => {
  const key = ${key};
  let known = ${name}Known.get(key);
  if (known === undefined) ${name}Known.set(key, (known = { value: ${anew}(${parameters.replace(/ = \{\}/g, '')}) }));
  return known.value;
}`,
  );
};

/** Puts one piece in the place of another that is there once. */
const inPlaceOf = (text, piece, other) => {
  if (text.split(piece).length !== 2)
    throw new Error(`docx/layout reads otherwise than expected: "${piece}" is not there once`);
  return text.replace(piece, () => other);
};

/** The line of a module's text that starts with `start`. */
const lineText = (text, start) => {
  const lines = text.split('\n').filter((line) => line.startsWith(start));
  if (lines.length !== 1 || !lines[0].endsWith(';'))
    throw new Error(`docx/layout reads otherwise than expected: "${start}" is not there as one line`);
  return lines[0];
};

/** Formats one over the other, without what they leave open, in one object in place of one for each. */
const combinesAtOnce = (text) =>
  text
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
    );

/** Each font is measured once, and each word in it. */
const measuresOnce = (text) => {
  const face = 'font.font, font.bold === true, font.italic === true';
  const withFonts = asksOnce(text, 'measuresOf', 'font', `[${face}].join()`);
  const withNames = asksOnce(withFonts, 'knownEastAsianFontOf', 'font', 'font');
  return asksOnce(
    withNames,
    'measureTextHeight',
    'text, font = {}',
    `[${face}, font.size, font.lineSize, text].join()`,
  );
};

/** The styles that a style is based on are gathered once. */
const followsStylesOnce = (text) => {
  const original = functionText(text, 'var styleChain = ({ styles }, id, type) =>');
  return text.replace(
    original,
    () => `${original.replace('var styleChain = ({ styles }', 'var styleChainAnew = ({ styles }')};
var styleChains = new WeakMap();
var styleChain = (of, id, type) => {
  let known = styleChains.get(of.styles);
  if (known === undefined) styleChains.set(of.styles, (known = new Map()));
  const key = \`\${type} \${id}\`;
  let chain = known.get(key);
  if (chain === undefined) known.set(key, (chain = styleChainAnew(of, id, type)));
  return chain;
}`,
  );
};

/**
 * A cell of a table is as tall as before where it is asked again: for the heading that is kept with the table, for the
 * caption, for the table itself, and for all of them in the next pass. A cell that names a page, or of which the engine
 * has to say that it guessed, is asked anew.
 */
const measuresCellsOnce = (text) => {
  const original = functionText(text, 'const contentHeight = (cell) =>');
  const counted = inPlaceOf(
    inPlaceOf(
      text,
      'const lines = paragraph.items.some(isPageField) ? layOut() : kept();',
      'const lines = paragraph.items.some(isPageField) ? (unsteadyTexts++, layOut()) : kept();',
    ),
    'if (!guess) throw new Unsupported(reason);',
    'unsteadyTexts++;\n\t\tif (!guess) throw new Unsupported(reason);',
  );
  const measured = inPlaceOf(
    counted,
    original,
    `let unsteadyTexts = 0;
	${original.replace('const contentHeight', 'const contentHeightAnew')};
	const contentHeights = cellHeights.get(content) ?? new Map();
	cellHeights.set(content, contentHeights);
	const contentHeight = (cell) => {
		const known = contentHeights.get(cell);
		if (known !== undefined) return known;
		const before = unsteadyTexts;
		const height = contentHeightAnew(cell);
		if (unsteadyTexts === before) contentHeights.set(cell, height);
		return height;
	}`,
  );
  return inPlaceOf(measured, 'var laidOutLines = ', 'var cellHeights = new WeakMap();\nvar laidOutLines = ');
};

/** The text of docx/layout with its costly functions made quicker. */
export const quickerLayoutText = (text) =>
  measuresCellsOnce(followsStylesOnce(measuresOnce(combinesAtOnce(modernJavaScript(text)))));

export const quickerLayout = {
  name: 'quicker layout',
  setup(build) {
    build.onLoad({ filter: /[\\/]docx[\\/]dist[\\/]layout\.mjs$/ }, async ({ path }) => ({
      contents: quickerLayoutText(await readFile(path, 'utf8')),
      loader: 'js',
    }));
  },
};
