import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Finding, Level } from '../../src/findings/finding.ts';
import { fingerprint } from '../../src/findings/fingerprint.ts';
import { compareFindings, countByLevel, isAtLeast } from '../../src/findings/order.ts';
import { applyWaivers, type Waiver } from '../../src/findings/waivers.ts';

const finding = (more: Partial<Finding> = {}): Finding => ({
  code: 'single-lot',
  level: 'warning',
  place: { file: 'a.md', line: 3, column: 1 },
  message: 'one lot',
  records: ['VR-22'],
  related: [],
  ...more,
});

describe('the order of findings', () => {
  test('is by file, line, column, code and message, and does not depend on where they came from', () => {
    const any = fc.record({
      file: fc.constantFrom('a.md', 'b.md', 'B.md', 'ä.md', 'a/b.md'),
      line: fc.integer({ min: 1, max: 12 }),
      column: fc.integer({ min: 1, max: 3 }),
      code: fc.constantFrom('a', 'b'),
      message: fc.constantFrom('x', 'y'),
    });
    fc.assert(
      fc.property(fc.array(any, { maxLength: 12 }), (list) => {
        const findings = list.map(({ file, line, column, ...rest }) =>
          finding({ place: { file, line, column }, ...rest }),
        );
        const sorted = [...findings].sort(compareFindings);
        expect([...findings].reverse().sort(compareFindings)).toEqual(sorted);
        for (const [index, one] of sorted.entries()) {
          const next = sorted[index + 1];
          if (!next) continue;
          expect(one.place.file <= next.place.file).toBe(true);
          if (one.place.file === next.place.file) expect(one.place.line).toBeLessThanOrEqual(next.place.line);
        }
      }),
      { seed: 20260727, numRuns: 300 },
    );
  });

  test('levels are counted and compared', () => {
    expect(countByLevel([finding(), finding({ level: 'error' }), finding()])).toEqual({
      error: 1,
      warning: 2,
      note: 0,
    });
    const levels: readonly Level[] = ['error', 'warning', 'note'];
    expect(levels.map((level) => isAtLeast(level, 'warning'))).toEqual([true, true, false]);
  });
});

test('a fingerprint lives through edits of the file, and tells findings apart', () => {
  expect(fingerprint(finding({ place: { file: 'b.md', line: 9, column: 9 }, message: 'other words' }))).toBe(
    fingerprint(finding()),
  );
  expect(fingerprint(finding({ code: 'other' }))).not.toBe(fingerprint(finding()));
  expect(fingerprint(finding({ records: ['VR-23'] }))).not.toBe(fingerprint(finding()));
  expect(fingerprint(finding({ data: { lots: 1 } }))).not.toBe(fingerprint(finding()));
});

describe('a waiver', () => {
  const waiver: Waiver = {
    code: 'single-lot',
    record: 'VR-22',
    reason: 'One shipment.',
    role: 'quality lead',
    date: '2026-07-01',
    expires: '2027-07-01',
  };
  const outcome = (asOf: string, more: Partial<Waiver> = {}, list = [finding()]) => {
    const { standing, waived, idle, expired } = applyWaivers(list, [{ ...waiver, ...more }], asOf);
    return [standing.length, waived.length, idle.length, expired.length];
  };

  test.each([
    ['on its first day', '2026-07-01', {}, [0, 1, 0, 0]],
    ['on its last day', '2027-07-01', {}, [0, 1, 0, 0]],
    ['a day too late', '2027-07-02', {}, [1, 0, 0, 1]],
    ['before it was given', '2026-06-30', {}, [1, 0, 0, 0]],
    ['for another record', '2026-07-02', { record: 'VR-23' }, [1, 0, 1, 0]],
    ['for another code', '2026-07-02', { code: 'single-lots' }, [1, 0, 1, 0]],
    ['for a record that is only mentioned', '2026-07-02', { record: 'VP-22' }, [1, 0, 1, 0]],
  ])('%s', (_, asOf, more, expected) => {
    expect(outcome(asOf, more, [finding({ records: ['VR-22', 'VP-22'] })])).toEqual(expected);
  });

  test('holds for every finding of its code and record', () => {
    expect(outcome('2026-07-02', {}, [finding(), finding({ message: 'another' })])).toEqual([0, 2, 0, 0]);
    expect(outcome('2026-07-02', {}, [])).toEqual([0, 0, 1, 0]);
  });
});
