import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { normalCdf } from '../../src/statistics/distributions.ts';
import { readColumn, readRows } from '../statistics/reference-values.ts';
import { seededNormals } from '../statistics/seeded-normals.ts';
import { csvOf, evaluated, normalReadings, type TestRun, valueOf } from './test-run.ts';

const force = (limits: string): string => `{ characteristic: force, unit: N, ${limits} }`;

/** Undecided on every kind of data that a method for measured values cannot use, always with a reason and a remedy. */
const unusable: readonly [string, readonly (number | string)[], string][] = [
  ['constant readings', Array(30).fill(50), 'all 30 values are 50'],
  ['one unit', [50], '1 value, at least 2 needed'],
  ['two units', [50, 51], 'cannot be tested'],
  ['no unit', [], '0 values'],
  ['a reading at the end of the range', [...normalReadings(29, 50, 2), '>60'], 'beyond the range'],
  ['words', Array(30).fill('pass'), 'words, not numbers'],
  ['not applicable', [...normalReadings(29, 50, 2), 'n/a'], 'words, not numbers'],
  ['a gap', [...normalReadings(29, 50, 2), ''], 'gaps or errors'],
  [
    'readings that are not normal',
    Array.from({ length: 30 }, (_, index) => 40 + 0.01 * 2 ** (index / 2)),
    'do not look normal',
  ],
];

describe('mean', () => {
  const run = (limits: string, csv: TestRun['csv'], more: Partial<TestRun> = {}, confidence = '0.95') =>
    evaluated({
      acceptance: force(limits),
      sampling: `kind: mean, confidence: ${confidence}`,
      csv,
      ...more,
    });

  test('NIST/SEMATECH e-Handbook 1.3.5.2, ZARR13: 9.258242 to 9.264679, each bound at 97.5 %', () => {
    const csv = csvOf(readColumn('zarr13_heat_flow'));
    const result = run('lower: 9.25, upper: 9.27', csv, {}, '0.975');
    expect(valueOf(result, 'lower_bound')).toBeCloseTo(9.258242, 6);
    expect(valueOf(result, 'upper_bound')).toBeCloseTo(9.264679, 6);
    expect(valueOf(result, 'n')).toBe(195);
    expect(result.verdict).toBe('pass');
    expect(result.reason).toMatch(
      /^97\.5 % bounds of the mean 9\.258\d+ and 9\.264\d+ N, required 9\.25 to 9\.27 N$/,
    );
    expect(run('lower: 9.26', csv, {}, '0.975').verdict).toBe('fail');
  });

  // t(0.95, 15) = 1.753: Student's table in any textbook. 50 - 1.753 x 2 / 4 = 49.1235.
  test('16 units, mean 50, standard deviation 2: the bound is 49.12', () => {
    const csv = csvOf(normalReadings(16, 50, 2));
    const result = run('lower: 49.1', csv);
    expect(result.verdict).toBe('pass');
    expect(valueOf(result, 'factor')).toBeCloseTo(1.753, 3);
    expect(Math.abs((valueOf(result, 'lower_bound') ?? 0) - 49.1235)).toBeLessThan(0.0003);
    expect(valueOf(result, 'upper_bound')).toBeUndefined();
    expect(run('lower: 49.2', csv)).toMatchObject({ verdict: 'fail' });
    expect(run('upper: 50.8', csv).verdict).toBe('fail');
    expect(run('upper: 50.9', csv).verdict).toBe('pass');
  });

  test('the mean can keep a limit that every tenth unit misses: the tolerance interval says fail', () => {
    const csv = csvOf(normalReadings(60, 50, 2));
    expect(run('lower: 48', csv).verdict).toBe('pass');
    const units = evaluated({
      acceptance: force('lower: 48'),
      sampling: 'kind: normal-tolerance-interval, confidence: 0.95, reliability: 0.95',
      csv,
    });
    expect(units.verdict).toBe('fail');
  });

  test.each(unusable)('does not decide on %s', (_, readings, reason) => {
    const result = run('lower: 30', csvOf(readings));
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain(reason);
    if (reason !== 'gaps or errors') expect(result.characteristics[0]?.remedy).toBeTruthy();
  });

  test('crossed limits are named', () => {
    const result = run('lower: 60, upper: 40', csvOf(normalReadings(16, 50, 2)));
    expect(result).toMatchObject({
      verdict: 'undecided',
      reason: 'the lower limit, 60, is not below the upper one, 40',
    });
  });

  test('several readings of a unit need per_unit', () => {
    const csv = `unit,force [N]\n${normalReadings(16, 50, 2)
      .flatMap((value, i) => [`U${i},${value}`, `U${i},${value + 1}`])
      .join('\n')}\n`;
    const more = { data: 'unit_id: unit' };
    expect(run('lower: 30', csv, more).reason).toBe('some units have several readings');
    const means = run('lower: 30, per_unit: mean', csv, more);
    expect(valueOf(means, 'mean')).toBeCloseTo(50.5, 9);
    expect(valueOf(means, 'n')).toBe(16);
  });

  test('without confidence it says what is missing', () => {
    const result = evaluated({
      acceptance: force('lower: 30'),
      sampling: 'kind: mean',
      csv: csvOf(normalReadings(16, 50, 2)),
    });
    expect(result).toMatchObject({ verdict: 'undecided', reason: 'the protocol gives no confidence' });
  });

  test('the verdict never turns to pass by more confidence or a stricter limit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 48, max: 50, noNaN: true }),
        fc.constantFrom('0.8', '0.9', '0.95', '0.99'),
        (lower, confidence) => {
          const csv = csvOf(normalReadings(16, 50, 2));
          if (run(`lower: ${lower}`, csv, {}, '0.999').verdict === 'pass')
            expect(run(`lower: ${lower}`, csv, {}, confidence).verdict).toBe('pass');
          if (run(`lower: ${lower + 0.1}`, csv, {}, confidence).verdict === 'pass')
            expect(run(`lower: ${lower}`, csv, {}, confidence).verdict).toBe('pass');
        },
      ),
      { seed: 20260112, numRuns: 15 },
    );
  });
});

describe('order of the run', () => {
  const order = (values: readonly number[], kind = 'mean, confidence: 0.95') =>
    evaluated({
      acceptance: force('lower: 10'),
      sampling: `kind: ${kind}`,
      csv: csvOf(values),
    }).characteristics[0];
  const shuffled = (seed: number) => {
    const normal = seededNormals(seed);
    return Array.from({ length: 30 }, () => 50 + 2 * normal());
  };

  test('no signal in values drawn by chance, with this seed', () => {
    expect(order(shuffled(1))?.assumptions.find((each) => each.name === 'order of the run')).toEqual({
      name: 'order of the run',
      outcome: 'met',
      detail: 'no signal in the order of the raw data (Nelson 1 to 4)',
    });
  });

  test('the same values sorted: a trend, named with its rows; the verdict and every number stay as they were', () => {
    const values = shuffled(1);
    const sorted = values.toSorted((a, b) => a - b);
    for (const kind of [
      'mean, confidence: 0.95',
      'normal-tolerance-interval, confidence: 0.95, reliability: 0.95',
    ]) {
      const [before, after] = [order(values, kind), order(sorted, kind)];
      const observation = after?.assumptions.find((each) => each.name === 'order of the run');
      expect(observation?.outcome).toBe('to explain');
      expect(observation?.detail).toContain('6 in a row rising or falling: row 2 to row 31');
      expect(observation?.detail).toContain('a value beyond 3 standard deviations: row 2, row 3, row 4 and ');
      expect(after?.verdict).toBe('pass');
      expect(after?.verdict).toBe(before?.verdict);
      expect(after?.values.map(({ key, value }) => [key, value.toFixed(9)])).toEqual(
        before?.values.map(({ key, value }) => [key, value.toFixed(9)]),
      );
    }
  });

  test('says nothing of fewer than eight units', () => {
    expect(order([50, 51, 52, 50.5, 51.2, 49, 50.2])?.assumptions.map((each) => each.name)).toEqual([
      'normal distribution',
      'no outlier',
    ]);
  });
});

describe('capability', () => {
  const run = (limits: string, csv: TestRun['csv'], more = '', data?: string) =>
    evaluated({
      acceptance: force(limits),
      sampling: `kind: capability, confidence: 0.95, capability_index: 1.33${more}`,
      csv,
      ...(data ? { data } : {}),
    });
  const thirty = csvOf(normalReadings(30, 50, 1));

  test('SciPy (Boost noncentral t): Ppk 1.33 of 30 units has the 95 % lower bound 1.02156', () => {
    const result = run(`lower: ${50 - 3 * 1.33}`, thirty);
    expect(valueOf(result, 'ppk')).toBeCloseTo(1.33, 9);
    expect(valueOf(result, 'ppk_lower_bound')).toBeCloseTo(1.0215572539, 8);
    expect(valueOf(result, 'pp')).toBeUndefined();
    expect(result.verdict).toBe('fail');
    expect(result.reason).toBe('95 % lower bound of Ppk 1.02 (Ppk 1.33), required at least 1.33');
  });

  test('with one limit it is the tolerance interval for the share that the index stands for', () => {
    fc.assert(
      fc.property(fc.double({ min: 3, max: 8, noNaN: true }), (distance) => {
        const limits = `lower: ${50 - distance}`;
        const index = evaluated({
          acceptance: force(limits),
          sampling: 'kind: capability, confidence: 0.95, capability_index: 1',
          csv: thirty,
        });
        const interval = evaluated({
          acceptance: force(limits),
          sampling: `kind: normal-tolerance-interval, confidence: 0.95, reliability: ${normalCdf(3)}`,
          csv: thirty,
        });
        expect(index.verdict).toBe(interval.verdict);
        expect((valueOf(index, 'ppk') ?? 0) >= (valueOf(index, 'ppk_needed') ?? 0)).toBe(
          index.verdict === 'pass',
        );
      }),
      { seed: 20260113, numRuns: 15 },
    );
  });

  test('two limits: the nearer one counts, Pp and its bound are reported', () => {
    const result = run('lower: 40, upper: 56', thirty);
    expect(valueOf(result, 'ppk')).toBeCloseTo(2, 9);
    expect(valueOf(result, 'pp')).toBeCloseTo(16 / 6, 9);
    // chi-square(0.05, 29) = 17.708, textbook table: 2.6667 x sqrt(17.708 / 29).
    expect(valueOf(result, 'pp_lower_bound')).toBeCloseTo((16 / 6) * Math.sqrt(17.708 / 29), 4);
    expect(result.verdict).toBe('pass');
  });

  test('the spread within lots gives Cpk: far above Ppk where the lots differ', () => {
    const rows = ['L1', 'L2', 'L3'].flatMap((lot, k) =>
      normalReadings(12, 50 + (k - 1) * 0.8, 0.6).map((value, i) => `${lot}-${i},${lot},${value}`),
    );
    const result = run(
      'lower: 44, upper: 56',
      `unit,lot,force [N]\n${rows.join('\n')}\n`,
      '',
      'unit_id: unit\n  lot: lot',
    );
    expect(valueOf(result, 'within_standard_deviation')).toBeCloseTo(0.6, 9);
    expect(valueOf(result, 'cpk')).toBeCloseTo(6 / 1.8, 9);
    expect(valueOf(result, 'ppk') ?? 9).toBeLessThan(2.5);
    expect(result.characteristics[0]?.assumptions.map((each) => each.name)).toEqual([
      'normal distribution',
      'lots alike',
      'order of the run',
      'no outlier',
    ]);
  });

  test('a mean beyond the limit fails with a negative index', () => {
    const result = run('upper: 49', thirty);
    expect(valueOf(result, 'ppk')).toBeCloseTo(-1 / 3, 9);
    expect(result.verdict).toBe('fail');
  });

  test('a reliability that the index does not stand for is not taken on trust', () => {
    expect(run('lower: 40, upper: 60', thirty, ', reliability: 0.9999').verdict).toBe('pass');
    const result = run('lower: 40, upper: 60', thirty, ', reliability: 0.99999');
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toBe(
      'the plan claims a reliability of 99.999 %, but a Ppk of 1.33 stands for 99.9934 % only',
    );
  });

  test.each(unusable)('does not decide on %s', (_, readings, reason) => {
    const result = run('lower: 30', csvOf(readings));
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain(reason);
  });

  test('crossed limits and a missing index are named', () => {
    expect(run('lower: 60, upper: 40', thirty).reason).toContain('is not below the upper one');
    expect(
      evaluated({
        acceptance: force('lower: 30'),
        sampling: 'kind: capability, confidence: 0.95',
        csv: thirty,
      }).reason,
    ).toBe('the protocol gives no capability_index');
  });
});

describe('equivalence', () => {
  const sampling = 'kind: equivalence, confidence: 0.95, compare: { from: fresh, to: aged';
  const run = (limits: string, csv: string, more = '', data = 'unit_id: unit\n  group: state') =>
    evaluated({ acceptance: force(limits), sampling: `${sampling}${more} }`, csv, data });
  const table = (groups: Readonly<Record<string, readonly (number | string)[]>>, isPaired = false): string =>
    `unit,state,force [N]\n${Object.entries(groups)
      .flatMap(([state, values]) =>
        values.map((value, i) => `${isPaired ? 'P' : state}${i + 1},${state},${value}\n`),
      )
      .join('')}`;
  const groups = { fresh: normalReadings(20, 50, 2), aged: normalReadings(15, 49.4, 2.5) };

  test('R package TOSTER, known results: 90 % interval of the difference up to 0.2470843 (two groups, Welch)', () => {
    // m 5.25 and 5.22, sd 0.95 and 0.83, n 95 and 89: reference values tost-008 to tost-013.
    const csv = table({ fresh: normalReadings(89, 5.22, 0.83), aged: normalReadings(95, 5.25, 0.95) });
    const result = run('lower: -0.384, upper: 0.384', csv);
    expect(valueOf(result, 'upper_bound')).toBeCloseTo(0.2470843, 6);
    expect(valueOf(result, 'degrees_of_freedom')).toBeCloseTo(181.1344, 3);
    expect(valueOf(result, 'p_value')).toBeCloseTo(0.003838994, 7);
    expect(result.verdict).toBe('pass');
    expect(result.reason).toMatch(
      /^shift of the mean from fresh to aged 0\.03\d* N, 95 % bounds −0\.187\d* and 0\.247\d* N, allowed −0\.384 to 0\.384 N$/,
    );
  });

  test('R documentation, data set sleep: pairs, mean 1.58, 90 % interval 0.867 to 2.293', () => {
    // The 95 % interval 0.7001 to 2.4599 is printed there; the 90 % one has t(0.95, 9) = 1.8331 instead of 2.2622.
    const sleep = readRows('sleep');
    const of = (drug: string) =>
      sleep.filter((row) => row['group'] === drug).map((row) => Number(row['extra']));
    const csv = table({ fresh: of('drug1'), aged: of('drug2') }, true);
    const result = run('lower: 0, upper: 3', csv, ', paired: true');
    // The differences hold an outlier: the bounds are shown, the verdict stays open.
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain('normal distribution of the differences: Anderson-Darling');
    const margin = ((2.459885763276983 - 0.7001142367230175) / 2 / 2.2621571628) * 1.8331129327;
    expect(valueOf(result, 'lower_bound')).toBeCloseTo(1.58 - margin, 8);
    expect(valueOf(result, 'upper_bound')).toBeCloseTo(1.58 + margin, 8);
    expect(valueOf(result, 'degrees_of_freedom')).toBe(9);
  });

  test('passes, fails on either side, and with one limit', () => {
    const csv = table(groups);
    expect(run('lower: -2, upper: 2', csv).verdict).toBe('pass');
    expect(run('lower: -1, upper: 2', csv).verdict).toBe('fail');
    expect(run('lower: -2, upper: 0.5', csv).verdict).toBe('fail');
    const one = run('lower: -2', csv);
    expect(one.verdict).toBe('pass');
    expect(valueOf(one, 'upper_bound')).toBeUndefined();
    expect(one.reason).toContain('95 % lower bound −1.');
    expect(run('upper: 0', csv).verdict).toBe('fail');
    expect(valueOf(run('lower: -2, upper: 2', csv), 'shift')).toBeCloseTo(-0.6, 9);
  });

  test('pairs tell more than groups: the difference between units drops out', () => {
    const fresh = normalReadings(20, 50, 5);
    const shifts = normalReadings(20, 0.2, 0.5);
    // Not in the order of the fresh values, so that the units differ far more than their shifts.
    const aged = fresh.map((value, i) => value + (shifts[(i * 7) % 20] ?? 0));
    const paired = run('lower: -1, upper: 1', table({ fresh, aged }, true), ', paired: true');
    expect(paired.verdict).toBe('pass');
    expect(valueOf(paired, 'shift')).toBeCloseTo(0.2, 9);
    expect(paired.characteristics[0]?.readings.length).toBe(20);
    expect(paired.unitCount).toBe(20);
    expect(run('lower: -1, upper: 1', table({ fresh, aged })).verdict).toBe('fail');
  });

  test('few units show no equivalence, however alike they are', () => {
    const csv = table({ fresh: normalReadings(8, 50, 2), aged: normalReadings(8, 50, 2) });
    expect(run('lower: -1, upper: 1', csv).verdict).toBe('fail');
  });

  test.each<[string, string, string, string]>([
    ['a unit in both groups', table({ fresh: [1, 2, 3], aged: [1, 2, 4] }, true), '', 'P1 is in both groups'],
    [
      'a unit without its pair',
      table({ fresh: [1, 2, 3, 5], aged: [1, 2, 4] }, true),
      ', paired: true',
      'P4 is only in the group "fresh"',
    ],
    ['a third group', table({ ...groups, shipped: [50, 51] }), '', 'shipped1 is in the group "shipped"'],
    ['a row without a group', `${table(groups)}X,,50\n`, '', 'X is in no group'],
    ['one unit in a group', table({ ...groups, aged: [50] }), '', 'the group "aged": 1 value'],
    ['no unit in a group', table({ fresh: groups.fresh }), '', 'the group "aged": 0 values'],
    [
      'no spread at all',
      table({ fresh: [50, 50, 50], aged: [51, 51, 51] }),
      '',
      'neither group has any spread',
    ],
    [
      'equal shifts',
      table({ fresh: [50, 51, 52], aged: [51, 52, 53] }, true),
      ', paired: true',
      'all 3 differences are 1',
    ],
    [
      'a group that is not normal',
      table({ ...groups, aged: Array.from({ length: 30 }, (_, i) => 49 + 0.001 * 2 ** (i / 2)) }),
      '',
      'do not look normal (normal distribution, aged',
    ],
    ['words', table({ fresh: ['pass', 'pass'], aged: ['pass', 'fail'] }), '', 'words, not numbers'],
    ['bounds', table({ ...groups, aged: ['>50', 51, 52] }), '', 'beyond the range'],
  ])('does not decide on %s', (_, csv, more, reason) => {
    const result = run('lower: -2, upper: 2', csv, more);
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain(reason);
    expect(result.characteristics[0]?.remedy).toBeTruthy();
  });

  test('a missing or misspelt column, a plan without groups, and crossed limits are named', () => {
    const csv = table(groups);
    expect(run('lower: -2, upper: 2', csv, '', 'unit_id: unit').reason).toBe(
      'the record names no column for the groups',
    );
    const misspelt = run('lower: -2, upper: 2', csv, '', 'unit_id: unit\n  group: stat');
    expect(misspelt.verdict).toBe('undecided');
    expect(misspelt.findings.map((finding) => finding.code)).toEqual(['data-column-missing']);
    expect(
      evaluated({
        acceptance: force('lower: -2, upper: 2'),
        sampling: 'kind: equivalence, confidence: 0.95',
        csv,
      }).reason,
    ).toBe('the protocol gives no compare');
    expect(run('lower: 2, upper: -2', csv).reason).toContain('is not below the upper one');
  });

  test('a confidence of 0.5 or less shows nothing', () => {
    const result = evaluated({
      acceptance: force('lower: -2, upper: 2'),
      sampling: 'kind: equivalence, confidence: 0.4, compare: { from: fresh, to: aged }',
      csv: table(groups),
      data: 'unit_id: unit\n  group: state',
    });
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain('significance is 0.6');
  });

  test('excluded units count on neither side', () => {
    const csv = table({ ...groups, aged: [...groups.aged, 90] });
    const exclusions = 'exclusions: [{ unit: aged16, reason: Grip slipped., deviation: DV-01 }]';
    const result = evaluated({
      acceptance: force('lower: -2, upper: 2'),
      sampling: `${sampling} }`,
      csv,
      data: 'unit_id: unit\n  group: state',
      record: exclusions,
    });
    expect(valueOf(result, 'n_to')).toBe(15);
    expect(valueOf(result, 'shift')).toBeCloseTo(-0.6, 9);
  });

  test('swapping the groups mirrors the shift; converting units scales it', () => {
    const csv = table(groups);
    const there = run('lower: -2, upper: 2', csv);
    const back = evaluated({
      acceptance: force('lower: -2, upper: 2'),
      sampling: 'kind: equivalence, confidence: 0.95, compare: { from: aged, to: fresh }',
      csv,
      data: 'unit_id: unit\n  group: state',
    });
    expect(valueOf(back, 'lower_bound')).toBeCloseTo(-(valueOf(there, 'upper_bound') ?? 0), 12);
    expect(back.verdict).toBe('pass');
    const small = run('lower: -2, upper: 2', csv.replace('[N]', '[mN]'));
    expect(valueOf(small, 'shift')).toBeCloseTo(-0.0006, 12);
  });
});
