import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { attributeAgreement } from '../../src/statistics/attribute-agreement.ts';
import { averageAndRangeGaugeStudy } from '../../src/statistics/average-and-range-gauge-study.ts';
import { arithmeticMean, compensatedSum } from '../../src/statistics/descriptive.ts';
import type { GaugeReading } from '../../src/statistics/gauge-components.ts';
import { gaugeStudy } from '../../src/statistics/gauge-study.ts';
import { cohenKappa, fleissKappa } from '../../src/statistics/kappa.ts';
import { checkTopic, expectRelative, readRows, valueFrom } from './reference-values.ts';
import { seededNormals } from './seeded-normals.ts';

const seed = 20260106;
const noData = 'the raw data are not in a public copy at hand';

const aiag: readonly GaugeReading[] = readRows('grr_aiag_10x3x3').map((row) => ({
  part: row.part!,
  operator: row.appraiser!,
  value: Number(row.value),
}));

describe('gauge study by analysis of variance', () => {
  const study = valueFrom(gaugeStudy(aiag));
  const byRanges = valueFrom(averageAndRangeGaugeStudy(aiag));

  checkTopic({
    topic: 'gage-rr',
    expected: { total: 31, computed: 22 },
    compute: ({ inputs }) => {
      const { analysis, components } = study;
      const quantities: Record<string, number | undefined> = {
        'SS part': analysis.part.sumOfSquares,
        'SS appraiser': analysis.operator.sumOfSquares,
        'SS pooled error': analysis.pooled.sumOfSquares,
        'MS part': analysis.part.meanSquare,
        'MS appraiser': analysis.operator.meanSquare,
        'var repeatability (pooled)': components.repeatability.variance,
        'var reproducibility': components.reproducibility.variance,
        'var part': components.part.variance,
        'var GRR': components.gauge.variance,
        'ndc (ANOVA pooled)': study.distinctCategories,
        Rbarbar: byRanges.averageRange,
        Xdiff: byRanges.rangeOfOperatorMeans,
        Rp: byRanges.rangeOfPartMeans,
        GRR: byRanges.components.gauge.standardDeviation,
        TV: byRanges.components.total.standardDeviation,
        '%AV': byRanges.components.reproducibility.percentStudyVariation,
        '%GRR': byRanges.components.gauge.percentStudyVariation,
        '%PV': byRanges.components.part.percentStudyVariation,
        'ndc (A&R)': byRanges.distinctCategories,
      };
      // Raw data not at hand: the source's own variances of gauge and part, put into a made-up study.
      if (inputs.dataset === 'grr_4x3x2')
        return studyWith(0.0264583333333333, 1, inputs.tolerance).percentTolerance;
      if (inputs.dataset === 'grr_10x3x3_b') {
        const gauge = studyWith(0.134544159544159 + 0.0233855650522318, 10.8561068903661, inputs.tolerance);
        return inputs.quantity.startsWith('%tolerance')
          ? gauge.percentTolerance
          : gauge.percentStudyVariation;
      }
      return quantities[inputs.quantity];
    },
    notComputed: {
      ...Object.fromEntries(
        ['027', '031', '032', '035', '036', '037', '039', '040', '041'].map((n) => [`gage-rr-${n}`, noData]),
      ),
    },
  });

  test('the study pools its interaction: F = 0.434 (AIAG, Measurement Systems Analysis, 4th edition; from memory)', () => {
    expect(study.interactionPooled).toBe(true);
    expect(study.fRatios.interaction.toFixed(3)).toBe('0.434');
    expect(study.pValues.interaction).toBeGreaterThan(0.9);
    expect([study.parts, study.operators, study.repeats]).toEqual([10, 3, 3]);
    expect(study.components.interaction.variance).toBe(0);
  });

  test('Montgomery, 20 parts, 3 operators, 2 repeats: F, and components with pooling (Introduction to Statistical Quality Control, gauge study by analysis of variance; from memory)', () => {
    const montgomery = valueFrom(gaugeStudy(gaugeRows('grr_montgomery_20x3x2')));
    const { analysis, fRatios, pValues, components } = montgomery;
    expect(analysis.part.sumOfSquares).toBeCloseTo(1185.425, 3);
    expect(analysis.operator.sumOfSquares).toBeCloseTo(2.617, 3);
    expect(analysis.interaction.sumOfSquares).toBeCloseTo(27.05, 3);
    expect(analysis.repeatability.sumOfSquares).toBeCloseTo(59.5, 3);
    expect(pValues.interaction).toBeCloseTo(0.861, 3);
    expect(fRatios.part).toBeCloseTo(62.391 / 0.8832, 1);
    expect(montgomery.interactionPooled).toBe(true);
    expect(components.repeatability.variance).toBeCloseTo(0.8832, 4);
    expect(components.operator.variance).toBeCloseTo(0.0106, 4);
    expect(components.part.variance).toBeCloseTo(10.2513, 4);
    expect(components.gauge.variance).toBeCloseTo(0.8938, 4);
  });

  test('the interaction is pooled above the p value that was asked for, and not below', () => {
    const readings = gaugeRows('grr_montgomery_20x3x2');
    const { pValues } = valueFrom(gaugeStudy(readings));
    const pooledAt = (level: number) =>
      valueFrom(gaugeStudy(readings, { poolInteractionAbove: level })).interactionPooled;
    expect([pooledAt(pValues.interaction - 1e-9), pooledAt(pValues.interaction + 1e-9)]).toEqual([
      true,
      false,
    ]);
  });

  test('without pooling the negative interaction estimate is named and set to 0', () => {
    const unpooled = valueFrom(gaugeStudy(aiag, { poolInteractionAbove: 1 }));
    expect(unpooled.interactionPooled).toBe(false);
    expect(unpooled.setToZero).toEqual(['interaction']);
    expect(unpooled.components.repeatability.variance).toBe(unpooled.analysis.repeatability.meanSquare);
  });

  test('sums of squares add up to the total, degrees of freedom to n - 1', () => {
    const { part, operator, interaction, repeatability } = study.analysis;
    const values = aiag.map((reading) => reading.value);
    const mean = arithmeticMean(values);
    const total = compensatedSum(values.map((value) => (value - mean) ** 2));
    const lines = [part, operator, interaction, repeatability];
    expectRelative(compensatedSum(lines.map((line) => line.sumOfSquares)), total, 1e-13);
    expect(lines.reduce((sum, line) => sum + line.degreesOfFreedom, 0)).toBe(89);
  });

  test('shares add up to 100 per cent', () => {
    const { gauge, part, repeatability, reproducibility, total } = study.components;
    expect(gauge.percentContribution + part.percentContribution).toBeCloseTo(100, 10);
    expect(repeatability.percentContribution + reproducibility.percentContribution).toBeCloseTo(
      gauge.percentContribution,
      10,
    );
    expect(total.percentStudyVariation).toBe(100);
    expect(gauge.percentTolerance).toBeUndefined();
  });

  test('variance components of a simulated study come out near the true ones', () => {
    const normal = seededNormals(seed);
    const runs = Array.from({ length: 400 }, () => {
      const operators = Array.from({ length: 3 }, () => 0.5 * normal());
      const readings = Array.from({ length: 10 }, (_, p) => {
        const part = 2 * normal();
        return operators.flatMap((operator, o) => {
          const interaction = 0.7 * normal();
          return Array.from({ length: 3 }, () => ({
            part: `P${p}`,
            operator: `O${o}`,
            value: 100 + part + operator + interaction + 0.4 * normal(),
          }));
        });
      });
      return valueFrom(gaugeStudy(readings.flat(), { poolInteractionAbove: 1 })).components;
    });
    const mean = (name: 'part' | 'interaction' | 'repeatability') =>
      arithmeticMean(runs.map((run) => run[name].variance));
    expect(Math.abs(mean('part') - 4)).toBeLessThan(0.4);
    expect(Math.abs(mean('interaction') - 0.49)).toBeLessThan(0.05);
    expect(Math.abs(mean('repeatability') - 0.16)).toBeLessThan(0.005);
  });

  test('shift does nothing, scale squares, order and names do not matter', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1000, max: 1000 }), fc.integer({ min: 1, max: 100 }), (shift, scale) => {
        const moved = aiag.map(({ part, operator, value }) => ({
          part: `x${part}`,
          operator,
          value: shift + scale * value,
        }));
        const after = valueFrom(gaugeStudy(moved.reverse()));
        expectRelative(after.components.gauge.variance, scale ** 2 * study.components.gauge.variance, 1e-9);
        expectRelative(after.components.part.variance, scale ** 2 * study.components.part.variance, 1e-9);
        expect(after.distinctCategories).toBe(study.distinctCategories);
      }),
      { seed },
    );
  });

  test('says why it cannot judge', () => {
    const cell = (part: string, operator: string, ...values: number[]) =>
      values.map((value) => ({ part, operator, value }));
    const full = ['a', 'b'].flatMap((part, p) =>
      ['x', 'y'].flatMap((operator) => cell(part, operator, p, p + 0.1)),
    );
    expect(gaugeStudy(full).ok).toBe(true);
    expect(gaugeStudy(full.slice(1))).toMatchObject({ problem: 'too-few-values' });
    const larger = ['a', 'b', 'c'].flatMap((part, p) =>
      ['x', 'y'].flatMap((operator) => cell(part, operator, p, p + 0.1)),
    );
    expect(gaugeStudy(larger.slice(1))).toMatchObject({
      reason: 'operator x measured part a once, not 2 times as most',
    });
    expect(gaugeStudy(larger.slice(2))).toMatchObject({
      reason: 'operator x measured part a never, not 2 times as most',
    });
    expect(gaugeStudy([...full, ...cell('a', 'x', 1)])).toMatchObject({
      problem: 'unbalanced',
      reason: 'operator x measured part a 3 times, not 2 times as most',
    });
    expect(gaugeStudy(cell('a', 'x', 1, 2, 3, 4, 5, 6, 7, 8))).toMatchObject({
      reason: '1 part, at least 2 needed',
    });
    expect(gaugeStudy(full.map((reading) => ({ ...reading, value: 1 })))).toMatchObject({
      problem: 'no-spread',
    });
    expect(gaugeStudy(full.map((reading) => ({ ...reading, value: Number.NaN })))).toMatchObject({
      problem: 'non-finite-value',
    });
    expect(() => gaugeStudy(full, { tolerance: 0 })).toThrow('tolerance is 0');
    expect(() => gaugeStudy(full, { poolInteractionAbove: 25 })).toThrow('poolInteractionAbove is 25');
  });

  test('readings whose repeats never differ say nothing of the gauge', () => {
    const still = ['a', 'b'].flatMap((part, p) =>
      ['x', 'y'].flatMap((operator, o) => [0, 0].map(() => ({ part, operator, value: p + o / 10 }))),
    );
    expect(gaugeStudy(still)).toMatchObject({ ok: false, problem: 'no-spread' });
  });
});

describe('gauge study by averages and ranges', () => {
  const byRanges = valueFrom(averageAndRangeGaugeStudy(aiag));

  test('the factors are those of the AIAG table: K1, K2, K3 (Measurement Systems Analysis, 4th edition; from memory)', () => {
    expect(byRanges.factors.repeats).toBeCloseTo(0.5908, 4);
    expect(byRanges.factors.operators).toBeCloseTo(0.5231, 4);
    expect(byRanges.factors.parts).toBeCloseTo(0.3146, 4);
    const two = valueFrom(averageAndRangeGaugeStudy(gaugeRows('grr_montgomery_20x3x2')));
    expect(two.factors.repeats).toBeCloseTo(0.8862, 4);
  });

  test('Montgomery: mean range 1.15, operator means 0.32 apart (Introduction to Statistical Quality Control; from memory)', () => {
    const two = valueFrom(averageAndRangeGaugeStudy(gaugeRows('grr_montgomery_20x3x2')));
    expect(two.averageRange).toBeCloseTo(1.15, 10);
    expect(two.rangeOfOperatorMeans).toBeCloseTo(0.325, 10);
    expect(two.components.repeatability.standardDeviation).toBeCloseTo(1.02, 2);
  });

  test('repeatability and reproducibility in the AIAG report: 0.20188 and 0.22963 (from memory)', () => {
    expect(byRanges.components.repeatability.standardDeviation).toBeCloseTo(0.20188, 4);
    expect(byRanges.components.reproducibility.standardDeviation).toBeCloseTo(0.22963, 3);
  });

  test('says why it cannot judge', () => {
    expect(averageAndRangeGaugeStudy(aiag.slice(1))).toMatchObject({ problem: 'unbalanced' });
    const still = ['a', 'b'].flatMap((part, p) =>
      ['x', 'y'].flatMap((operator) => [0, 0].map(() => ({ part, operator, value: p }))),
    );
    expect(averageAndRangeGaugeStudy(still)).toMatchObject({ problem: 'no-spread' });
    expect(() => averageAndRangeGaugeStudy(aiag, { tolerance: -1 })).toThrow('tolerance is -1');
  });
});

describe('kappa', () => {
  checkTopic({
    topic: 'kappa',
    expected: { total: 5, computed: 1 },
    compute: ({ inputs }) => {
      const [[yesYes, yesNo], [noYes, noNo]] = inputs.table;
      return valueFrom(
        cohenKappa([
          ...Array(yesYes).fill(['y', 'y']),
          ...Array(yesNo).fill(['y', 'n']),
          ...Array(noYes).fill(['n', 'y']),
          ...Array(noNo).fill(['n', 'n']),
        ]),
      );
    },
    notComputed: { 'kappa-003': noData, 'kappa-004': noData, 'kappa-006': noData, 'kappa-010': noData },
  });

  test('Fleiss 1971, 30 patients, 6 raters: kappa 0.430 (Psychological Bulletin 76, p. 378; from memory)', () => {
    const kappa = valueFrom(fleissKappa(readRows('fleiss1971_30x6').map((row) => Object.values(row))));
    expect(kappa).toBeCloseTo(0.43, 3);
  });

  test('Fleiss 1971 as worked out in public: 10 subjects, 14 raters, 5 categories, kappa 0.210 (encyclopaedia article on the statistic; from memory)', () => {
    const counts = [
      [0, 0, 0, 0, 14],
      [0, 2, 6, 4, 2],
      [0, 0, 3, 5, 6],
      [0, 3, 9, 2, 0],
      [2, 2, 8, 1, 1],
      [7, 7, 0, 0, 0],
      [3, 2, 6, 3, 0],
      [2, 5, 3, 2, 2],
      [6, 5, 2, 1, 0],
      [0, 2, 2, 3, 7],
    ];
    const subjects = counts.map((row) =>
      row.flatMap((count, category) => Array(count).fill(String(category))),
    );
    expect(valueFrom(fleissKappa(subjects))).toBeCloseTo(0.21, 3);
  });

  test('Cohen, two raters, three diagnoses, 100 subjects: 0.68 (Fleiss, Statistical Methods for Rates and Proportions, 2nd edition, chapter 13; from memory)', () => {
    const table = [
      [75, 1, 4],
      [5, 4, 1],
      [0, 0, 10],
    ];
    const pairs = table.flatMap((row, one) =>
      row.flatMap((count, other) =>
        Array.from({ length: count }, () => [String(one), String(other)] as const),
      ),
    );
    expect(valueFrom(cohenKappa(pairs))).toBeCloseTo(0.68, 2);
  });

  test('a table by hand: 3 subjects, 2 ratings: observed 2/3, chance 1/2, kappa 1/3', () => {
    expect(
      valueFrom(
        fleissKappa([
          ['a', 'a'],
          ['b', 'b'],
          ['a', 'b'],
        ]),
      ),
    ).toBeCloseTo(1 / 3, 14);
  });

  test('full agreement is 1, names do not matter', () => {
    const rating = fc.constantFrom('a', 'b', 'c');
    fc.assert(
      fc.property(fc.array(fc.tuple(rating, rating), { minLength: 4, maxLength: 40 }), (pairs) => {
        const result = cohenKappa(pairs);
        fc.pre(result.ok);
        const swapped = valueFrom(cohenKappa(pairs.map(([a, b]) => [`z${b}`, `z${a}`] as const)));
        expect(swapped).toBeCloseTo(result.value, 12);
        expect(result.value).toBeLessThanOrEqual(1);
        const same = cohenKappa(pairs.map(([a]) => [a, a] as const));
        if (same.ok) expect(same.value).toBeCloseTo(1, 12);
      }),
      { seed },
    );
  });

  test('no kappa where all ratings are the same, where there are none, or where they are uneven', () => {
    expect(
      cohenKappa([
        ['a', 'a'],
        ['a', 'a'],
      ]),
    ).toMatchObject({ problem: 'no-spread' });
    expect(cohenKappa([])).toMatchObject({ problem: 'too-few-values' });
    expect(
      fleissKappa([
        ['a', 'a'],
        ['a', 'a'],
      ]),
    ).toMatchObject({ problem: 'no-spread' });
    expect(fleissKappa([['a']])).toMatchObject({ problem: 'too-few-values' });
    expect(fleissKappa([['a', 'b'], ['a']])).toMatchObject({ problem: 'unbalanced' });
  });
});

describe('attribute agreement', () => {
  const standard = new Map([
    ['1', 'good'],
    ['2', 'good'],
    ['3', 'bad'],
    ['4', 'bad'],
  ]);
  const rate = (inspector: string, ...trials: string[]) =>
    trials.flatMap((trial) =>
      [...trial].map((mark, i) => ({
        unit: String(i + 1),
        inspector,
        rating: mark === 'g' ? 'good' : 'bad',
      })),
    );
  const study = valueFrom(
    attributeAgreement([...rate('A', 'ggbb', 'ggbb'), ...rate('B', 'gbbg', 'ggbg')], {
      standard,
      rejectRating: 'bad',
    }),
  );

  test('counted by hand', () => {
    expect([study.units, study.trials]).toEqual([4, 2]);
    expect(study.allAgree).toMatchObject({ count: 2, of: 4, share: 0.5 });
    expect(study.allCorrect).toMatchObject({ count: 2, of: 4 });
    const [a, b] = study.inspectors;
    expect(a).toMatchObject({
      inspector: 'A',
      consistent: { count: 4 },
      withinKappa: { value: 1 },
      againstStandard: {
        effectiveness: { count: 4 },
        kappa: { value: 1 },
        misses: { count: 0, of: 4 },
        falseAlarms: { count: 0, of: 4 },
      },
    });
    // B: unit 2 changes, unit 4 missed twice. Against the standard: 5 of 8 agree, chance 1/2, kappa 1/4.
    expect(b).toMatchObject({
      consistent: { count: 3 },
      againstStandard: {
        effectiveness: { count: 2 },
        kappa: { value: 0.25 },
        misses: { count: 2, of: 4 },
        falseAlarms: { count: 1, of: 4 },
      },
    });
  });

  test('the limits are those of Clopper and Pearson: 4 of 4 at 95 % is from 0.025^(1/4)', () => {
    expect(study.inspectors[0]!.consistent.lower).toBeCloseTo(0.025 ** 0.25, 12);
  });

  test('without a standard there is agreement, but no effectiveness', () => {
    const plain = valueFrom(attributeAgreement(rate('A', 'ggbb', 'gbbb')));
    expect(plain.inspectors[0]!.againstStandard).toBeUndefined();
    expect(plain.allCorrect).toBeUndefined();
  });

  test('says why it cannot judge', () => {
    expect(attributeAgreement([])).toMatchObject({ problem: 'too-few-values' });
    expect(attributeAgreement([...rate('A', 'gg'), ...rate('B', 'g')])).toMatchObject({
      problem: 'unbalanced',
      reason: 'inspector B rated unit 2 0 times, not 1 times',
    });
    expect(attributeAgreement(rate('A', 'ggbbg'), { standard })).toMatchObject({
      reason: 'the standard does not name unit 5',
    });
    expect(() => attributeAgreement([], { confidence: 95 })).toThrow('confidence is 95');
  });
});

function gaugeRows(name: string): readonly GaugeReading[] {
  return readRows(name).map((row) => ({
    part: row.part!,
    operator: row.operator!,
    value: Number(row.value),
  }));
}

/** The gauge component of a study built so that its gauge and part variances are exactly these. */
function studyWith(gaugeVariance: number, partVariance: number, tolerance: number) {
  // Operators who do not differ leave repeatability alone: two repeats at +d and -d have mean square 2 d^2. Two
  // parts at +m and -m have variance 2 m^2.
  const d = Math.sqrt(gaugeVariance / 2);
  const m = Math.sqrt(partVariance / 2);
  const readings = [m, -m].flatMap((level) =>
    ['x', 'y'].flatMap((operator) =>
      [d, -d].map((e) => ({ part: String(level), operator, value: level + e })),
    ),
  );
  return valueFrom(gaugeStudy(readings, { tolerance, poolInteractionAbove: 1 })).components.gauge;
}
