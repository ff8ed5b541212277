import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readTable } from '../../src/records/table.ts';
import { andersonDarlingTest } from '../../src/statistics/anderson-darling.ts';
import { attributeAgreement } from '../../src/statistics/attribute-agreement.ts';
import type { Computed } from '../../src/statistics/data-problem.ts';
import { arithmeticMean, sampleStandardDeviation } from '../../src/statistics/descriptive.ts';
import { gaugeStudy } from '../../src/statistics/gauge-study.ts';
import { measurementBias } from '../../src/statistics/measurement-bias.ts';
import { nestedGaugeStudy } from '../../src/statistics/nested-gauge-study.ts';
import { normalToleranceInterval } from '../../src/statistics/tolerance-factor.ts';
import { bioburdenPlan } from './bioburden.ts';
import type { SamplePlan } from './exact-sample.ts';
import { generateAll } from './generate-data.ts';
import { biasPlan, nestedPlan } from './measurement-studies.ts';
import { gaugePlans, printedFigures, samplePlans } from './planned-figures.ts';

const content = new URL('../../content/', import.meta.url).pathname;
const files = generateAll();

// With PLINTH_WRITE=1 the files are written first, so that the tests below hold for what was written.
if (process.env['PLINTH_WRITE'] === '1')
  for (const [path, text] of files) {
    mkdirSync(dirname(content + path), { recursive: true });
    writeFileSync(content + path, text);
  }

const valueOf = <T>(result: Computed<T>): T => {
  if (!result.ok) throw new Error(result.reason);
  return result.value;
};

/** Text columns of a committed file by heading without unit. */
const columnsOf = (path: string): ReadonlyMap<string, readonly string[]> => {
  const outcome = readTable(path, readFileSync(content + path));
  if ('problem' in outcome) throw new Error(outcome.problem.message);
  return new Map(outcome.table.columns.map(({ name, cells }) => [name, cells.map((cell) => cell.text)]));
};

const column = (path: string, name: string): readonly string[] => {
  const cells = columnsOf(path).get(name);
  if (!cells) throw new Error(`${path} has no column ${name}`);
  return cells;
};

const perUnitMaximum = (path: string, name: string): readonly number[] => {
  const units = column(path, 'unit');
  const largest = new Map<string, number>();
  column(path, name).forEach((text, row) => {
    const unit = units[row] ?? '';
    largest.set(unit, Math.max(largest.get(unit) ?? Number.NEGATIVE_INFINITY, Number(text)));
  });
  return [...largest.values()];
};

describe('raw data of the demonstration device', () => {
  test.each([...files])('%s is what the generator writes', (path, text) => {
    expect(readFileSync(content + path, 'utf8')).toBe(text);
  });

  test('no other raw data lie in the technical file', () => {
    const present = ['verification', 'validation', 'test-methods', 'analyses', 'risks'].flatMap((folder) =>
      readdirSync(`${content}${folder}/data`).map((name) => `${folder}/data/${name}`),
    );
    expect(present.sort()).toEqual([...files.keys()].sort());
  });
});

/** Decimals in which the description prints mean and standard deviation. */
const printed = (value: number): number => String(value).split('.')[1]?.length ?? 0;

describe('printed figures, recomputed from the recorded readings', () => {
  test.each(printedFigures)('$file', ({ file, column: name, plan, perUnit, ...wanted }) => {
    const path = `verification/data/${file}.csv`;
    const values = perUnit ? perUnitMaximum(path, name) : column(path, name).map(Number);
    expect(values).toHaveLength(plan.count);
    expect(arithmeticMean(values).toFixed(printed(plan.mean))).toBe(plan.mean.toFixed(printed(plan.mean)));
    expect(sampleStandardDeviation(values).toFixed(printed(plan.standardDeviation))).toBe(
      plan.standardDeviation.toFixed(printed(plan.standardDeviation)),
    );
    const sides = wanted.lower && wanted.upper ? 'both' : wanted.lower ? 'lower' : 'upper';
    const interval = valueOf(
      normalToleranceInterval(values, { coverage: wanted.reliability, confidence: wanted.confidence, sides }),
    );
    expect(interval.lower?.toFixed(2)).toBe(wanted.lower);
    expect(interval.upper?.toFixed(2)).toBe(wanted.upper);
    expect(valueOf(andersonDarlingTest(values)).pValue).toBeGreaterThan(0.05);
  });

  test('aged squeeze force: 95/99 would give 25.40 N, above the limit of 25 N', () => {
    const values = perUnitMaximum('verification/data/VR-01A.csv', 'force');
    const { upper } = valueOf(
      normalToleranceInterval(values, { coverage: 0.99, confidence: 0.95, sides: 'upper' }),
    );
    expect(upper?.toFixed(2)).toBe('25.40');
  });

  test('no reading of the failed record lies below its limit of 30 N', () => {
    expect(Math.min(...column('verification/data/VR-09A.csv', 'force').map(Number))).toBeGreaterThan(30);
  });

  test.each([
    ['VR-02', 'span', samplePlans.openSpan],
    ['VR-02', 'travel', samplePlans.padTravel],
    ['VR-04', 'volume', samplePlans.totalVolume],
    ['VR-08', 'diameter', samplePlans.tipDiameter],
    ['VR-08', 'reach', samplePlans.reach],
    ['VR-19C', 'strength', samplePlans.sealStrengthFresh],
    ['VR-18', '10 µm and larger', samplePlans.particlesFrom10],
    ['VR-18', '25 µm and larger', samplePlans.particlesFrom25],
  ] as const)('%s, %s: planned mean and spread, normal', (file, name, plan: SamplePlan) => {
    const values = column(`verification/data/${file}.csv`, name).map(Number);
    expect(arithmeticMean(values)).toBeCloseTo(plan.mean, 9);
    expect(sampleStandardDeviation(values) / plan.standardDeviation).toBeCloseTo(1, 3);
    expect(valueOf(andersonDarlingTest(values)).pValue).toBeGreaterThan(0.05);
  });

  test.each([
    ['TM-01', gaugePlans.force, '14.2'],
    ['TM-02', gaugePlans.volume, '18.6'],
  ] as const)('%s: share of the tolerance', (file, { tolerance }, share) => {
    const path = `test-methods/data/${file}.csv`;
    const [parts, operators, values] = ['part', 'operator', 'reading'].map((name) => column(path, name));
    const study = valueOf(
      gaugeStudy(
        (values ?? []).map((text, row) => ({
          part: parts?.[row] ?? '',
          operator: operators?.[row] ?? '',
          value: Number(text),
        })),
        { tolerance },
      ),
    );
    expect([study.parts, study.operators, study.repeats]).toEqual([10, 3, 3]);
    expect(study.interactionPooled).toBe(true);
    expect(study.components.gauge.percentTolerance?.toFixed(1)).toBe(share);
  });

  test('TM-03: tips of five shots for each of three operators, two of each shot; 22.5 % of the tolerance', () => {
    const path = 'test-methods/data/TM-03.csv';
    const [parts, operators, values] = ['part', 'operator', 'reading'].map((name) => column(path, name));
    const study = valueOf(
      nestedGaugeStudy(
        (values ?? []).map((text, row) => ({
          part: parts?.[row] ?? '',
          operator: operators?.[row] ?? '',
          value: Number(text),
        })),
        { tolerance: 43.6 },
      ),
    );
    expect(values).toHaveLength(nestedPlan.operators.length * nestedPlan.parts * nestedPlan.pieces);
    expect(study.components.gauge.percentTolerance?.toFixed(1)).toBe('22.5');
  });

  test('TM-16: ten readings at each of five references, with the planned bias', () => {
    const path = 'test-methods/data/TM-16.csv';
    const references = column(path, 'reference').map(Number);
    const { references: found } = valueOf(
      measurementBias(
        column(path, 'reading').map((text, row) => ({
          value: Number(text),
          reference: references[row] ?? Number.NaN,
        })),
        0.95,
      ),
    );
    expect(found.map((each) => [each.reference, Number(each.bias.toFixed(9))])).toEqual(biasPlan);
    expect(found.every((each) => each.count === 10)).toBe(true);
  });

  test('VR-14B: mean 12 CFU, largest 31 CFU, lognormal', () => {
    const counts = column('verification/data/VR-14B.csv', 'bioburden').map(Number);
    expect(counts).toHaveLength(bioburdenPlan.count);
    expect(arithmeticMean(counts)).toBeCloseTo(bioburdenPlan.mean, 9);
    expect(Math.max(...counts)).toBe(bioburdenPlan.largest);
    expect(valueOf(andersonDarlingTest(counts.map(Math.log))).pValue).toBeGreaterThan(0.05);
  });

  test('VR-21 holds the largest force of each unit of VR-01 and VR-01A', () => {
    const forces = column('verification/data/VR-21.csv', 'force').map(Number);
    expect(forces).toEqual([
      ...perUnitMaximum('verification/data/VR-01.csv', 'force'),
      ...perUnitMaximum('verification/data/VR-01A.csv', 'force'),
    ]);
  });

  test.each([
    ['AN-21A', '2026-01-12 10:00', '2026-05-29 10:00'],
    ['AN-21B', '2026-05-30 10:00', '2026-10-14 10:00'],
  ])('%s: the log runs from %s to %s, 137 d, and never below 53 °C', (file, from, to) => {
    const path = `analyses/data/${file}.csv`;
    const times = column(path, 'time');
    expect([times[0], times.at(-1)]).toEqual([from, to]);
    expect(times).toHaveLength(137 * 12 + 1);
    expect(Math.min(...column(path, 'temperature').map(Number))).toBeGreaterThan(53);
  });

  test('TM-06: 3 inspectors, 50 parts of which 20 bad, 2 trials, no bad part passed', () => {
    const path = 'test-methods/data/TM-06.csv';
    const [parts, references, inspectors, calls] = ['part', 'reference', 'inspector', 'call'].map((name) =>
      column(path, name),
    );
    const standard = new Map((parts ?? []).map((part, row) => [part, references?.[row] ?? '']));
    const agreement = valueOf(
      attributeAgreement(
        (calls ?? []).map((rating, row) => ({
          unit: parts?.[row] ?? '',
          inspector: inspectors?.[row] ?? '',
          rating,
        })),
        { standard, rejectRating: 'fail' },
      ),
    );
    expect([agreement.units, agreement.inspectors.length, agreement.trials]).toEqual([50, 3, 2]);
    expect([...standard.values()].filter((reference) => reference === 'fail')).toHaveLength(20);
    for (const { againstStandard } of agreement.inspectors) {
      expect(againstStandard?.effectiveness.share).toBeGreaterThanOrEqual(0.9);
      expect(againstStandard?.misses?.count).toBe(0);
    }
  });
});
