import { describe, expect, test } from 'vitest';
import { readColumn, readRows } from '../statistics/reference-values.ts';
import { seededUniforms } from '../statistics/seeded-normals.ts';
import { processorMilliseconds } from '../support/processor-time.ts';
import { csvOf, evaluated, normalReadings, type TestRun, valueOf } from './test-run.ts';

type Reading = number | string;

const force = (limits: string): string => `{ characteristic: force, unit: N, ${limits} }`;

const run = (
  kind: string,
  limits: string,
  readings: readonly Reading[],
  { plan = [0.95, 0.95], sampling = '', ...more }: Partial<TestRun> & { plan?: readonly number[] } = {},
) =>
  evaluated({
    acceptance: force(limits),
    csv: csvOf(readings),
    ...more,
    sampling: `kind: ${kind}, confidence: ${plan[0]}, reliability: ${plan[1]}${sampling}`,
  });

/** Quantiles of a distribution at (i - 0.5) / n: a sample that no test of fit doubts. */
const quantiles = (count: number, quantile: (share: number) => number): readonly number[] =>
  Array.from({ length: count }, (_, i) => quantile((i + 0.5) / count));

const weibullReadings = (count: number, shape: number, scale: number): readonly number[] =>
  quantiles(count, (share) => scale * (-Math.log(1 - share)) ** (1 / shape));

const lognormalReadings = (count: number, mean: number, spread: number): readonly number[] =>
  normalReadings(count, mean, spread).map(Math.exp);

/** 18 strengths of the tests of the R package cmstatr against STAT17. */
const strength18 = [
  137.4438, 139.5395, 150.89, 141.4474, 141.8203, 151.8821, 143.9245, 132.9732, 136.6419, 138.1723, 148.7668,
  143.283, 143.5429, 141.7023, 137.4732, 152.338, 144.1589, 128.5218,
];

const kinds = [
  'lognormal-tolerance-bound',
  'transformed-normal-tolerance-interval',
  'weibull-lower-bound',
  'nonparametric-tolerance-interval',
] as const;

describe('methods for other distributions', () => {
  test.each(
    kinds.flatMap((kind): [string, string, readonly Reading[], string][] => {
      const isFree = kind.startsWith('nonparametric');
      return [
        [kind, 'words', Array(60).fill('pass'), 'words, not numbers'],
        [kind, 'not applicable', [...normalReadings(59, 50, 2), 'n/a'], 'words, not numbers'],
        [kind, 'a gap', [...normalReadings(59, 50, 2), ''], 'gaps or errors'],
        [kind, 'no unit', [], isFree ? '0 units are too few' : '0 values'],
        [kind, 'one unit', [50], isFree ? '1 unit is too few' : '1 value, at least'],
        [kind, 'two units', [50, 51], isFree ? 'too few' : ''],
      ];
    }),
  )('%s does not decide on %s', (kind, _, readings, words) => {
    const result = run(kind, 'lower: 30', readings);
    expect(result.verdict).toBe('undecided');
    expect(result.reason).not.toBe('');
    expect(result.reason).toContain(words);
    if (words !== 'gaps or errors') expect(result.characteristics[0]?.remedy).toBeTruthy();
  });

  test.each(kinds.slice(0, 3))('%s names constant readings, and readings that are not above 0', (kind) => {
    expect(run(kind, 'lower: 30', Array(30).fill(50)).reason).toMatch(/all 30 (values|failures)/);
    for (const bad of [0, -3])
      expect(run(kind, 'lower: 30', [...normalReadings(29, 50, 2), bad])).toMatchObject({
        verdict: 'undecided',
        reason: `value 30 of 30 is ${bad}; only values above 0 have a logarithm`,
      });
  });

  test.each([...kinds, 'normal-tolerance-interval'])('%s names crossed limits', (kind) => {
    expect(run(kind, 'lower: 60, upper: 40', normalReadings(120, 50, 2))).toMatchObject({
      verdict: 'undecided',
      reason: 'the lower limit, 60, is not below the upper one, 40',
    });
  });

  test.each(kinds)(
    '%s makes one value of several readings of a unit only where the protocol says how',
    (kind) => {
      const csv = `unit,force [N]\n${normalReadings(120, 50, 2)
        .map((value, i) => `U${i},${value}\nU${i},${value + 1}\n`)
        .join('')}`;
      const of = (more: string) =>
        run(kind, `lower: 30${more}`, [], { csv, data: 'unit_id: unit', sampling: ', power: 1' });
      expect(of('')).toMatchObject({ verdict: 'undecided', reason: 'some units have several readings' });
      const minimum = of(', per_unit: minimum');
      expect(valueOf(minimum, 'n')).toBe(120);
      expect(minimum.characteristics[0]?.readings[0]).toBeCloseTo(normalReadings(120, 50, 2)[0]!, 9);
    },
  );

  test.each(kinds)('%s reports lots, and the source of its formula', (kind) => {
    const csv = `unit,lot,force [N]\n${weibullReadings(120, 20, 60)
      .map((value, i) => `U${i},L${i % 3},${value.toFixed(3)}\n`)
      .join('')}`;
    const result = run(kind, 'lower: 10', [], { csv, data: 'unit_id: unit\n  lot: lot' });
    const details = result.characteristics[0]?.assumptions.map((each) => each.detail).join('; ');
    expect(details).toMatch(/means by lot: L0 \d/);
    expect(result.basis).toMatch(/\d{4}|2nd ed/);
  });

  test('when normality fails, the remedy of the normal method names them', () => {
    const result = run('normal-tolerance-interval', 'lower: 0.001', lognormalReadings(30, 0, 1));
    expect(result.verdict).toBe('undecided');
    for (const kind of kinds) expect(result.characteristics[0]?.remedy).toContain(kind);
    expect(run('lognormal-tolerance-bound', 'lower: 0.001', lognormalReadings(30, 0, 1)).verdict).toBe(
      'pass',
    );
  });

  test.each([
    ...kinds.flatMap((kind) => [
      [kind, [1 - 1e-12, 1 - 1e-12]],
      [kind, [1e-12, 1e-12]],
    ]),
  ] as [string, readonly number[]][])('%s gives a verdict in good time for %j', (kind, plan) => {
    const start = processorMilliseconds();
    for (const readings of [normalReadings(30, 50, 2), [1e308, 1e-308, 1], [1e-320, 2e-320, 3e-320]]) {
      const result = run(kind, 'lower: 30', readings, { plan });
      expect(result.reason).toBeTruthy();
      for (const each of result.characteristics.flatMap(({ values }) => values))
        expect(each.value, each.key).not.toBeNaN();
    }
    expect(processorMilliseconds() - start).toBeLessThan(10_000);
  });
});

describe('distribution-free tolerance interval', () => {
  const kind = 'nonparametric-tolerance-interval';
  const upTo = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => i + 1);

  // 59 and 93 for 95/95: success-run theorem and EnvStats documentation; 299 and 473 for 95/99: common tables.
  test.each([
    [0.95, 0.95, 59, 93],
    [0.95, 0.99, 299, 473],
    [0.95, 0.9, 29, 46],
  ])('%d/%d needs %d units with one limit, %d with two', (confidence, reliability, one, two) => {
    const of = (count: number, limits: string) =>
      run(kind, limits, upTo(count), { plan: [confidence, reliability] });
    expect(of(one, 'lower: 1').verdict).toBe('pass');
    expect(of(one, 'lower: 1.5').verdict).toBe('fail');
    expect(of(one - 1, 'lower: 1').reason).toContain(`needs ${one}`);
    expect(of(two, `lower: 1, upper: ${two}`).verdict).toBe('pass');
    expect(of(two, `lower: 1, upper: ${two - 0.5}`).verdict).toBe('fail');
    expect(of(two - 1, `lower: 1, upper: ${two}`)).toMatchObject({
      verdict: 'undecided',
      reason: expect.stringContaining(`with two limits needs ${two}`),
    });
  });

  test('100 units for 95/90: fifth reading from the end (Meeker, Hahn and Escobar, table J.11), confidence 97.63 %', () => {
    const lower = run(kind, 'lower: 5', upTo(100), { plan: [0.95, 0.9] });
    expect(lower.verdict).toBe('pass');
    expect(valueOf(lower, 'lower_rank')).toBe(5);
    expect(valueOf(lower, 'lower_bound')).toBe(5);
    // 1 - P(X <= 4; 100, 0.1) = 1 - 0.02371 (binomial tables).
    expect(valueOf(lower, 'achieved_confidence')).toBeCloseTo(97.63, 2);
    const upper = run(kind, 'upper: 96', upTo(100), { plan: [0.95, 0.9] });
    expect(upper).toMatchObject({ verdict: 'pass' });
    expect(upper.reason).toContain('95/90 upper tolerance bound 96 N');
  });

  test('a bound that fails only for want of range does not decide', () => {
    const most = (last: Reading): readonly Reading[] => [...upTo(58).map((x) => x / 10), last];
    expect(run(kind, 'upper: 17', most('<15')).verdict).toBe('pass');
    expect(run(kind, 'upper: 12', most('<15'))).toMatchObject({
      verdict: 'undecided',
      reason: expect.stringContaining('beyond the range of the instrument, and may keep the limit'),
    });
    expect(run(kind, 'upper: 12', most(13)).verdict).toBe('fail');
    expect(run(kind, 'lower: 20', [...upTo(58).map((x) => x + 30), '>15'])).toMatchObject({
      verdict: 'undecided',
    });
    expect(run(kind, 'lower: 20', [...upTo(57).map((x) => x + 30), '>15', 14]).verdict).toBe('fail');
  });

  test('readings beyond the range serve as long as they are not the bound', () => {
    const sixty = (ends: readonly string[]): readonly Reading[] => [
      ...upTo(59 - ends.length).map((x) => x + 30),
      ...ends,
    ];
    expect(run(kind, 'lower: 30', sixty(['>90', '>90'])).verdict).toBe('pass');
    expect(run(kind, 'lower: 30', sixty(['<30']))).toMatchObject({
      verdict: 'undecided',
      reason: 'the reading that serves as lower bound is beyond the range of the instrument',
    });
    expect(run(kind, 'upper: 120', sixty(['>90']))).toMatchObject({ verdict: 'undecided' });
    expect(run(kind, 'upper: 120', sixty(['<30', '<30'])).verdict).toBe('pass');
    // 93 units: the smallest may be left out for 95/95, so a reading below the range does not matter.
    expect(run(kind, 'lower: 30', [...upTo(92).map((x) => x + 30), '<30']).verdict).toBe('pass');
  });

  test('several readings of a unit, one of them beyond the range: the minimum is known, the maximum is not', () => {
    const csv = `unit,force [N]\n${upTo(59)
      .map((x) => `U${x},${x + 40}\nU${x},>120\n`)
      .join('')}`;
    const of = (limits: string) => run(kind, limits, [], { csv, data: 'unit_id: unit' });
    expect(of('lower: 40, per_unit: minimum').verdict).toBe('pass');
    expect(of('upper: 130, per_unit: maximum').verdict).toBe('undecided');
    expect(of('upper: 130, per_unit: mean').verdict).toBe('undecided');
    expect(valueOf(of('lower: 40, per_unit: mean'), 'lower_bound')).toBeCloseTo((41 + 120) / 2, 9);
  });
});

describe('Weibull lower bound', () => {
  const kind = 'weibull-lower-bound';

  test('18 strengths: 125.4 N (95/90) and 109.2 N (95/99), as STAT17 within its factor of 0.5 %', () => {
    const b = run(kind, 'lower: 125', strength18, { plan: [0.95, 0.9] });
    expect(b.verdict).toBe('pass');
    expect(Math.abs((valueOf(b, 'lower_bound') ?? 0) - 125.441)).toBeLessThan(0.06);
    expect(b.reason).toMatch(/^95\/90 lower tolerance bound 125\.\d+ N, required at least 125 N$/);
    expect(b.characteristics[0]?.assumptions[0]).toMatchObject({
      name: 'Weibull distribution',
      outcome: 'met',
    });
    const a = run(kind, 'lower: 110', strength18, { plan: [0.95, 0.99] });
    expect(a.verdict).toBe('fail');
    expect(Math.abs((valueOf(a, 'lower_bound') ?? 0) - 109.15)).toBeLessThan(0.06);
    // What is shown at the limit: a little less than the reliability asked for where the bound is a little below it.
    expect(valueOf(a, 'reliability_bound')).toBeLessThan(99);
    expect(valueOf(a, 'reliability_bound')).toBeGreaterThan(98.5);
  });

  test('shape and scale of the NIST lives, censored at 500 (e-Handbook 8.4.1.2)', () => {
    const readings = readRows('nist_weibull20').map((row) =>
      row['failed'] === '1' ? Number(row['hours']) : `>${row['hours']}`,
    );
    const result = run(kind, 'lower: 20', readings, { plan: [0.9, 0.9] });
    expect(valueOf(result, 'shape')).toBeCloseTo(1.7208, 4);
    expect(valueOf(result, 'scale')).toBeCloseTo(606.53, 2);
    expect(valueOf(result, 'failures')).toBe(10);
    expect(valueOf(result, 'censored')).toBe(10);
    expect(result.verdict).toBe('pass');
    expect(result.characteristics[0]?.assumptions.map((each) => each.name)).toContain('end of the test');
  });

  test('units that held to the end of the range are neither left out nor failures', () => {
    const readings = weibullReadings(30, 8, 60);
    const cut = (end: number): readonly Reading[] => readings.map((x) => (x > end ? `>${end}` : x));
    const whole = valueOf(run(kind, 'lower: 20', readings), 'lower_bound') ?? 0;
    const held = valueOf(run(kind, 'lower: 20', cut(60)), 'lower_bound') ?? 0;
    const leftOut =
      valueOf(
        run(
          kind,
          'lower: 20',
          readings.filter((x) => x <= 60),
        ),
        'lower_bound',
      ) ?? 0;
    const asFailures =
      valueOf(
        run(
          kind,
          'lower: 20',
          readings.map((x) => Math.min(x, 60)),
        ),
        'lower_bound',
      ) ?? 0;
    expect(Math.abs(held / whole - 1)).toBeLessThan(0.06);
    expect(leftOut).not.toBeCloseTo(held, 0);
    expect(asFailures).not.toBeCloseTo(held, 0);
  });

  test.each<[string, string, readonly Reading[], string]>([
    ['an upper limit', 'upper: 80', strength18, 'gives a lower bound only'],
    ['two limits', 'lower: 80, upper: 180', strength18, 'gives a lower bound only'],
    ['a reading below the range', 'lower: 80', [...strength18, '<10'], 'below the range'],
    ['ends at different values', 'lower: 80', [...strength18, '>160', '>170'], 'different values'],
    ['no failure', 'lower: 80', Array(20).fill('>90'), '0 of 20 units failed'],
    ['two failures', 'lower: 80', [100, 110, ...Array(20).fill('>120')], '2 of 22 units failed, at least 3'],
    ['four failures', 'lower: 80', [100, 105, 108, 110, ...Array(20).fill('>120')], 'cannot be tested'],
    [
      'two kinds of failure',
      'lower: 5',
      [...normalReadings(15, 20, 0.5), ...normalReadings(15, 90, 0.5)],
      'do not look like a Weibull distribution',
    ],
  ])('does not decide on %s', (_, limits, readings, words) => {
    const result = run(kind, limits, readings);
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain(words);
    expect(result.characteristics[0]?.remedy).toBeTruthy();
  });

  test('a bound nearer to the limit than the simulation can tell is undecided', () => {
    const bound = valueOf(run(kind, 'lower: 1', strength18), 'lower_bound') ?? 0;
    const error = valueOf(run(kind, 'lower: 1', strength18), 'simulation_error') ?? 0;
    expect(error).toBeGreaterThan(0);
    const at = (limit: number) => run(kind, `lower: ${limit}`, strength18);
    expect(at(bound + 0.5 * error)).toMatchObject({
      verdict: 'undecided',
      reason: expect.stringContaining('nearer to the limit than the simulation can tell'),
    });
    expect(at(bound - 4 * error).verdict).toBe('pass');
    expect(at(bound + 4 * error).verdict).toBe('fail');
  });
});

describe('lognormal tolerance bound', () => {
  const kind = 'lognormal-tolerance-bound';

  test('chrysene, upper 95/95 bound 90.9247 (USEPA Unified Guidance 2009, Example 17-3, via EnvStats documentation)', () => {
    const readings = readColumn('chrysene8');
    const result = run(kind, 'upper: 91', readings);
    expect(result.verdict).toBe('pass');
    expect(valueOf(result, 'upper_bound')).toBeCloseTo(90.9247, 4);
    expect(valueOf(result, 'lower_bound')).toBeUndefined();
    // k for n = 8, 95/95: 3.187 (Montgomery and Runger, Table XII).
    expect(valueOf(result, 'factor')).toBeCloseTo(3.187, 3);
    expect(run(kind, 'upper: 90.9', readings).verdict).toBe('fail');
  });

  test('two limits: the exact two-sided factor on the logarithms', () => {
    // EnvStats documentation of tolIntNorm: n = 20, mean 9.86116, s 1.180226, 95/95: upper end 13.118993.
    const readings = normalReadings(20, 9.86116, 1.180226).map(Math.exp);
    const result = run(kind, 'lower: 1, upper: 500000', readings);
    expect(Math.log(valueOf(result, 'upper_bound') ?? 0)).toBeCloseTo(13.118993, 5);
    expect(result.verdict).toBe('pass');
    expect(run(kind, 'lower: 1, upper: 490000', readings).verdict).toBe('fail');
  });

  test.each<[string, readonly Reading[], string]>([
    ['two units', [50, 51], 'cannot be tested'],
    ['a reading below the reporting limit', [...lognormalReadings(29, 1, 0.5), '<0.1'], 'beyond the range'],
    ['two groups', [...normalReadings(15, 5, 0.1), ...normalReadings(15, 50, 0.1)], 'do not look normal'],
  ])('does not decide on %s', (_, readings, words) => {
    const result = run(kind, 'upper: 100', readings);
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain(words);
    expect(result.characteristics[0]?.remedy).toBeTruthy();
  });
});

describe('tolerance interval after a power transformation', () => {
  const kind = 'transformed-normal-tolerance-interval';
  const squares = normalReadings(40, 6, 1).map((x) => x * x);
  const of = (limits: string, power?: number | string, readings: readonly Reading[] = squares) =>
    run(kind, limits, readings, power === undefined ? {} : { sampling: `, power: ${power}` });

  test('power 0 is the lognormal bound, power 1 the normal one', () => {
    const positive = lognormalReadings(30, 2, 0.1);
    const bound = (result: ReturnType<typeof run>): number => valueOf(result, 'lower_bound') ?? Number.NaN;
    const log = run('lognormal-tolerance-bound', 'lower: 1', positive);
    expect(bound(of('lower: 1', 0, positive))).toBeCloseTo(bound(log), 10);
    const normal = run('normal-tolerance-interval', 'lower: 1', normalReadings(30, 50, 2));
    expect(bound(of('lower: 1', 1, normalReadings(30, 50, 2)))).toBeCloseTo(bound(normal), 10);
  });

  test('a planned root: mean 6 minus k, n 40, 95/95: k 2.125 (Montgomery and Runger, Table XII, n = 40: 2.125), squared', () => {
    const result = of('lower: 14.9', 0.5);
    expect(valueOf(result, 'factor')).toBeCloseTo(2.125, 3);
    expect(valueOf(result, 'lower_bound')).toBeCloseTo((6 - 2.125) ** 2, 1);
    expect(result.verdict).toBe('pass');
    expect(of('lower: 15.1', 0.5).verdict).toBe('fail');
    expect(result.characteristics[0]?.assumptions[1]).toMatchObject({
      name: 'planned power',
      outcome: 'met',
    });
  });

  test('without a planned power the widest interval is taken, and the power to plan is named', () => {
    const result = of('lower: 14.9');
    const planned = valueOf(of('lower: 14.9', 0.5), 'lower_bound') ?? 0;
    expect(valueOf(result, 'lower_bound')).toBeLessThan(planned);
    expect(result.verdict).toBe('fail');
    expect(of('lower: 5').verdict).toBe('pass');
    expect(result.characteristics[0]?.assumptions[1]).toMatchObject({ name: 'power', outcome: 'not tested' });
    expect(result.characteristics[0]?.assumptions[1]?.detail).toContain('not planned');
    const low = valueOf(result, 'power_low') ?? 0;
    const high = valueOf(result, 'power_high') ?? 0;
    expect(low).toBeLessThan(0.5);
    expect(high).toBeGreaterThan(0.5);
    const suggested = valueOf(result, 'power_to_plan') ?? Number.NaN;
    expect(suggested).toBe(low <= 1 && high >= 1 ? 1 : 0);
  });

  test('readings that speak against the planned power are not judged by it', () => {
    const uniform = seededUniforms(20260110);
    const skewed = Array.from({ length: 60 }, () => Math.exp(normalOf(uniform)));
    const result = of('lower: 0.001', 0.5, skewed);
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toMatch(
      /speak against the planned power 0\.5: by them it lies from|do not look normal/,
    );
    expect(of('lower: 0.001', 0, skewed).verdict).toBe('pass');
  });

  test('a planned power just outside its interval is undecided at either end, just inside it is judged', () => {
    const free = of('lower: 0.001');
    const [low, high] = [valueOf(free, 'power_low') ?? 0, valueOf(free, 'power_high') ?? 0];
    for (const outside of [low - 0.02, high + 0.02]) {
      const result = of('lower: 0.001', outside);
      expect(result.verdict).toBe('undecided');
      expect(result.reason).toContain('the readings speak against the planned power');
      expect(result.characteristics[0]?.assumptions[1]).toMatchObject({ outcome: 'not met' });
    }
    for (const inside of [low + 0.02, high - 0.02])
      expect(of('lower: 0.001', inside).reason).not.toContain('speak against');
  });

  test('an inverse power without an upper bound is undecided, not infinite', () => {
    const readings = normalReadings(12, 1, 0.4).map((x) => 1 / x);
    const result = of('upper: 1000', -1, readings);
    expect(result).toMatchObject({
      verdict: 'undecided',
      reason: 'with the power -1 no finite value is an upper limit',
    });
  });

  test('a power beyond 5 is refused by the schema', () => {
    expect(() => of('lower: 1', 7)).toThrow('sampling.power is 7: must be <= 5');
  });
});

/** Irwin and Hall: the sum of twelve uniform numbers is near enough normal. */
const normalOf = (uniform: () => number): number =>
  Array.from({ length: 12 }, uniform).reduce((sum, x) => sum + x, -6);
