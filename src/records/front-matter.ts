import {
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  parseDocument,
  type Document as YamlDocument,
} from 'yaml';
import type { Place } from '../findings/finding.ts';
import { placeAt } from './text-position.ts';

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

/** Keys that would reach the prototype of an object. */
const hostileKeys = new Set(['__proto__', 'constructor', 'prototype']);

const toPlain = (node: Node | null | undefined, depth = 0): unknown => {
  if (depth > 40) return undefined;
  if (isMap(node)) {
    const result: Record<string, unknown> = {};
    for (const pair of node.items) {
      const key = isScalar(pair.key) ? String(pair.key.value) : undefined;
      if (key === undefined || hostileKeys.has(key)) continue;
      result[key] = toPlain(pair.value as Node | null, depth + 1);
    }
    return result;
  }
  if (isSeq(node)) return node.items.map((item) => toPlain(item as Node, depth + 1));
  if (isScalar(node)) return node.value instanceof Date ? String(node.source) : node.value;
  return undefined;
};

/**
 * Reads YAML 1.2 (core schema). Dates stay text. Aliases are refused: a record has no use for them and they
 * can be made to grow without bound.
 */
export const parseYaml = (file: string, yaml: string, firstLine: number): ParsedYaml => {
  const lines = new LineCounter();
  const document: YamlDocument = parseDocument(yaml, {
    lineCounter: lines,
    prettyErrors: false,
    uniqueKeys: true,
    version: '1.2',
  });
  const place = (offset: number, end?: number): Place =>
    placeAt(file, yaml, offset, firstLine, end === undefined ? 0 : end - offset);
  const problems: YamlProblem[] = document.errors.map((error) => ({
    place: place(error.pos[0]),
    kind: error.code === 'DUPLICATE_KEY' ? 'duplicate-key' : 'syntax',
    message: lowerFirst(error.message.split('\n')[0] ?? ''),
  }));
  const refuse = (pattern: RegExp, message: string): void => {
    if (!pattern.test(yaml) || problems.length > 0) return;
    visitNodes(document.contents as Node | null, (node, key) => {
      if (key !== undefined && hostileKeys.has(key))
        problems.push({
          place: place(node.range?.[0] ?? 0),
          kind: 'syntax',
          message: `the key ${key} is not allowed`,
        });
      if (isAlias(node))
        problems.push({
          place: place(node.range?.[0] ?? 0),
          kind: 'syntax',
          message,
        });
    });
  };
  refuse(/[*]|__proto__|constructor|prototype/, 'aliases (*name) are not allowed in records');
  const find = (path: readonly (string | number)[], of: 'key' | 'value'): Node | undefined => {
    let node = document.contents as Node | null | undefined;
    let nearest: Node | undefined;
    for (const [index, step] of path.entries()) {
      if (isMap(node)) {
        const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(step));
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
    value: problems.some((problem) => problem.kind === 'syntax')
      ? undefined
      : toPlain(document.contents as Node | null),
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

const visitNodes = (node: Node | null | undefined, visit: (node: Node, key?: string) => void): void => {
  if (!node) return;
  visit(node);
  if (isMap(node)) {
    for (const pair of node.items) {
      if (isScalar(pair.key)) visit(pair.key, String(pair.key.value));
      visitNodes(pair.value as Node | null, visit);
    }
  } else if (isSeq(node)) for (const item of node.items) visitNodes(item as Node, visit);
};

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1).replace(/\.$/, '');
