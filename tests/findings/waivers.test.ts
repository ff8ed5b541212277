import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings/finding.ts';
import { applyWaivers, type Waiver } from '../../src/findings/waivers.ts';

const finding = (code: string, ...records: readonly string[]): Finding => ({
  code,
  level: 'warning',
  place: { file: 'a.md', line: 2, column: 3 },
  message: 'one lot',
  records,
  related: [],
});

const waiver: Waiver = {
  code: 'single-lot',
  record: 'VR-1',
  reason: 'One shipment.',
  role: 'quality lead',
  date: '2026-01-10',
  expires: '2026-06-30',
};

const outcome = (findings: readonly Finding[], waivers: readonly Waiver[], asOf = '2026-03-01') => {
  const { standing, waived, idle, expired } = applyWaivers(findings, waivers, asOf);
  return [standing.length, waived.length, idle.length, expired.length];
};

describe('a waiver', () => {
  const met = [finding('single-lot', 'VR-1', 'VP-1')];

  test.each([
    ['2026-01-09', [1, 0, 0, 0]],
    ['2026-01-10', [0, 1, 0, 0]],
    ['2026-06-30', [0, 1, 0, 0]],
    ['2026-07-01', [1, 0, 0, 1]],
  ])('holds from its first day to its last: on %s', (asOf, expected) => {
    expect(outcome(met, [waiver], asOf)).toEqual(expected);
  });

  test('is for one code and for the record that the finding is mainly about', () => {
    expect(outcome([finding('single-lot', 'VP-1', 'VR-1')], [waiver])).toEqual([1, 0, 1, 0]);
    expect(outcome([finding('limit-untested', 'VR-1')], [waiver])).toEqual([1, 0, 1, 0]);
    expect(outcome([finding('single-lot')], [waiver])).toEqual([1, 0, 1, 0]);
  });

  test('takes every finding of its code and record, and names itself beside each', () => {
    const { waived } = applyWaivers([...met, ...met], [waiver], '2026-03-01');
    expect(waived.map((each) => each.waiver.reason)).toEqual(['One shipment.', 'One shipment.']);
  });

  test('that is renewed serves in place of the expired one', () => {
    const renewed = { ...waiver, date: '2026-07-01', expires: '2026-12-31' };
    expect(outcome(met, [waiver, renewed], '2026-08-01')).toEqual([0, 1, 0, 1]);
  });

  test('never makes a finding disappear: each one stands or is waived', () => {
    const code = fc.constantFrom('a', 'b');
    const record = fc.constantFrom('1', '2', '3');
    const day = fc.constantFrom('2026-01-01', '2026-02-01', '2026-03-01');
    const list = fc.array(fc.tuple(code, record).map(([first, second]) => finding(first, second)));
    const waivers = fc.array(
      fc.record({
        code,
        record,
        date: day,
        expires: day,
        reason: fc.constant('r'),
        role: fc.constant('q'),
      }),
      { maxLength: 5 },
    );
    fc.assert(
      fc.property(list, waivers, day, (findings, given, asOf) => {
        const { standing, waived, idle, expired } = applyWaivers(findings, given, asOf);
        expect([...standing, ...waived.map((each) => each.finding)]).toHaveLength(findings.length);
        for (const each of [...standing, ...waived.map((one) => one.finding)])
          expect(findings).toContain(each);
        for (const { waiver: used } of waived) {
          expect(idle).not.toContain(used);
          expect(expired).not.toContain(used);
          expect(used.date <= asOf && asOf <= used.expires).toBe(true);
        }
        for (const each of expired) expect(each.expires < asOf).toBe(true);
      }),
      { seed: 20260727, numRuns: 500 },
    );
  });
});
