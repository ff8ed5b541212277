import { describe, expect, test } from 'vitest';
import { analyse } from '../../src/pipeline.ts';
import type { TechnicalRecord } from '../../src/records/record.ts';
import { inputsFrom, readTree } from '../support/technical-file.ts';
import { daysOfChange, textsBefore } from './earlier-texts.ts';

const tree = new Map(readTree('content'));
const { findings, graph, approvals } = analyse(inputsFrom(tree));

/** Codes that find fault with the order of dates. */
const timeline = [
  'approval-before-event',
  'approval-before-relied-on',
  'approval-date-later',
  'equipment-found-out-of-tolerance',
  'equipment-out-of-calibration',
  'protocol-approved-after-execution',
  'protocol-changed-after-work',
  'retest-before-reason',
  'retest-without-reason',
];

/** Texts that name something to come, as a plan, with what they name. */
const plans = new Set([
  'AN-14 of 2025-12-10 in VP-14',
  'AN-14 of 2025-12-10 in VP-14B',
  'AN-03 of 2025-11-10 in DI-03',
  'AN-04 of 2025-11-10 in DI-04',
  'AN-14 of 2025-12-10 in DI-14',
  'VR-14 of 2025-12-05 in DI-14',
  'AN-21 of 2026-06-01 in DI-21',
  'AN-21A of 2026-06-01 in DI-21',
  'AN-21B of 2026-10-15 in DI-21',
  'AN-21 of 2026-06-01 in ST-06',
  'BR-01 of 2026-11-04 in DI-24',
  'BR-01 of 2026-11-04 in RK-10',
  'BR-01 of 2026-11-04 in VR-24',
  'VR-09B of 2026-10-16 in DC-01',
  'VR-09B of 2026-10-16 in VR-09A',
  '2026-06-01 in DO-08',
  '2029-05-31 in DO-08',
  '2027-01-12 in RV-03',
  '2027-01-12 in DOC-09',
]);

const dayOf = ({ fields }: TechnicalRecord): string | undefined => {
  const { executed, date } = fields as { executed?: { to: string }; date?: string };
  return executed?.to ?? date;
};

/** What the body of a record names that lies after a day. */
const namedAfter = (record: TechnicalRecord, day: string): readonly string[] => {
  const text = new TextDecoder().decode(tree.get(record.file)).replace(/^---\n[\s\S]*?\n---\n/, '');
  const dates = text.match(/\b20\d\d-\d\d-\d\d\b/g) ?? [];
  const ids = text.match(/\b[A-Z]{2}-\d+[A-Z]?\b/g) ?? [];
  const events = ids.flatMap((id) => {
    const other = id === record.id ? undefined : graph.record(id);
    const on = other?.type === 'document' ? undefined : other && dayOf(other);
    return on === undefined ? [] : [{ on, words: `${id} of ${on} in ${record.id}` }];
  });
  return [...events, ...dates.map((on) => ({ on, words: `${on} in ${record.id}` }))]
    .filter(({ on }) => on > day)
    .map(({ words }) => words);
};

describe('the dates of the demonstration file', () => {
  test('give no finding of any level', () => {
    expect(findings.filter(({ code }) => timeline.includes(code)).map(({ message }) => message)).toEqual([]);
  });

  test('no approval covers a text that names what was yet to come, but for plans', () => {
    const named = [...approvals.all.values()].flatMap(({ record, states }) =>
      states
        .filter(({ approval }) => approval.digest === approvals.digests.get(record.id))
        .flatMap(({ approval }) => namedAfter(record, approval.date)),
    );
    expect([...new Set(named)].sort()).toEqual([...plans].sort());
  });

  test('an approval of an earlier day covers the text of that day', () => {
    expect(daysOfChange.length).toBeGreaterThan(2);
    const storedFor = (id: string, date: string): readonly (string | undefined)[] =>
      (approvals.of('RC-05')?.states ?? [])
        .filter(({ approval }) => approval.date === date)
        .map(({ approval }) => approval.relies_on?.[id]);
    const today = approvals.digests;
    // RC-05 was confirmed for revision B of the tip before RK-03 was estimated anew.
    expect(storedFor('DO-04', '2026-06-16')).toEqual([today.get('DO-04')]);
    expect(storedFor('RK-03', '2026-06-16')).not.toContain(today.get('RK-03'));
    expect(storedFor('RK-03', '2026-11-03')).toEqual([today.get('RK-03')]);
    expect([...textsBefore(tree, '2026-06-15').keys()]).toContain('design-outputs/DO-04.md');
    const afterTheChange = [...textsBefore(tree, '2026-06-16').keys()];
    expect(afterTheChange).toEqual(expect.arrayContaining(['analyses/AN-21.md', 'risks/RK-03.md']));
    expect(afterTheChange).not.toContain('design-outputs/DO-04.md');
    expect(textsBefore(tree, '2026-11-03').size).toBe(0);
  });
});
