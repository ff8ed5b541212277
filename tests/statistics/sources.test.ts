import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { calculations } from '../../src/evidence/calculations/index.ts';
import { evidenceMethods } from '../../src/evidence/methods/index.ts';
import { studies } from '../../src/evidence/studies/index.ts';

/**
 * A reviewer reads one file of `src/statistics` alone: beside every exported function stands where its formula was
 * published, or that it has none.
 */
const folder = new URL('../../src/statistics/', import.meta.url);

interface ExportedFunction {
  readonly file: string;
  readonly name: string;
  /** The doc comment right above, without its stars; empty where there is none. */
  readonly comment: string;
}

/** Exported functions of the text of a file, in order. */
function exportedFunctions(file: string, source: string): readonly ExportedFunction[] {
  const lines = source.split('\n');
  return lines.flatMap((line, place) => {
    const name = /^export (?:async )?(?:function\*?|const) ([A-Za-z0-9]{1,80})(?:[(<]| = (?:\(|async ))/.exec(
      line,
    )?.[1];
    if (name === undefined) return [];
    let first = place;
    if (lines[place - 1]?.endsWith('*/')) while (first > 0 && !lines[first]!.startsWith('/**')) first -= 1;
    const comment = lines.slice(first, place).map((each) => each.replace(/^(?:\/\*\*| \*\/| \* ?)/, ''));
    return [{ file, name, comment: comment.join('\n') }];
  });
}

const functions = readdirSync(folder)
  .filter((file) => file.endsWith('.ts'))
  .toSorted()
  .flatMap((file) => exportedFunctions(file, readFileSync(new URL(file, folder), 'utf8')));
const names = new Set(functions.map(({ name }) => name));

/** Works without a year that are known by their designation, and what is said where nothing was published. */
const designations =
  /NIST\/SEMATECH e-Handbook|\bISO(?:\/TS)? \d{4,5}|\bASTM (?:F|MNL )\d|\bAIAG,? Measurement|\bJCGM 10[01]:2008|\bUSP <\d+>|from memory|no source|no published source|no formula|derived here|\bdefinition\b/;
const year = /\b(?:18|19|20)\d\d\b/;

/** What is wrong with the source of a function; undefined where it names one. */
function sourceProblem({ comment }: ExportedFunction): string | undefined {
  const source = /(?:^|\n)Source: ([\s\S]{1,2000})$/.exec(comment)?.[1];
  if (source === undefined) return 'no last paragraph "Source: ..."';
  const named = [...source.matchAll(/`([A-Za-z0-9]{1,80})`/g)].map((match) => match[1]!);
  const unknown = named.filter((name) => !names.has(name));
  if (unknown.length > 0) return `points to ${unknown.join(', ')}, which is no exported function here`;
  return named.length > 0 || designations.test(source) || year.test(source)
    ? undefined
    : `names no work, standard or function: ${source}`;
}

test('the functions of the folder are found', () => {
  expect(functions.length).toBeGreaterThan(190);
  expect(names).toContain('successRunSampleSize');
});

test('every exported function of src/statistics names its source', () => {
  expect(
    functions.flatMap((each) => {
      const problem = sourceProblem(each);
      return problem === undefined ? [] : [`${each.file} ${each.name}: ${problem}`];
    }),
  ).toEqual([]);
});

test('what points to another function ends at a published source', () => {
  const byName = new Map(functions.map((each) => [each.name, each]));
  const endsAtSource = (name: string, seen: readonly string[]): boolean => {
    const source = /Source: ([\s\S]*)$/.exec(byName.get(name)!.comment)![1]!;
    if (designations.test(source) || year.test(source)) return true;
    return [...source.matchAll(/`([A-Za-z0-9]{1,80})`/g)].some(
      ([, next]) => !seen.includes(next!) && endsAtSource(next!, [...seen, next!]),
    );
  };
  expect([...names].filter((name) => !endsAtSource(name, [name]))).toEqual([]);
});

test.each([...evidenceMethods, ...calculations, ...studies].map(({ name, basis }) => [name, basis]))(
  'the report of %s names a published source, or says that there is none',
  (_, basis) => {
    expect(basis).toMatch(new RegExp(`${designations.source}|${year.source}`));
  },
);

describe('the test itself', () => {
  const problemOf = (source: string) => sourceProblem(exportedFunctions('x.ts', source)[0]!);

  test.each([
    ['export function f(x: number): number {', 'no last paragraph'],
    ['/** Doubles. */\nexport function f(x: number): number {', 'no last paragraph'],
    [
      '/**\n * Doubles.\n *\n * Source: a book.\n */\nexport function f(x: number): number {',
      'names no work',
    ],
    [
      '/**\n * Doubles.\n *\n * Source: as `nowhere`.\n */\nexport const f = (x: number) => 2 * x;',
      'nowhere',
    ],
  ])('%s', (source, problem) => expect(problemOf(source)).toContain(problem));

  test('a comment with a source, over several lines', () => {
    const comment = '/**\n * The mean.\n *\n * Source: Student, Biometrika 6\n * (1908).\n */';
    expect(problemOf(`${comment}\nexport function f<T>(x: T): T {`)).toBeUndefined();
  });
});
