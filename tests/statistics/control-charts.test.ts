import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { c4, d2, d3, equivalentDegreesOfFreedom } from '../../src/statistics/control-chart-constants.ts';
import {
  type ControlChartRule,
  controlChartSignals,
  individualsChart,
  nelsonRules,
  westernElectricRules,
} from '../../src/statistics/control-chart-rules.ts';
import { normalCdf } from '../../src/statistics/distributions.ts';
import { gaugeStudy } from '../../src/statistics/gauge-study.ts';
import {
  averageRangeSpread,
  averageStandardDeviationSpread,
  movingRangeSpread,
  pooledSpread,
} from '../../src/statistics/within-subgroup-spread.ts';
import { expectRelative, readRows, valueFrom } from './reference-values.ts';
import { seededNormals } from './seeded-normals.ts';

const seed = 20260110;

describe('constants of control charts', () => {
  // ASTM MNL 7, as printed in Joglekar, Statistical Methods for Six Sigma (2003), appendix G. Its d3 at n = 5 repeats
  // that of n = 4 (0.8798); Montgomery and every other table have 0.864, which is used here.
  test.each([
    [2, 1.128, 0.8525, 0.7979],
    [3, 1.693, 0.8884, 0.8862],
    [4, 2.059, 0.8798, 0.9213],
    [5, 2.326, 0.864, 0.94],
    [6, 2.534, 0.848, 0.9515],
    [7, 2.704, 0.8332, 0.9594],
    [8, 2.847, 0.8198, 0.965],
    [9, 2.97, 0.8078, 0.9693],
    [10, 3.078, 0.7971, 0.9727],
    [12, 3.258, 0.7785, 0.9776],
    [15, 3.472, 0.7562, 0.9823],
    [20, 3.735, 0.7287, 0.9869],
    [25, 3.931, 0.7084, 0.9896],
  ])('n %s: d2 %s, d3 %s, c4 %s', (n, range, spread, bias) => {
    expect(Math.abs(d2(n) - range)).toBeLessThan(0.00051);
    expect(Math.abs(d3(n) - spread)).toBeLessThan(0.00016);
    expect(Math.abs(c4(n) - bias)).toBeLessThan(0.000051);
  });

  test('closed forms: two values have the half-normal distribution; three have a mean range of 3 / sqrt pi', () => {
    expectRelative(d2(2), 2 / Math.sqrt(Math.PI), 1e-14);
    expectRelative(d3(2), Math.sqrt(2 - 4 / Math.PI), 1e-13);
    expectRelative(c4(2), Math.sqrt(2 / Math.PI), 1e-14);
    expectRelative(d2(3), 3 / Math.sqrt(Math.PI), 1e-14);
    expectRelative(c4(3), Math.sqrt(Math.PI) / 2, 1e-14);
  });

  test('known to six and more digits: d2(4) 2.058751, d2(5) 2.325929 (Harter, Annals of Mathematical Statistics 31, 1960, from memory)', () => {
    expect(d2(4).toFixed(6)).toBe('2.058751');
    expect(d2(5).toFixed(6)).toBe('2.325929');
  });

  test('c4 rises to 1 - 1 / (4 (n - 1)) for many values; each d2 is above the one before', () => {
    expect(c4(100001)).toBeCloseTo(1 - 1 / 4e5, 10);
    for (let n = 3; n < 40; n++) {
      expect(c4(n)).toBeGreaterThan(c4(n - 1));
      expect(d2(n)).toBeGreaterThan(d2(n - 1));
      expect(d3(n)).toBeLessThan(n === 3 ? 0.9 : d3(n - 1));
    }
  });

  test('simulated mean and spread of the range of 6 values', () => {
    const normal = seededNormals(seed);
    const repeats = 20000;
    const ranges = Array.from({ length: repeats }, () => {
      const values = Array.from({ length: 6 }, normal);
      return Math.max(...values) - Math.min(...values);
    });
    const mean = ranges.reduce((sum, range) => sum + range, 0) / repeats;
    const variance = ranges.reduce((sum, range) => sum + (range - mean) ** 2, 0) / (repeats - 1);
    expect(Math.abs(mean - d2(6))).toBeLessThan((4 * d3(6)) / Math.sqrt(repeats));
    expect(Math.abs(Math.sqrt(variance) - d3(6))).toBeLessThan(0.02);
  });

  // AIAG, Measurement Systems Analysis, appendix C (d2*, degrees of freedom), from memory.
  test.each([
    [2, 1, 1.0, 1.41],
    [3, 1, 2.0, 1.91155],
    [4, 1, 2.9, 2.23887],
    [5, 1, 3.8, 2.48124],
    [5, 20, 72.7, 2.33],
  ])('range of %s values, %s subgroups: %s degrees of freedom', (n, subgroups, degrees, divisor) => {
    const relativeVariance = (d3(n) / d2(n)) ** 2 / subgroups;
    expect(Math.abs(equivalentDegreesOfFreedom(relativeVariance) - degrees)).toBeLessThan(0.051);
    expect(Math.abs(Math.sqrt(d2(n) ** 2 + d3(n) ** 2 / subgroups) - divisor)).toBeLessThan(0.006);
  });

  test('degrees of freedom: inverse of the relative variance of a standard deviation', () => {
    for (const n of [2, 3, 10, 100, 5000])
      expectRelative(equivalentDegreesOfFreedom((1 - c4(n) ** 2) / c4(n) ** 2), n - 1, 1e-8);
  });

  test('arguments out of range are named', () => {
    expect(() => d2(1)).toThrow('sampleSize is 1');
    expect(() => d3(2.5)).toThrow('sampleSize is 2.5');
    expect(() => d2(1001)).toThrow('at most 1000');
    expect(() => c4(1)).toThrow('sampleSize is 1');
    expect(() => equivalentDegreesOfFreedom(0)).toThrow('relativeVariance is 0');
  });
});

describe('spread within subgroups', () => {
  const subgroups = [
    [10, 12, 11],
    [20, 21, 23],
    [5, 9, 7],
  ];

  test('worked by hand: variances 1, 7/3 and 4; ranges 2, 3 and 4', () => {
    const pooled = valueFrom(pooledSpread(subgroups));
    expectRelative(pooled.standardDeviation, Math.sqrt((2 + 14 / 3 + 8) / 6), 1e-14);
    expect(pooled.degreesOfFreedom).toBe(6);
    expectRelative(valueFrom(averageRangeSpread(subgroups)).standardDeviation, Math.sqrt(Math.PI), 1e-14);
    const deviations = (1 + Math.sqrt(7 / 3) + 2) / 3;
    expectRelative(
      valueFrom(averageStandardDeviationSpread(subgroups)).standardDeviation,
      (2 * deviations) / Math.sqrt(Math.PI),
      1e-14,
    );
  });

  test('the pooled spread is the root of the mean square within, as the analysis of variance has it (AIAG gauge study, cells of 3)', () => {
    const rows = readRows('grr_aiag_10x3x3');
    const [partKey, operatorKey] = Object.keys(rows[0]!);
    const valueKey = Object.keys(rows[0]!).at(-1)!;
    const cells = new Map<string, number[]>();
    for (const row of rows) {
      const key = `${row[partKey!]}/${row[operatorKey!]}`;
      cells.set(key, [...(cells.get(key) ?? []), Number(row[valueKey])]);
    }
    expect(cells.size).toBe(30);
    const pooled = valueFrom(pooledSpread([...cells.values()]));
    expect(pooled.degreesOfFreedom).toBe(60);
    // AIAG, 4th edition, average and range report: mean range 0.3417 (reference value gage-rr-001).
    expect((valueFrom(averageRangeSpread([...cells.values()])).standardDeviation * d2(3)).toFixed(4)).toBe(
      '0.3417',
    );
    const readings = rows.map((row) => ({
      part: row[partKey!]!,
      operator: row[operatorKey!]!,
      value: Number(row[valueKey]),
    }));
    const { repeatability } = valueFrom(gaugeStudy(readings)).analysis;
    expectRelative(pooled.standardDeviation ** 2, repeatability.meanSquare, 1e-12);
  });

  test('NIST/SEMATECH e-Handbook 6.3.2.2, flow rate of ten batches: limits 45.82 and 55.80 (from memory)', () => {
    const flow = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
    const chart = valueFrom(individualsChart(flow, nelsonRules));
    expect(chart.centre).toBeCloseTo(50.81, 10);
    expect(chart.standardDeviation * d2(2)).toBeCloseTo(1.8778, 4);
    expect(chart.upperLimit).toBeCloseTo(55.8041, 2);
    expect(chart.lowerLimit).toBeCloseTo(45.8159, 2);
    expect(chart.signals).toEqual([]);
  });

  test('each is unbiased or nearly so, and worth its degrees of freedom: simulated', () => {
    const normal = seededNormals(seed);
    const repeats = 3000;
    const estimators = [
      (values: number[][]) => averageRangeSpread(values),
      (values: number[][]) => averageStandardDeviationSpread(values),
      (values: number[][]) => movingRangeSpread(values.flat()),
    ];
    const results = estimators.map(() => [] as number[]);
    let degrees: number[] = [];
    for (let i = 0; i < repeats; i++) {
      const values = Array.from({ length: 6 }, () => Array.from({ length: 4 }, normal));
      const all = estimators.map((estimate) => valueFrom(estimate(values)));
      degrees = all.map((each) => each.degreesOfFreedom);
      for (const [k, each] of all.entries()) results[k]!.push(each.standardDeviation);
    }
    for (const [k, list] of results.entries()) {
      const mean = list.reduce((sum, value) => sum + value, 0) / repeats;
      const variance = list.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (repeats - 1);
      expect(Math.abs(mean - 1)).toBeLessThan(4 * Math.sqrt(variance / repeats));
      // Relative standard error of a variance of 3000 values is about 0.026.
      const expected = equivalentDegreesOfFreedom(variance);
      expect(Math.abs(Math.log(degrees[k]! / expected))).toBeLessThan(0.11);
    }
  });

  test('shift changes nothing, scale goes through; the order matters to the moving range alone', () => {
    const groups = fc
      .array(fc.array(fc.integer({ min: 0, max: 50 }), { minLength: 3, maxLength: 3 }), {
        minLength: 1,
        maxLength: 8,
      })
      .filter((list) => list.some((values) => new Set(values).size > 1));
    fc.assert(
      fc.property(
        groups,
        fc.integer({ min: -9, max: 9 }),
        fc.integer({ min: 1, max: 9 }),
        (list, shift, scale) => {
          const moved = list.map((values) => values.map((value) => shift + scale * value));
          for (const spread of [pooledSpread, averageRangeSpread, averageStandardDeviationSpread]) {
            const before = valueFrom(spread(list)).standardDeviation;
            expectRelative(valueFrom(spread(moved)).standardDeviation, scale * before, 1e-12);
            expectRelative(
              valueFrom(spread(list.map((v) => v.toReversed()))).standardDeviation,
              before,
              1e-12,
            );
          }
          const flat = list.flat();
          expectRelative(
            valueFrom(movingRangeSpread(moved.flat())).standardDeviation,
            scale * valueFrom(movingRangeSpread(flat)).standardDeviation,
            1e-12,
          );
        },
      ),
      { seed },
    );
  });

  test('data that allow no figure are named', () => {
    expect(pooledSpread([[1], [2]])).toMatchObject({ reason: expect.stringContaining('no subgroup') });
    expect(
      pooledSpread([
        [1, 1],
        [2, 2],
      ]),
    ).toMatchObject({ problem: 'no-spread' });
    expect(pooledSpread([])).toMatchObject({ problem: 'too-few-values' });
    expect(averageRangeSpread([[1, 2], [3]])).toMatchObject({ problem: 'unbalanced' });
    expect(averageRangeSpread([[1], [3]])).toMatchObject({ problem: 'too-few-values' });
    expect(
      averageStandardDeviationSpread([
        [1, 1],
        [3, 3],
      ]),
    ).toMatchObject({ problem: 'no-spread' });
    expect(movingRangeSpread([1])).toMatchObject({ problem: 'too-few-values' });
    expect(movingRangeSpread([1, 1, 1])).toMatchObject({ problem: 'no-spread' });
    expect(movingRangeSpread([1, Number.NaN])).toMatchObject({ problem: 'non-finite-value' });
  });
});

describe('run rules', () => {
  const known = { centre: 0, standardDeviation: 1 };
  const places = (scores: readonly number[], rules: readonly ControlChartRule[]) =>
    controlChartSignals(scores, known, rules).map(({ rule, from, to }) => [rule.title, from, to]);

  test.each<[string, number[], string, number, number]>([
    ['one beyond', [0.1, -0.2, 3.01, 0.1], 'a value beyond 3 standard deviations', 2, 2],
    [
      'nine on one side',
      [-1, 1, 2, 0.5, 0.4, 0.3, 0.7, 0.2, 0.9, 0.1, -1],
      '9 in a row on one side of the mean',
      1,
      9,
    ],
    ['six rising', [0.5, -0.8, -0.5, -0.2, 0.1, 0.4, 0.7, 0.2], '6 in a row rising or falling', 1, 6],
    ['six falling', [0.7, 0.4, 0.1, -0.2, -0.5, -0.8, 0.4], '6 in a row rising or falling', 0, 5],
    [
      'fourteen up and down',
      [0.1, -0.1, 0.2, -0.2, 0.1, -0.1, 0.2, -0.2, 0.1, -0.1, 0.2, -0.2, 0.1, -2],
      '14 in a row up and down in turn',
      0,
      13,
    ],
    ['two of three', [0, 2.1, -0.5, 2.2, 0.3], '2 of 3 beyond 2 standard deviations on one side', 1, 3],
    [
      'four of five',
      [-0.2, -1.1, -1.2, 0.3, -1.3, -1.4, 0.2],
      '4 of 5 beyond 1 standard deviation on one side',
      1,
      5,
    ],
    [
      'eight far on both sides',
      [1.1, -1.2, 1.3, 1.4, -1.2, -1.5, 1.1, -1.2],
      '8 in a row beyond 1 standard deviation, on both sides',
      0,
      7,
    ],
  ])('Nelson: %s', (_, scores, title, from, to) => {
    const found = places(scores, nelsonRules);
    expect(found).toContainEqual([title, from, to]);
    const mirrored = places(
      scores.map((score) => -score),
      nelsonRules,
    );
    expect(mirrored).toEqual(found);
  });

  test('Nelson: fifteen near the mean; a fourteenth is not enough', () => {
    const near = Array.from({ length: 15 }, (_, i) => [0.3, -0.2, 0.4, 0.1, -0.5][i % 5]!);
    const title = '15 in a row within 1 standard deviation';
    expect(places(near, nelsonRules)).toContainEqual([title, 0, 14]);
    expect(places(near.slice(1), nelsonRules).map(([name]) => name)).not.toContain(title);
  });

  test('exactly on a line is not beyond it, equal neighbours end a trend, the centre ends a run', () => {
    expect(places([3], westernElectricRules)).toEqual([]);
    expect(places([2, 2], westernElectricRules)).toEqual([]);
    expect(places([0.1, 0.2, 0.3, 0.3, 0.4, 0.5, -0.1], nelsonRules)).toEqual([]);
    expect(places([0.1, 0.2, 0.1, 0.2, 0, 0.1, 0.2, 0.1, 0.2], westernElectricRules)).toEqual([]);
    expect(places([0.1, 0.2, 0.1, 0.2, 0.1, 0.2, 0.1, 0.2], westernElectricRules)).toEqual([
      ['8 in a row on one side of the mean', 0, 7],
    ]);
  });

  test('overlapping windows are one stretch', () => {
    const scores = [...Array.from({ length: 12 }, (_, i) => 0.2 + (i % 2) / 10), -0.3];
    expect(places(scores, [nelsonRules[1]!])).toEqual([['9 in a row on one side of the mean', 0, 11]]);
  });

  test('chances of a false alarm at one place: closed forms', () => {
    const rates = nelsonRules.map((rule) => rule.falseAlarmRate);
    expect(rates[0]).toBeCloseTo(0.0027, 6);
    expect(rates[1]).toBe(2 / 2 ** 9);
    // Of the 6! orders of six values one rises and one falls; of 14!, 2 x 199360981 alternate (OEIS A000111).
    expect(rates[2]).toBe(2 / 720);
    expectRelative(rates[3]!, (2 * 199360981) / 87178291200, 1e-14);
    expectRelative(rates[6]!, 0.6826894921370859 ** 15, 1e-12);
    // Nelson (1984): each below 5 in 1000, as his commentators quote it; the 4-of-5 test is in truth a little above.
    expect(rates.filter((rate) => rate >= 0.005)).toEqual([rates[5]]);
    expect(westernElectricRules[3]!.falseAlarmRate).toBe(2 / 2 ** 8);
  });

  test.each([...nelsonRules, westernElectricRules[3]!].map((rule) => [rule.title, rule] as const))(
    'chance of a false alarm, counted over 30,000 places: %s',
    (_, rule) => {
      const normal = seededNormals(seed);
      // Windows do not overlap, so that the counts are independent.
      const repeats = 30000;
      let hits = 0;
      for (let i = 0; i < repeats; i++)
        if (rule.shows(Array.from({ length: rule.window }, normal))) hits += 1;
      const error = Math.sqrt(rule.falseAlarmRate / repeats);
      expect(Math.abs(hits / repeats - rule.falseAlarmRate)).toBeLessThan(4 * error);
      expect(hits).toBeGreaterThan(0);
    },
  );

  // Champ & Woodall, Technometrics 29 (1987), table 1, shift 0 (from memory).
  test.each([
    ['beyond 3', [0], 370.4],
    ['and 2 of 3', [0, 1], 225.44],
    ['and 4 of 5', [0, 2], 166.05],
    ['and 8 in a row', [0, 3], 152.73],
    ['all four', [0, 1, 2, 3], 91.75],
  ])('values until the first false alarm, Western Electric %s: %s on average %s', (_, which, average) => {
    // Exactly, by a Markov chain that knows nothing of the code under test.
    expect(averageRunLength(new Set(which)).toFixed(2)).toBe(average.toFixed(2));
    const rules = which.map((i) => westernElectricRules[i]!);
    const normal = seededNormals(seed);
    const repeats = 1500;
    let total = 0;
    for (let i = 0; i < repeats; i++) {
      const recent: number[] = [];
      let length = 0;
      do {
        recent.push(normal());
        if (recent.length > 8) recent.shift();
        length += 1;
      } while (!rules.some((rule) => recent.length >= rule.window && rule.shows(recent.slice(-rule.window))));
      total += length;
    }
    // The length until an alarm is nearly geometric: its spread is about its mean.
    expect(Math.abs(total / repeats - average)).toBeLessThan((3 * average) / Math.sqrt(repeats));
  });

  test('limits from the same 30 values: one of six sequences of pure chance has a signal of the first four Nelson rules', () => {
    const normal = seededNormals(20260107);
    const repeats = 2000;
    let alarms = 0;
    for (let i = 0; i < repeats; i++) {
      const values = Array.from({ length: 30 }, normal);
      if (valueFrom(individualsChart(values, nelsonRules.slice(0, 4))).signals.length > 0) alarms += 1;
    }
    expect(alarms / repeats).toBeGreaterThan(0.14);
    expect(alarms / repeats).toBeLessThan(0.2);
  });

  test('a step of two standard deviations half-way through 30 values is seen far more often than chance signals', () => {
    const normal = seededNormals(seed);
    const repeats = 300;
    let seen = 0;
    for (let i = 0; i < repeats; i++) {
      const values = Array.from({ length: 30 }, (_, k) => normal() + (k < 15 ? 0 : 2));
      if (valueFrom(individualsChart(values, nelsonRules.slice(0, 4))).signals.length > 0) seen += 1;
    }
    // Three of four in this simulation, against one of six without a step.
    expect(seen / repeats).toBeGreaterThan(0.6);
  });

  test('signals do not change with shift and scale', () => {
    fc.assert(
      fc.property(
        fc
          .array(fc.integer({ min: 0, max: 60 }), { minLength: 10, maxLength: 40 })
          .filter((values) => new Set(values).size > 1),
        fc.integer({ min: -64, max: 64 }),
        (values, shift) => {
          const of = (list: readonly number[]) =>
            valueFrom(individualsChart(list, nelsonRules)).signals.map(({ rule, from, to }) => [
              rule.title,
              from,
              to,
            ]);
          // Powers of two keep every comparison exact.
          const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
          fc.pre(values.every((value) => value !== mean));
          expect(of(values.map((value) => 4 * value))).toEqual(of(values));
          expect(of(values.map((value) => value + shift)).length).toBe(of(values).length);
        },
      ),
      { seed, numRuns: 50 },
    );
  });

  test('arguments and data out of range are named', () => {
    expect(() => controlChartSignals([1], { centre: 0, standardDeviation: 0 }, nelsonRules)).toThrow(
      'standardDeviation is 0',
    );
    expect(() => controlChartSignals([Number.NaN], known, nelsonRules)).toThrow('value 1 is NaN');
    expect(individualsChart([1], nelsonRules)).toMatchObject({ problem: 'too-few-values' });
    expect(individualsChart([4, 4, 4], nelsonRules)).toMatchObject({ reason: 'all 3 values are 4' });
    expect(controlChartSignals([], known, nelsonRules)).toEqual([]);
  });
});

/**
 * Mean number of values until one of the Western Electric rules speaks, for standard normal values: the states are what
 * the rules remember (the last two marks beyond 2, the last four beyond 1, the run on one side), the equations
 * L = 1 + Q L are solved by repeated substitution.
 */
function averageRunLength(which: ReadonlySet<number>): number {
  const share = (from: number, to: number) => normalCdf(to) - normalCdf(from);
  const zones = [0, 1, 2].flatMap((zone) =>
    [1, -1].map((side) => ({ zone, side, probability: share(zone, zone + 1) })),
  );
  const count = (marks: readonly number[], side: number) => marks.filter((mark) => mark === side).length;
  const most = (marks: readonly number[]) => Math.max(count(marks, 1), count(marks, -1));
  interface State {
    readonly beyond2: readonly number[];
    readonly beyond1: readonly number[];
    readonly run: number;
  }
  const indices = new Map<string, number>();
  const states: State[] = [];
  const indexOf = (state: State): number => {
    const key = JSON.stringify(state);
    const known = indices.get(key);
    if (known !== undefined) return known;
    indices.set(key, states.length);
    states.push(state);
    return states.length - 1;
  };
  const first = indexOf({ beyond2: [0, 0], beyond1: [0, 0, 0, 0], run: 0 });
  const steps: { to: number; probability: number }[][] = [];
  for (let i = 0; i < states.length; i++) {
    const { beyond2, beyond1, run } = states[i]!;
    steps[i] = zones.flatMap(({ zone, side, probability }) => {
      const marks2 = [...beyond2, zone === 2 ? side : 0];
      const marks1 = [...beyond1, zone >= 1 ? side : 0];
      const length = run * side > 0 ? run + side : side;
      const isAlarm =
        (which.has(1) && most(marks2) >= 2) ||
        (which.has(2) && most(marks1) >= 4) ||
        (which.has(3) && Math.abs(length) >= 8);
      if (isAlarm) return [];
      const next = {
        beyond2: which.has(1) ? marks2.slice(1) : [0, 0],
        beyond1: which.has(2) ? marks1.slice(1) : [0, 0, 0, 0],
        run: which.has(3) ? length : 0,
      };
      return [{ to: indexOf(next), probability }];
    });
  }
  const lengths = states.map(() => 1);
  for (let round = 0; round < 20000; round++) {
    let change = 0;
    for (const [i, list] of steps.entries()) {
      const length = list.reduce((sum, { to, probability }) => sum + probability * lengths[to]!, 1);
      change = Math.max(change, Math.abs(length - lengths[i]!));
      lengths[i] = length;
    }
    if (change < 1e-9) break;
  }
  return lengths[first]!;
}
