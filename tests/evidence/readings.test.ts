import { describe, expect, test } from 'vitest';
import { resolveDataPath } from '../../src/evidence/evaluate.ts';
import { recordOf } from '../graph/small-graphs.ts';
import { csvOf, evaluated, type TestRun, valueOf } from './test-run.ts';

const base: TestRun = {
  acceptance: '{ characteristic: force, unit: N, lower: 30 }',
  sampling: 'kind: all-units',
  csv: csvOf([31, 32]),
};

const run = (more: Partial<TestRun>) => evaluated({ ...base, ...more });

/** The findings of a run that must not pass. */
const faults = (more: Partial<TestRun>): readonly string[] => {
  const result = run(more);
  expect(result.verdict, 'never a pass where data are missing').not.toBe('pass');
  for (const finding of result.findings) expect(finding.hint).toBeTruthy();
  return result.findings.map(
    ({ place, code, message, hint }) =>
      `${place.file}:${place.line}:${place.column} ${code}: ${message} | ${hint}`,
  );
};

describe('units of readings', () => {
  test.each([
    ['the heading', csvOf([0.031, 0.032], 'force [kN]'), '{ characteristic: force, column: force }'],
    ['the record', csvOf([0.031, 0.032], 'force'), '{ characteristic: force, column: force, unit: kN }'],
    ['both', csvOf([0.031, 0.032], 'force [kN]'), '{ characteristic: force, column: force, unit: kN }'],
    ['a characteristic in other letters', csvOf([31, 32]), '{ characteristic: " Force", column: force }'],
  ])('come from %s, and are converted', (_, csv, columns) => {
    const result = run({ csv, columns });
    expect(result.findings).toEqual([]);
    expect(result.verdict).toBe('pass');
    expect(valueOf(result, 'minimum')).toBeCloseTo(31, 12);
  });

  test('keep their digits when the unit grows', () => {
    const result = run({
      acceptance: '{ characteristic: force, unit: mm, upper: 0.06 }',
      csv: csvOf([52, 50], 'force [µm]'),
    });
    expect(result.reason).toBe('all 2 meet "at most 0.06 mm", from 0.050 to 0.052 mm');
  });

  test('that are missing, wrong, at odds or unknown leave no verdict', () => {
    expect(faults({ csv: csvOf([31, 32], 'force') })[0]).toMatch(
      /data-unit-missing: the column "force" has no unit \| Write the heading as "force \[N\]"/,
    );
    expect(faults({ csv: csvOf([31, 32], 'force [mm]') })[0]).toContain(
      'data-unit-not-convertible: mm cannot be converted to N',
    );
    expect(faults({ csv: csvOf([31, 32], 'force [Newtonn]') })[0]).toContain('unknown unit "Newtonn"');
    expect(
      faults({
        csv: csvOf([31, 32], 'force [N]'),
        columns: '{ characteristic: force, column: force, unit: kN }',
      })[0],
    ).toContain('data-unit-contradicting: VR-01 says kN, the heading of the column "force" says N');
  });
});

describe('cells', () => {
  test.each([
    ['', '3:4 data-cell-blank: row 3, column "force": no reading for row 3'],
    ['1,234', 'the row has 3 values'],
    [
      '"1,234"',
      'data-cell-wrong: row 3, column "force": "1,234" holds a comma, but the decimal sign is a point',
    ],
    ['NaN', '"NaN" is not a number'],
    ['=1+1', '"=1+1" is not a number'],
    ['1e999', '"1e999" is not a finite number'],
  ])('%j is a finding with its row', (cell, words) => {
    expect(faults({ csv: `unit,force [N]\nU1,31\nU2,${cell}\n` })[0]).toContain(words);
  });

  test('with a decimal comma need to be declared', () => {
    const csv = 'unit;force [N]\nU1;31,5\nU2;32,0\n';
    expect(faults({ csv })).toHaveLength(2);
    expect(run({ csv, data: "decimal: ','" })).toMatchObject({ verdict: 'pass', findings: [] });
    expect(faults({ csv: 'unit;force [N]\nU1;31.5\n', data: "decimal: ','" })[0]).toContain(
      'holds a point, but the decimal sign is a comma',
    );
  });

  test('below a quoted line break are found on the right row', () => {
    expect(faults({ csv: 'note,force [N]\n"a\nb\nc",31\nd,x\n' })[0]).toContain(
      'records/data/VR-01.csv:5:3 data-cell-wrong: row 5',
    );
  });
});

describe('columns and units', () => {
  test('that are not there bring the nearest name', () => {
    expect(faults({ columns: '{ characteristic: force, column: froce }' })[0]).toContain(
      'data-column-missing: records/data/VR-01.csv has no column "froce" | Did you mean "force"?',
    );
    expect(faults({ columns: '{ characteristic: travel, column: force }' })[0]).toContain(
      'VR-01 names no column for "force"',
    );
    expect(faults({ data: 'unit_id: untis' })[0]).toContain('has no column "untis"');
  });

  test('without a name are no units of their own', () => {
    const csv = 'unit,force [N]\nU1,31\n,32\n,33\n';
    const list = faults({ csv, data: 'unit_id: unit' });
    expect(list).toHaveLength(2);
    expect(list[0]).toContain(
      'records/data/VR-01.csv:3:1 data-cell-blank: row 3, column "unit": the unit has no name',
    );
  });

  test('that are excluded must be there', () => {
    expect(
      faults({ data: 'unit_id: unit', record: 'exclusions: [{ unit: U9, reason: Slipped. }]' })[0],
    ).toContain(
      'exclusion-unknown-unit: VR-01 excludes the unit U9, which records/data/VR-01.csv does not hold',
    );
    const all = run({
      data: 'unit_id: unit',
      record: 'exclusions: [{ unit: U1, reason: a }, { unit: U2, reason: b }]',
    });
    expect(all).toMatchObject({ verdict: 'undecided', unitCount: 0 });
  });
});

describe('the raw-data file', () => {
  test.each([
    ['missing', 'data/none.csv', 'the raw-data file records/data/none.csv is missing'],
    ['above the root', '../../etc/passwd', 'leads out of the technical file'],
    ['far above the root', '../../../../../../etc/passwd', 'leads out of the technical file'],
    ['absolute', '/etc/passwd', 'leads out of the technical file'],
    ['on a drive', 'C:/data.csv', 'leads out of the technical file'],
    ['with backslashes', "'..\\..\\data.csv'", 'leads out of the technical file'],
    ['an address', 'https://example.org/x.csv', 'is missing'],
    ['the folder itself', '.', 'is missing'],
    ['the project file', '../plinth.yaml', ''],
  ])('%s is a finding', (_, file, words) => {
    const list = faults({ file });
    expect(list).toHaveLength(1);
    expect(list[0]).toContain(words);
  });

  test('may be reached by any way inside', () => {
    expect(run({ file: './data/../data/VR-01.csv' }).verdict).toBe('pass');
    expect(run({ file: '../records//data/VR-01.csv' }).verdict).toBe('pass');
    expect(resolveDataPath(recordOf({ id: 'A-1', type: 'n' }), 'a/../../b.csv')).toBeUndefined();
    expect(resolveDataPath(recordOf({ id: 'A-1', type: 'n' }), 'a\0.csv')).toBeUndefined();
  });

  test.each([
    ['empty', '', 'data-unreadable: the file is empty'],
    ['only a heading', 'unit,force [N]\n', ''],
    ['ragged', 'unit,force [N]\nU1,31\nU2\n', 'records/data/VR-01.csv:3:1 data-malformed'],
    ['not UTF-8', Uint8Array.from([0x61, 0xb5]), 'records/data/VR-01.csv:1:2 data-unreadable: byte 0xb5'],
  ])('%s leaves no verdict', (_, csv, words) => {
    const list = faults({ csv });
    if (words) expect(list[0]).toContain(words);
  });
});
