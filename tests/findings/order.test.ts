import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Finding, Level } from '../../src/findings/finding.ts';
import { fingerprint } from '../../src/findings/fingerprint.ts';
import { compareFindings, countByLevel, isAtLeast } from '../../src/findings/order.ts';

const levels: readonly Level[] = ['error', 'warning', 'note'];

const finding: Finding = {
  code: 'single-lot',
  level: 'warning',
  place: { file: 'a.md', line: 2, column: 3 },
  message: 'one lot',
  records: ['VR-1'],
  related: [],
};

const anyFinding: fc.Arbitrary<Finding> = fc
  .record({
    file: fc.constantFrom('a.md', 'a/b.md', 'B.md', 'ä.md', 'plinth.yaml'),
    line: fc.integer({ min: 1, max: 3 }),
    column: fc.integer({ min: 1, max: 3 }),
    code: fc.constantFrom('one', 'two'),
    message: fc.constantFrom('x', 'y'),
    level: fc.constantFrom(...levels),
  })
  .map(({ file, line, column, ...rest }) => ({
    ...rest,
    place: { file, line, column },
    records: [],
    related: [],
  }));

const key = ({ place, code, message }: Finding): readonly unknown[] => [
  place.file,
  place.line,
  place.column,
  code,
  message,
];

describe('the order of findings', () => {
  test('is total, and does not depend on the order in which they arose', () => {
    fc.assert(
      fc.property(fc.array(anyFinding, { maxLength: 8 }), anyFinding, anyFinding, (list, a, b) => {
        expect(Math.sign(compareFindings(a, b))).toBe(0 - Math.sign(compareFindings(b, a)));
        expect(compareFindings(a, b) === 0).toBe(JSON.stringify(key(a)) === JSON.stringify(key(b)));
        const there = [...list].sort(compareFindings).map(key);
        const back = [...list].reverse().sort(compareFindings).map(key);
        expect(back).toEqual(there);
      }),
      { seed: 20260727, numRuns: 1_000 },
    );
  });

  test('is by number of the line, and by code unit of the path', () => {
    const at = (file: string, line: number): Finding => ({ ...finding, place: { file, line, column: 1 } });
    const sorted = [at('ä.md', 1), at('a.md', 10), at('B.md', 1), at('a.md', 9)].sort(compareFindings);
    expect(sorted.map(({ place }) => `${place.file}:${place.line}`)).toEqual([
      'B.md:1',
      'a.md:9',
      'a.md:10',
      'ä.md:1',
    ]);
  });
});

describe('levels', () => {
  // The order of gravity: SARIF 2.1.0, 3.27.10.
  test.each([
    ['error', 'error', true],
    ['error', 'note', true],
    ['warning', 'error', false],
    ['warning', 'warning', true],
    ['note', 'warning', false],
    ['note', 'note', true],
  ] as const)('%s is at least as grave as %s: %s', (level, threshold, expected) => {
    expect(isAtLeast(level, threshold)).toBe(expected);
  });

  test('are counted, also those that do not occur', () => {
    expect(countByLevel([])).toEqual({ error: 0, warning: 0, note: 0 });
    expect(countByLevel([finding, { ...finding, level: 'note' }, finding])).toEqual({
      error: 0,
      warning: 2,
      note: 1,
    });
  });
});

describe('the fingerprint of a finding', () => {
  test('stays when lines move or words are polished', () => {
    const moved = { ...finding, place: { file: 'other.md', line: 90, column: 1 }, message: 'a single lot' };
    expect(fingerprint(moved)).toBe(fingerprint(finding));
  });

  test.each<[string, Partial<Finding>]>([
    ['code', { code: 'limit-untested' }],
    ['record', { records: ['VR-2'] }],
    ['records', { records: ['VR-1', 'DI-1'] }],
    ['data', { data: { index: 1 } }],
  ])('tells two findings apart by %s', (_, other) => {
    expect(fingerprint({ ...finding, ...other })).not.toBe(fingerprint(finding));
  });

  test('cannot be led astray by what stands in the ids', () => {
    const one = fingerprint({ ...finding, records: ['A","B'] });
    expect(one).not.toBe(fingerprint({ ...finding, records: ['A', 'B'] }));
  });
});
