import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compareValues } from '../../src/change/compare-values.ts';
import { compareWords } from '../../src/change/compare-words.ts';
import { parseYaml } from '../../src/records/front-matter.ts';
import { processorMilliseconds } from '../support/processor-time.ts';

const values = (before: string, after: string): readonly string[] => {
  const side = (text: string) => {
    const yaml = parseYaml('x.yaml', text, 1);
    return { value: yaml.value, written: (path: readonly (string | number)[]) => yaml.written(path) };
  };
  return compareValues(side(before), side(after)).map(
    ({ label, kind, before: old, after: now, demand }) =>
      `${kind} ${label}: ${old ?? '-'} | ${now ?? '-'}${demand ? ` ${demand}` : ''}`,
  );
};

describe('values that differ', () => {
  test('a limit, with its unit, as written, and what it demands', () => {
    const limit = (lower: string) => `limits:\n  - { characteristic: pull, unit: N, lower: ${lower} }\n`;
    expect(values(limit('30'), limit('28.0'))).toEqual(['changed limits[pull].lower: 30 N | 28.0 N looser']);
    expect(values(limit('30'), limit('31'))).toEqual(['changed limits[pull].lower: 30 N | 31 N tighter']);
    expect(values('a: { upper: 5, unit: mm }', 'a: { upper: 4, unit: mm }')).toEqual([
      'changed a.upper: 5 mm | 4 mm tighter',
    ]);
    expect(values('a: { plus: 0.1, unit: mm }', 'a: { plus: 0.2, unit: mm }')).toEqual([
      'changed a.plus: 0.1 mm | 0.2 mm looser',
    ]);
  });

  test('items of a list are paired by what names them, wherever they stand', () => {
    expect(
      values(
        'limits:\n  - { characteristic: a, lower: 1 }\n  - { characteristic: b, lower: 2 }\n',
        'limits:\n  - { characteristic: c, lower: 9 }\n  - { characteristic: b, lower: 2 }\n  - { characteristic: a, lower: 3 }\n',
      ),
    ).toEqual(['added limits[c]: - | characteristic: c; lower: 9', 'changed limits[a].lower: 1 | 3 tighter']);
  });

  test('plain lists lose and gain items', () => {
    expect(values('verifies: [DI-01, DI-02]', 'verifies: [DI-02, DI-03]')).toEqual([
      'added verifies: - | DI-03',
      'removed verifies: DI-01 | -',
    ]);
  });

  test('the same number written otherwise is no difference', () => {
    expect(values('a: 0.90', 'a: 0.9')).toEqual([]);
  });

  const anyValue = fc.letrec((tie) => ({
    value: fc.oneof(
      { maxDepth: 3 },
      fc.integer({ min: -9, max: 9 }),
      fc.constantFrom('a', 'b', 'c', true, false),
      fc.array(tie('value'), { maxLength: 4 }),
      fc.dictionary(fc.constantFrom('id', 'name', 'lower', 'x'), tie('value'), { maxKeys: 4 }),
    ),
  })).value;
  const written = () => undefined;

  test('nothing differs from itself, and whatever differs is told', () => {
    fc.assert(
      fc.property(anyValue, anyValue, (a, b) => {
        expect(compareValues({ value: a, written }, { value: a, written })).toEqual([]);
        const changes = compareValues({ value: a, written }, { value: b, written });
        // Order within lists of named or plain items is not told, so equal texts after sorting count as equal.
        if (JSON.stringify(sorted(a)) !== JSON.stringify(sorted(b)))
          expect(changes.length).toBeGreaterThan(0);
      }),
      { seed: 4, numRuns: 2_000 },
    );
  });
});

const sorted = (value: unknown): unknown =>
  Array.isArray(value)
    ? value.map((each) => JSON.stringify(sorted(each))).sort()
    : typeof value === 'object' && value !== null
      ? Object.entries(value)
          .map(([key, inner]) => [key, sorted(inner)])
          .sort(([a], [b]) => (String(a) < String(b) ? -1 : 1))
      : value;

const words = (before: string, after: string): readonly string[] =>
  compareWords(before, after).map(
    ({ line, runs }) =>
      `${line}: ${runs.map(({ kind, text }) => (kind === 'same' ? text : kind === 'added' ? `{+${text}+}` : `{-${text}-}`)).join('')}`,
  );

describe('words that differ', () => {
  test('within a line', () => {
    expect(words('# A\n\nat least 30 N here\n', '# A\n\nat least 28 N here\n')).toEqual([
      '3: at least {-30-}{+28+} N here',
    ]);
  });

  test('lines put in, taken out and replaced, each at its line of the later text', () => {
    expect(words('a\nb\nc\n', 'a\nc\n')).toEqual(['2: {-b-}']);
    expect(words('a\nc\n', 'a\n\nb\nc\n')).toEqual(['3: {+b+}']);
    expect(words('', 'a\n')).toEqual(['1: {+a+}']);
    expect(words('a\n', '')).toEqual(['1: {-a-}']);
  });

  test('blanks at line ends and blank lines count for nothing', () => {
    expect(words('a\n\nb  \n', '\na\nb\n\n')).toEqual([]);
  });

  test('both texts can be put together again from what is told, whatever they are', () => {
    const text = fc
      .array(fc.constantFrom('a', 'b c', 'c b a', 'd d d', ''), { maxLength: 8 })
      .map((lines) => lines.join('\n'));
    const solid = (value: string): string[] => value.split('\n').filter((line) => line.trim() !== '');
    fc.assert(
      fc.property(text, text, (before, after) => {
        const changes = compareWords(before, after);
        const side = (kind: 'added' | 'removed'): string[] =>
          changes
            .map(({ runs }) =>
              runs
                .filter((run) => run.kind === kind || run.kind === 'same')
                .map((run) => run.text)
                .join(''),
            )
            .filter((line) => line !== '');
        // What is only in one text, as multisets: lines that stayed are in both.
        const rest = (all: string[], told: string[]): string[] => {
          const left = [...all];
          for (const line of told) left.splice(left.indexOf(line), left.includes(line) ? 1 : 0);
          return left.sort();
        };
        expect(rest(solid(before), side('removed'))).toEqual(rest(solid(after), side('added')));
      }),
      { seed: 5, numRuns: 2_000 },
    );
  });

  test('a paragraph with nothing in common is replaced as a whole, in good time', () => {
    const long = (seed: string) => Array.from({ length: 4_000 }, (_, index) => `${seed}${index}`).join(' ');
    const start = processorMilliseconds();
    const [change] = compareWords(long('a'), long('b'));
    expect(change?.runs.map((run) => run.kind)).toEqual(['removed', 'added']);
    expect(processorMilliseconds() - start).toBeLessThan(5_000);
  });
});
