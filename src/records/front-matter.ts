import {
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
  type YAMLMap,
} from 'yaml';
import type { Place } from '../findings/finding.ts';

/** A text cut into front matter and body. Offsets and lines refer to the whole file. */
export interface FrontMatterSplit {
  readonly yaml: string;
  /** Line of the first line of `yaml`. */
  readonly yamlLine: number;
  readonly body: string;
  readonly bodyLine: number;
}

export type SplitOutcome = FrontMatterSplit | 'missing' | 'unclosed';

/** Cuts off the front matter between a first line `---` and the next line `---`. */
export const splitFrontMatter = (text: string): SplitOutcome => {
  if (!/^---[ \t]*(\n|$)/.test(text)) return 'missing';
  const start = text.indexOf('\n') + 1;
  const close = /^---[ \t]*$/m;
  const rest = text.slice(start);
  const found = start === 0 ? null : close.exec(rest);
  if (!found) return 'unclosed';
  const yaml = rest.slice(0, found.index);
  const bodyStart = Math.min(start + found.index + found[0].length + 1, text.length);
  return {
    yaml,
    yamlLine: 2,
    body: text.slice(bodyStart),
    bodyLine: text.slice(0, bodyStart).split('\n').length,
  };
};

export interface YamlProblem {
  readonly place: Place;
  readonly kind: 'duplicate-key' | 'syntax';
  readonly message: string;
}

/** A YAML text with its values and, on demand, the place of each of them. */
export interface ParsedYaml {
  /** Plain data: objects are made without prototypes that content could reach. `undefined` where the text is broken. */
  readonly value: unknown;
  readonly problems: readonly YamlProblem[];
  /** Place of the value, or of the key where `of` says so, that a path leads to; of the nearest enclosing value where there is none. */
  place(path: readonly (string | number)[], of?: 'key' | 'value'): Place;
  /** The number as it was written, for example `0.90`. */
  written(path: readonly (string | number)[]): string | undefined;
}

/** Largest YAML text that is read, in characters. Front matter is a page at most; the parser is slow on faulty giants. */
const largestYaml = 100_000;
/** Deepest nesting of lists and groups that is read. */
const deepestNesting = 40;
/** One slip often makes the parser complain again further down: more problems than this only hide the first. */
const mostProblems = 3;

/** Keys that would reach the prototype of an object. */
const hostileKeys = new Set(['__proto__', 'constructor', 'prototype']);

/** A key as written: `01` and `1` are two names. */
const keyName = (key: Node | null): string | undefined =>
  isScalar(key) ? (key.source ?? String(key.value)) : undefined;

type Report = (node: Node | null | undefined, kind: YamlProblem['kind'], message: string) => void;

/** Plain data of a tree. Whatever a record must not hold is reported. */
const toPlain = (node: Node | null | undefined, report: Report, depth = 0): unknown => {
  if (depth > deepestNesting) {
    report(node, 'syntax', `the fields are nested deeper than ${deepestNesting} levels`);
    return undefined;
  }
  if (isAlias(node)) {
    report(node, 'syntax', 'aliases (*name) are not allowed in records: write the value out');
    return undefined;
  }
  if (isMap(node)) {
    const result: Record<string, unknown> = {};
    for (const pair of node.items) {
      const key = pair.key as Node | null;
      const name = keyName(key);
      if (name === undefined)
        report(key ?? node, 'syntax', 'the name of a field is not a plain word; put text in quotes');
      else if (hostileKeys.has(name)) report(key, 'syntax', `the key ${name} is not allowed`);
      else if (Object.hasOwn(result, name)) report(key, 'duplicate-key', `the field "${name}" stands twice`);
      else result[name] = toPlain(pair.value as Node | null, report, depth + 1);
    }
    return result;
  }
  if (isSeq(node)) return node.items.map((item) => toPlain(item as Node, report, depth + 1));
  if (!isScalar(node)) return undefined;
  if (node.value !== null && typeof node.value === 'object') {
    report(node, 'syntax', 'tags (!name) are not allowed in records');
    return undefined;
  }
  return node.value;
};

/** What the parser's complaints mean, in words for people who write records. */
const plainWords: Readonly<Partial<Record<string, string>>> = {
  TAB_AS_INDENT: 'a tab stands where blanks must: indent by blanks',
  BAD_INDENT: 'the indentation does not fit the lines above',
  BLOCK_AS_IMPLICIT_KEY: 'a colon followed by a blank stands within a value: put the value in quotes',
  MULTILINE_IMPLICIT_KEY:
    'a line is neither "name: value" nor part of a list; is the colon missing, or the blank after it?',
  MULTIPLE_DOCS: 'a line "---" or "..." starts a second document',
  BAD_ALIAS: 'aliases (*name) are not allowed in records: write the value out',
  BAD_DIRECTIVE: 'a line starts with %, which is not allowed',
};

const inWords = (code: string, message: string): string => {
  if (/^Missing closing/.test(message)) return 'a quotation mark is not closed';
  if (/^Implicit map keys/.test(message)) return 'a name has no colon and value after it';
  return plainWords[code] ?? lowerFirst(message.split('\n')[0] ?? '');
};

// Also those that turn the direction of the text around them: a title would read otherwise than it is stored.
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for.
const controlCharacter = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f\u202a-\u202e\u2066-\u2069]/;

/**
 * Reads YAML 1.2 (core schema). Dates stay text. Aliases, tags and directives are refused: a record has no use for
 * them, and aliases can be made to grow without bound.
 */
export const parseYaml = (file: string, yaml: string, firstLine: number): ParsedYaml => {
  const lines = new LineCounter();
  const place = (offset: number, end?: number): Place => {
    const { line, col } = lines.linePos(offset);
    const start = { file, line: Math.max(1, line) + firstLine - 1, column: Math.max(1, col) };
    return end === undefined || end <= offset || yaml.slice(offset, end).includes('\n')
      ? start
      : { ...start, endLine: start.line, endColumn: start.column + end - offset };
  };
  const problems: YamlProblem[] = [];
  const report = (offset: number, kind: YamlProblem['kind'], message: string): void => {
    const twin = problems.some((known) => known.kind === 'syntax') && kind === 'syntax';
    if (problems.length < mostProblems || !twin) problems.push({ place: place(offset), kind, message });
  };
  let contents: Node | null = null;
  let value: unknown;
  const control = controlCharacter.exec(yaml);
  if (yaml.length > largestYaml || control) {
    placeLines(yaml, lines);
    if (control)
      report(
        control.index,
        'syntax',
        `the control character U+${control[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')} is not allowed`,
      );
    else
      report(
        0,
        'syntax',
        `the fields take ${yaml.length} characters, at most ${largestYaml} are read: long text belongs in the body`,
      );
  } else
    try {
      const document = parseDocument(yaml, {
        lineCounter: lines,
        prettyErrors: false,
        // Checked below: the parser's own check takes quadratic time.
        uniqueKeys: false,
        version: '1.2',
        logLevel: 'error',
      });
      for (const { pos, code, message } of [...document.errors, ...document.warnings])
        report(pos[0], 'syntax', inWords(code, message));
      const directive = /^%.*$/m.exec(yaml);
      if (directive && yaml.trimStart().startsWith('%'))
        report(directive.index, 'syntax', plainWords['BAD_DIRECTIVE'] ?? '');
      contents = document.contents as Node | null;
      value = toPlain(contents, (node, kind, message) => report(node?.range?.[0] ?? 0, kind, message));
    } catch (error) {
      // The parser descends into nested lists by calling itself.
      if (!(error instanceof RangeError)) throw error;
      report(0, 'syntax', `the fields are nested deeper than ${deepestNesting} levels`);
    }
  problems.sort((a, b) => a.place.line - b.place.line || a.place.column - b.place.column);
  const pairs = new WeakMap<YAMLMap, ReadonlyMap<string, Pair>>();
  const pairsOf = (map: YAMLMap): ReadonlyMap<string, Pair> => {
    const known = pairs.get(map);
    if (known) return known;
    const byName = new Map<string, Pair>();
    for (const pair of map.items) {
      const name = keyName(pair.key as Node | null);
      // A name that stands twice means its first place.
      if (name !== undefined && !byName.has(name)) byName.set(name, pair);
    }
    pairs.set(map, byName);
    return byName;
  };
  const find = (path: readonly (string | number)[], of: 'key' | 'value'): Node | undefined => {
    let node: Node | null | undefined = contents;
    let nearest: Node | undefined;
    for (const [index, step] of path.entries()) {
      if (isMap(node)) {
        const pair = pairsOf(node).get(String(step));
        if (!pair) return nearest;
        nearest = pair.key as Node;
        if (of === 'key' && index === path.length - 1) return nearest;
        node = pair.value as Node | null;
      } else if (isSeq(node)) {
        node = node.items[Number(step)] as Node | undefined;
      } else return nearest;
      if (node?.range) nearest = node;
    }
    return nearest;
  };
  return {
    value: problems.some((problem) => problem.kind === 'syntax') ? undefined : value,
    problems,
    place: (path, of = 'value') => {
      const node = find(path, of);
      return node?.range
        ? place(node.range[0], isScalar(node) ? node.range[1] : undefined)
        : { file, line: Math.max(1, firstLine - 1), column: 1 };
    },
    written: (path) => {
      const node = find(path, 'value');
      return isScalar(node) && typeof node.value === 'number' ? node.source : undefined;
    },
  };
};

const placeLines = (yaml: string, lines: LineCounter): void => {
  lines.addNewLine(0);
  for (let next = yaml.indexOf('\n'); next !== -1; next = yaml.indexOf('\n', next + 1))
    lines.addNewLine(next + 1);
};

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1).replace(/\.$/, '');
