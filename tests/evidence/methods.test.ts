import { describe, expect, test } from 'vitest';
import { processorMilliseconds } from '../support/processor-time.ts';
import { csvOf, evaluated, normalReadings, valueOf } from './test-run.ts';

const atLeast = '{ characteristic: force, unit: N, lower: 30 }';
const atMost = '{ characteristic: force, unit: N, upper: 25 }';
const between = '{ characteristic: force, unit: N, lower: 17, upper: 23 }';
const words = '{ characteristic: force, criterion: no unit fails }';
const variables = (confidence: number, reliability: number, more = ''): string =>
  `kind: normal-tolerance-interval, confidence: ${confidence}, reliability: ${reliability}${more}`;

describe('normal tolerance interval', () => {
  // k factors: Montgomery and Runger, Applied Statistics and Probability for Engineers, 7th ed., Table XII, n = 30.
  test.each([
    [0.95, 0.9, 1.777],
    [0.95, 0.95, 2.22],
    [0.95, 0.99, 3.064],
    [0.99, 0.95, 2.515],
    [0.99, 0.99, 3.447],
    [0.9, 0.99, 2.884],
  ])('one limit, confidence %s, reliability %s: k is %s', (confidence, reliability, k) => {
    const csv = csvOf(normalReadings(30, 50, 2));
    const lower = evaluated({ acceptance: atLeast, sampling: variables(confidence, reliability), csv });
    expect(Math.abs((valueOf(lower, 'lower_bound') ?? 0) - (50 - 2 * k))).toBeLessThan(0.0022);
    expect(valueOf(lower, 'upper_bound')).toBeUndefined();
    expect(lower.verdict).toBe('pass');
    const upper = evaluated({
      acceptance: '{ characteristic: force, unit: N, upper: 60 }',
      sampling: variables(confidence, reliability),
      csv,
    });
    expect(Math.abs((valueOf(upper, 'upper_bound') ?? 0) - (50 + 2 * k))).toBeLessThan(0.0022);
    expect(valueOf(upper, 'lower_bound')).toBeUndefined();
  });

  test('two limits: the exact two-sided interval', () => {
    // R package EnvStats, documentation of tolIntNorm: n = 20, mean 9.86116, s 1.180226, 95/95 exact: upper end 13.118993.
    const result = evaluated({
      acceptance: '{ characteristic: force, unit: N, lower: 0, upper: 13.12 }',
      sampling: variables(0.95, 0.95),
      csv: csvOf(normalReadings(20, 9.86116, 1.180226)),
    });
    expect(Math.abs((valueOf(result, 'upper_bound') ?? 0) - 13.118993)).toBeLessThan(5e-6);
    expect(result.verdict).toBe('pass');
    // The one-sided bound of the same data is nearer (k 2.396 against 2.760): it must not be used for two limits.
    const strict = evaluated({
      acceptance: '{ characteristic: force, unit: N, lower: 0, upper: 13.0 }',
      sampling: variables(0.95, 0.95),
      csv: csvOf(normalReadings(20, 9.86116, 1.180226)),
    });
    expect(strict.verdict).toBe('fail');
  });

  test('fails though every reading keeps the limit', () => {
    // The planned figures of the demonstration file: n 30, mean 47.2, s 5.9, 95/99 lower bound 29.12.
    const readings = normalReadings(30, 47.2, 5.9);
    const result = evaluated({ acceptance: atLeast, sampling: variables(0.95, 0.99), csv: csvOf(readings) });
    expect(Math.min(...readings)).toBeGreaterThan(30);
    expect(valueOf(result, 'lower_bound')).toBeCloseTo(29.12, 2);
    expect(result.verdict).toBe('fail');
    expect(result.reason).toMatch(/95\/99 lower tolerance bound 29\.12\d* N, required at least 30 N/);
  });

  test('fails where one of two limits is missed', () => {
    const result = evaluated({
      acceptance: between,
      sampling: variables(0.95, 0.95),
      csv: csvOf(normalReadings(30, 18, 0.6)),
    });
    expect(result.verdict).toBe('fail');
    const sound = evaluated({
      acceptance: between,
      sampling: variables(0.95, 0.95),
      csv: csvOf(normalReadings(30, 20.05, 0.62)),
    });
    expect(sound.verdict).toBe('pass');
  });

  test.each<[string, readonly (number | string)[], string]>([
    [
      'readings that are not normal',
      Array.from({ length: 30 }, (_, index) => 40 + 0.01 * 2 ** (index / 2)),
      'do not look normal',
    ],
    [
      'two groups',
      [
        ...Array(15)
          .fill(40)
          .map((v, i) => v + i / 100),
        ...Array(15)
          .fill(60)
          .map((v, i) => v + i / 100),
      ],
      'do not look normal',
    ],
    ['constant readings', Array(30).fill(50), ''],
    ['one unit', [50], ''],
    ['two units', [50, 51], 'cannot be tested'],
    ['no unit', [], ''],
    ['a reading at the end of the range', [...normalReadings(29, 50, 2), '>60'], 'beyond the range'],
    ['words', Array(30).fill('pass'), 'words, not numbers'],
    ['not applicable', [...normalReadings(29, 50, 2), 'n/a'], 'words, not numbers'],
  ])('does not decide on %s', (_, readings, words) => {
    const result = evaluated({ acceptance: atLeast, sampling: variables(0.95, 0.95), csv: csvOf(readings) });
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain(words);
    expect(result.reason).not.toBe('');
    expect(result.characteristics[0]?.remedy).toBeTruthy();
  });

  test('makes one value of several readings of a unit, as the protocol says', () => {
    const csv = `unit,force [N]\n${normalReadings(30, 20, 0.5)
      .map((value, index) => `U${index},${value}\nU${index},${value - 1}\nU${index},${value + 1}\n`)
      .join('')}`;
    const run = (more: string) =>
      evaluated({
        acceptance: `{ characteristic: force, unit: N, upper: 25${more} }`,
        sampling: variables(0.95, 0.95),
        csv,
        data: 'unit_id: unit',
      });
    expect(valueOf(run(', per_unit: maximum'), 'mean')).toBeCloseTo(21, 9);
    expect(valueOf(run(', per_unit: minimum'), 'mean')).toBeCloseTo(19, 9);
    expect(valueOf(run(', per_unit: mean'), 'mean')).toBeCloseTo(20, 9);
    expect(valueOf(run(', per_unit: mean'), 'n')).toBe(30);
    expect(run('')).toMatchObject({ verdict: 'undecided', reason: 'some units have several readings' });
  });

  test('names what lies far from the others, and leaves it in', () => {
    // Grubbs' critical value for 8 units at 0.05, two-sided: 2.126 (Grubbs and Beck, Technometrics 14, 1972; ASTM E178).
    const far = evaluated({
      acceptance: atLeast,
      sampling: variables(0.95, 0.95),
      csv: csvOf([50.1, 49.9, 50.2, '50.0', 49.8, 50.1, 49.9, '53.0']),
    }).characteristics[0];
    const row = far?.assumptions.find((each) => each.name === 'no outlier');
    expect(row?.outcome).toBe('to explain');
    expect(row?.detail).toMatch(/53\.0: Grubbs G 2\.\d+, above 2\.12[67]; no reading is removed by itself$/);
    expect(far?.readings).toHaveLength(8);
  });

  test('names the means of lots', () => {
    const values = normalReadings(30, 20, 0.5);
    const csv = `unit,lot,force [N]\n${values.map((value, index) => `U${index},L00${(index % 3) + 1},${value.toFixed(2)}\n`).join('')}`;
    const result = evaluated({
      acceptance: atMost,
      sampling: variables(0.95, 0.95),
      csv,
      data: 'unit_id: unit\n  lot: lot',
    });
    expect(result.lots).toEqual(['L001', 'L002', 'L003']);
    expect(result.characteristics[0]?.assumptions[1]?.detail).toMatch(
      /^means by lot: L001 \d+\.\d\d \(n 10\), L002/,
    );
  });
});

describe('attribute plan and success run', () => {
  const readings = (pass: number, fail: number, other: readonly string[] = []): string =>
    csvOf([...Array(pass).fill('pass'), ...Array(fail).fill('fail'), ...other], 'force');
  const attribute = 'kind: attribute, confidence: 0.95, reliability: 0.95, accept:';

  // 59 and 93 units for 95/95 with no and one failure: standard binomial sample-size tables.
  test.each([
    [59, 0, 0, 'pass', ''],
    [58, 0, 0, 'undecided', 'needs 59 units'],
    [58, 1, 0, 'fail', '1 of 59 units failed, 0 allowed'],
    [92, 1, 1, 'pass', ''],
    [91, 1, 1, 'undecided', 'needs 93 units'],
    [98, 2, 1, 'fail', '2 of 100 units failed, 1 allowed'],
    [300, 2, 1, 'fail', '2 of 302 units failed, 1 allowed'],
  ])('%s passing, %s failing, %s allowed: %s %s', (pass, fail, accept, verdict, reason) => {
    const result = evaluated({
      acceptance: words
        ? words && '{ characteristic: force, criterion: none fails }'
        : '{ characteristic: force, criterion: none fails }',
      sampling: `${attribute} ${accept}`,
      csv: readings(pass, fail),
    });
    expect(result.verdict).toBe(verdict);
    expect(result.reason).toContain(reason);
  });

  test.each([
    [0.95, 0.9, 29],
    [0.95, 0.98, 149],
    [0.95, 0.99, 299],
    [0.99, 0.99, 459],
    [0.9, 0.99, 230],
  ])('success run %s/%s needs %s (standard binomial sample-size tables)', (confidence, reliability, size) => {
    const run = (count: number) =>
      evaluated({
        acceptance: words,
        sampling: `kind: success-run, confidence: ${confidence}, reliability: ${reliability}`,
        csv: readings(count, 0),
      }).verdict;
    expect(run(size)).toBe('pass');
    expect(run(size - 1)).toBe('undecided');
  });

  test('one failure ends a success run, whatever the plan says of acceptance', () => {
    const result = evaluated({
      acceptance: words,
      sampling: 'kind: success-run, confidence: 0.95, reliability: 0.95, accept: 3',
      csv: readings(200, 1),
    });
    expect(result.verdict).toBe('fail');
  });

  test('the bound of the failing share is exact', () => {
    // 0 of 59: 1 - 0.05^(1/59) = 4.95 % (identity); 0 of 20: 13.9 % (NIST/SEMATECH e-Handbook 7.2.4.1).
    const bound = (count: number): number | undefined =>
      valueOf(
        evaluated({ acceptance: words, sampling: `${attribute} 0`, csv: readings(count, 0) }),
        'failure_rate_upper_bound',
      );
    expect(bound(59)).toBeCloseTo(100 * (1 - 0.05 ** (1 / 59)), 9);
    expect(bound(20)).toBeCloseTo(13.9, 1);
  });

  test('a unit fails where one of its readings fails, and counts once', () => {
    const csv = `unit,force\n${Array.from({ length: 59 }, (_, unit) => Array.from({ length: 25 }, (__, stroke) => `U${unit},${unit === 7 && stroke > 20 ? 'no' : 'yes'}\n`).join('')).join('')}`;
    const result = evaluated({ acceptance: words, sampling: `${attribute} 0`, csv, data: 'unit_id: unit' });
    expect(result.reason).toContain('1 of 59 units failed');
  });

  test('of several readings the worst one stands for its unit', () => {
    const csv = 'unit,force [N]\nU1,20\nU1,24.5\nU1,21\nU2,19\nU2,18\nU3,20\nU3,26\nU3,27\n';
    const of = (text: string, data?: string) =>
      evaluated({
        acceptance: atMost,
        sampling: `${attribute} 0`,
        csv: text,
        ...(data === undefined ? {} : { data }),
      }).characteristics[0];
    expect(of(csv, 'unit_id: unit')).toMatchObject({ readings: [24.5, 19, 27], areWorstOfUnit: true });
    const single = of(csvOf([20, 21]));
    expect(single?.readings).toEqual([20, 21]);
    expect(single).not.toHaveProperty('areWorstOfUnit');
  });

  test('numbers are judged against the limits, bounds where they can be', () => {
    const run = (values: readonly (number | string)[]) =>
      evaluated({ acceptance: atMost, sampling: `${attribute} 0`, csv: csvOf(values) }).verdict;
    expect(run(Array(59).fill(25))).toBe('pass');
    expect(run([...Array(58).fill(25), 25.01])).toBe('fail');
    expect(run([...Array(58).fill(20), '<25'])).toBe('pass');
    expect(run([...Array(58).fill(20), '<26'])).toBe('undecided');
    expect(run([...Array(58).fill(20), '>25'])).toBe('fail');
    expect(run([...Array(58).fill(20), '>24'])).toBe('undecided');
  });

  test('a unit that was not judged does not help to pass', () => {
    expect(
      evaluated({ acceptance: words, sampling: `${attribute} 0`, csv: readings(58, 0, ['n/a']) }).verdict,
    ).toBe('undecided');
    expect(evaluated({ acceptance: words, sampling: `${attribute} 0`, csv: readings(0, 0) }).verdict).toBe(
      'undecided',
    );
    expect(
      evaluated({ acceptance: words, sampling: `${attribute} 0`, csv: readings(58, 0, ['']) }).verdict,
    ).toBe('undecided');
  });
});

describe('every unit within the limit', () => {
  const run = (values: readonly (number | string)[], acceptance = atLeast) =>
    evaluated({
      acceptance,
      sampling: 'kind: all-units',
      csv: csvOf(values, acceptance === words ? 'force' : 'force [N]'),
    });

  test.each<[readonly (number | string)[], string, string]>([
    [[30, 31.5], 'pass', 'all 2 meet "at least 30 N", from 30.0 to 31.5 N'],
    [[30, 29.9], 'fail', '1 of 2 do not meet "at least 30 N"'],
    [[30, '>50'], 'pass', ''],
    [[30, '<30'], 'fail', ''],
    [[30, '<50'], 'undecided', 'a reading beyond the range'],
    [[31, 'not applicable'], 'undecided', 'not applicable'],
    [['n/a', 'n/a'], 'undecided', 'not applicable'],
    [[], 'undecided', 'there are no readings'],
    [[31, ''], 'undecided', 'the raw data have gaps or errors'],
  ])('%j: %s', (values, verdict, reason) => {
    const result = run(values);
    expect(result.verdict).toBe(verdict);
    expect(result.reason).toContain(reason);
  });

  test('takes 300,000 readings', () => {
    expect(run(Array(300_000).fill(31)).verdict).toBe('pass');
  });

  test('words are judged by the criterion', () => {
    expect(run(['yes', 'OK', 'Passed'], words).verdict).toBe('pass');
    expect(run(['yes', 'no'], words).verdict).toBe('fail');
    expect(run(['yes', 'maybe'], words)).toMatchObject({
      verdict: 'undecided',
      findings: [{ code: 'data-cell-wrong' }],
    });
    expect(run(['yes', 1], words)).toMatchObject({
      verdict: 'undecided',
      findings: [{ code: 'data-cell-wrong' }],
    });
  });
});

describe('laboratory results', () => {
  const run = (
    values: readonly (number | string)[],
    acceptance = '{ characteristic: force, unit: mg, upper: 4 }',
  ) =>
    evaluated({
      acceptance,
      sampling: 'kind: laboratory-maximum, size: 3',
      csv: csvOf(values, 'force [mg]'),
    });

  test.each<[readonly (number | string)[], string, string]>([
    [['0.42', '0.10', '<0.05'], 'pass', 'largest of 3 results 0.42 mg, required at most 4 mg'],
    [['<1.0', '<1.0', '<1.0'], 'pass', 'largest of 3 results below 1.0 mg'],
    [['0.1', '4.01', '0.1'], 'fail', ''],
    [['0.1', '<5', '0.1'], 'undecided', 'beyond the reporting range'],
    [['0.1', '0.1'], 'undecided', 'the protocol plans 3, the raw data hold 2'],
    [['0.1', '0.1', ''], 'undecided', 'gaps or errors'],
    [['0.1', '0.1', 'pass'], 'undecided', 'words, not numbers'],
    [['0.1', '0.1', 'fail'], 'fail', 'words, not numbers'],
    [[], 'undecided', 'there are no readings'],
  ])('%j: %s', (values, verdict, reason) => {
    const result = run(values);
    expect(result.verdict).toBe(verdict);
    expect(result.reason).toContain(reason);
  });

  test('a result below the reporting range is told as such, not as a number that was found', () => {
    const labels = (values: readonly string[]) =>
      run(values).characteristics[0]?.values.map(({ label, value }) => `${label} ${value}`);
    expect(labels(['<1.0', '<1.0'])).toEqual([
      'results 2',
      'largest, reported as below 1',
      'smallest, reported as below 1',
    ]);
    expect(labels(['0.42', '<0.05'])).toEqual([
      'results 2',
      'largest 0.42',
      'smallest, reported as below 0.05',
    ]);
  });

  test('the reason names the result that is over, on either side', () => {
    expect(run(['0.1', '4.01', '0.1']).reason).toMatch(
      /^1 of 3 results does not keep the limit: \S.* 4\.01 mg, required at most 4 mg$/,
    );
    const both = '{ characteristic: force, unit: mg, lower: 2, upper: 4 }';
    expect(run(['0.5', '3', '3.9'], both).reason).toContain('row 2 0.5 mg, required 2 to 4 mg');
    expect(run(['1.9', '3', '5.0'], both).reason).toContain(
      '2 of 3 results do not keep the limit: row 4 5.0 mg',
    );
    expect(run(['2.5', '3', '3.9'], both).reason).toBe('3 results from 2.5 mg to 3.9 mg, required 2 to 4 mg');
    expect(run(['<1.0', '3', '3.9'], both).reason).toContain('row 2 below 1.0 mg');
    expect(run(['0.1', '<5', '0.1']).reason).toContain('row 3 below 5.0 mg');
  });

  test('a lower limit is held against the smallest', () => {
    expect(run(['5', '6', '7'], '{ characteristic: force, unit: mg, lower: 5 }').reason).toContain(
      'smallest of 3 results 5 mg',
    );
  });
});

describe('inspection checklist', () => {
  const run = (values: readonly string[]) =>
    evaluated({ acceptance: words, sampling: 'kind: inspection-checklist', csv: csvOf(values, 'force') });

  test.each<[readonly string[], string, string]>([
    [['yes', 'not applicable', 'yes'], 'pass', 'all 2 applicable items are met, 1 do not apply'],
    [['yes', 'no'], 'fail', '1 of 2 items are not met'],
    [['n/a', 'n/a'], 'undecided', 'no item was inspected'],
    [[], 'undecided', 'no item was inspected'],
    [['yes', ''], 'undecided', 'gaps or errors'],
  ])('%j: %s', (values, verdict, reason) => {
    const result = run(values);
    expect(result.verdict).toBe(verdict);
    expect(result.reason).toContain(reason);
  });
});

describe('a protocol', () => {
  test('with an unknown method or without its figures has no verdict, and says what is missing', () => {
    const unknown = evaluated({ acceptance: atLeast, sampling: 'kind: normal-tolerance', csv: csvOf([31]) });
    expect(unknown).toMatchObject({ verdict: 'undecided', findings: [{ code: 'method-unknown' }] });
    expect(unknown.findings[0]?.hint).toContain('normal-tolerance-interval');
    const bare = evaluated({ acceptance: atLeast, sampling: 'kind: attribute', csv: csvOf([31]) });
    expect(bare.findings[0]?.message).toBe(
      'VP-01 gives no confidence, reliability, accept under sampling, which attribute needs',
    );
    expect(bare.verdict).toBe('undecided');
  });

  test('that plans more units than the data hold has no verdict, unless the data fail', () => {
    const run = (values: readonly number[], record = '') =>
      evaluated({
        acceptance: atLeast,
        sampling: 'kind: all-units, size: 4',
        csv: csvOf(values),
        record,
        data: 'unit_id: unit',
      });
    expect(run([31, 32, 33])).toMatchObject({
      verdict: 'undecided',
      reason: 'the protocol plans 4, the raw data hold 3; nothing says where the others went',
    });
    expect(run([31, 32, 29]).verdict).toBe('fail');
    expect(run([31, 32, 33, 34]).verdict).toBe('pass');
    expect(
      run([31, 32, 33, 1], 'exclusions: [{ unit: U4, reason: Grip slipped., deviation: DV-01 }]'),
    ).toMatchObject({
      verdict: 'pass',
      unitCount: 3,
      excludedUnits: ['U4'],
    });
  });

  test('with several characteristics stands as its weakest', () => {
    const run = (second: number | string) =>
      evaluated({
        acceptance: `${atLeast}\n{ characteristic: travel, unit: mm, upper: 8 }`,
        sampling: 'kind: all-units',
        csv: `unit,force [N],travel [mm]\nA,31,${second}\n`,
        columns: '{ characteristic: force, column: force }\n    - { characteristic: travel, column: travel }',
      });
    expect(run(7).verdict).toBe('pass');
    expect(run(9)).toMatchObject({ verdict: 'fail', reason: expect.stringMatching(/^travel: /) });
    expect(run('').verdict).toBe('undecided');
  });
});

describe('figures at the edge', () => {
  test.each([
    'kind: normal-tolerance-interval, confidence: 0.999999999999, reliability: 0.999999999999',
    'kind: normal-tolerance-interval, confidence: 1e-12, reliability: 1e-12',
    'kind: attribute, confidence: 0.999999999999, reliability: 0.999999999999, accept: 0',
    'kind: attribute, confidence: 0.95, reliability: 0.999999999999, accept: 1000000000',
    'kind: success-run, confidence: 1e-300, reliability: 1e-300',
    'kind: all-units, size: 9007199254740991',
  ])('give a verdict or a finding in good time: %s', (sampling) => {
    const start = processorMilliseconds();
    for (const values of [normalReadings(30, 50, 2), [1e308, -1e308, 1e308], [1e-320, 2e-320, 3e-320]])
      expect(evaluated({ acceptance: atLeast, sampling, csv: csvOf(values) }).reason).toBeTruthy();
    expect(processorMilliseconds() - start).toBeLessThan(10_000);
  });

  test('large samples are judged', () => {
    const csv = csvOf(normalReadings(20_000, 50, 2).map((value) => value.toFixed(4)));
    expect(evaluated({ acceptance: atLeast, sampling: variables(0.95, 0.99), csv }).verdict).toBe('pass');
  });
});
