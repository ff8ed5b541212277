import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/findings/finding.ts';
import { compareFindingSets } from '../../src/findings/finding-changes.ts';
import { fingerprint } from '../../src/findings/fingerprint.ts';

const finding: Finding = {
  code: 'limit-untested',
  level: 'error',
  place: { file: 'inputs/DI-01.md', line: 7, column: 3 },
  message: 'the upper limit of DI-01 is not tested',
  records: ['DI-01'],
  related: [],
  data: { characteristic: 'force' },
};
const fresh = (now: readonly Finding[], before: readonly Finding[]): readonly Finding[] => [
  ...compareFindingSets(now, before).fresh,
];
const without = (each: Finding): Finding => {
  const { data: _, ...rest } = each;
  return rest;
};

describe('findings new since an earlier state', () => {
  test('a finding that only moved, or weighs more now, is not new; one more of the same kind is', () => {
    const moved = { ...finding, place: { ...finding.place, line: 99 } };
    expect(fresh([moved], [finding])).toEqual([]);
    expect(fresh([finding], [{ ...finding, level: 'note' }])).toEqual([]);
    expect(fresh([moved, finding], [finding])).toHaveLength(1);
    const other = { ...finding, records: ['DI-02'] };
    expect(fresh([other], [finding])).toEqual([other]);
    expect(compareFindingSets([other], [finding]).gone).toEqual([finding]);
  });

  test('other facts make it new, but not another digest', () => {
    expect(fresh([{ ...finding, data: { characteristic: 'length' } }], [finding])).toHaveLength(1);
    const missing = (digest: string): Finding => ({ ...finding, data: { roles: ['quality lead'], digest } });
    expect(fresh([missing('a')], [missing('b')])).toEqual([]);
  });

  test('of several alike, the one that says something else or stands elsewhere is the new one', () => {
    const elsewhere = { ...finding, place: { file: 'inputs/copy.md', line: 1, column: 1 } };
    expect(fresh([elsewhere, finding], [finding])).toEqual([elsewhere]);
    const reworded = { ...finding, message: 'the lower limit of DI-01 is not tested' };
    expect(fresh([reworded, finding], [finding])).toEqual([reworded]);
  });

  test('without facts, the words tell one fault from another', () => {
    const bare = without(finding);
    const another = { ...bare, message: 'the field "titel" is unknown' };
    expect(fresh([another], [bare])).toEqual([another]);
    expect(fresh([{ ...bare, place: { ...bare.place, line: 8 } }], [bare])).toEqual([]);
  });

  test('without a record, the file tells: mending one file does not pay for breaking another', () => {
    const broken = (file: string): Finding => ({
      ...without(finding),
      records: [],
      place: { file, line: 2, column: 1 },
    });
    expect(fresh([broken('b.md')], [broken('a.md')])).toEqual([broken('b.md')]);
  });

  test('counts by kind: as many are new, and as many are gone, as there are more and fewer than before', () => {
    const any = fc.array(
      fc
        .record({
          code: fc.constantFrom('a-b', 'c-d'),
          id: fc.constantFrom('X-1', 'X-2'),
          file: fc.constantFrom('a.md', 'b.md'),
          line: fc.integer({ min: 1, max: 5 }),
          message: fc.constantFrom('one', 'two'),
        })
        .map(
          ({ code, id, file, line, message }): Finding => ({
            ...finding,
            code,
            message,
            records: [id],
            place: { file, line, column: 1 },
          }),
        ),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(any, any, (now, before) => {
        expect(compareFindingSets(now, now)).toEqual({ fresh: new Set(), gone: [] });
        expect(compareFindingSets(now, [])).toEqual({ fresh: new Set(now), gone: [] });
        const changes = compareFindingSets(now, before);
        // The same answer from the other side.
        expect(changes.gone.length).toBe(compareFindingSets(before, now).fresh.size);
        const count = (all: Iterable<Finding>, kind: string): number =>
          [...all].filter((each) => fingerprint(each) === kind).length;
        for (const kind of new Set([...now, ...before].map(fingerprint))) {
          const more = count(now, kind) - count(before, kind);
          expect(count(changes.fresh, kind)).toBe(Math.max(0, more));
          expect(count(changes.gone, kind)).toBe(Math.max(0, -more));
        }
      }),
      { seed: 9, numRuns: 500 },
    );
  });
});
