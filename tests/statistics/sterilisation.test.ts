import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  doseEndotoxinLimit,
  extractEndotoxinLimit,
  maximumValidDilution,
} from '../../src/statistics/endotoxin.ts';
import { seededUniforms } from '../../src/statistics/seeded-generator.ts';
import {
  bioburdenLimit,
  decimalReductionTime,
  decimalReductionTimeBySpearmanKarber,
  decimalReductionTimeFromNegatives,
  demonstratedLogReduction,
  exposureForAssurance,
  sporeLogReduction,
  sterilityAssuranceLevel,
} from '../../src/statistics/sterilisation.ts';
import { expectRelative } from './reference-values.ts';

const seed = 20260613;
const population = fc.double({ min: 1, max: 1e8, noNaN: true });
const reduction = fc.double({ min: 0.1, max: 30, noNaN: true });

describe('decimal reduction', () => {
  test('a million brought to a sterility assurance level of one in a million is 12 powers of ten (ISO 11135, overkill)', () => {
    expect(exposureForAssurance({ population: 1e6, decimalReduction: 2.5, level: 1e-6 })).toBeCloseTo(30, 12);
    expect(sporeLogReduction({ exposure: 30, decimalReduction: 2.5 })).toBe(12);
    expectRelative(sterilityAssuranceLevel({ population: 1e6, logReduction: 12 }), 1e-6, 1e-12);
  });

  test('from a survivor curve: 10 minutes from 1e6 to 1e2 is D = 2.5', () => {
    expectRelative(decimalReductionTime({ exposure: 10, initial: 1e6, surviving: 100 }), 2.5, 1e-13);
  });

  test('from negatives: the most probable number is ln(n / r) (Lewis, Applied Microbiology 4, 1956, equation 3)', () => {
    // 100 replicates, 37 negative: ln(100 / 37) = 0.99425 survivors each, so D = 12 / (6 + 0.00250).
    const d = decimalReductionTimeFromNegatives({
      exposure: 12,
      initial: 1e6,
      replicates: 100,
      negative: 37,
    });
    expectRelative(d, 12 / (6 - Math.log10(0.9942522733438669)), 1e-12);
  });

  test('by Spearman and Karber: D = U / (log10 N0 + 0.2507) (ISO 11138-1, annex D)', () => {
    // Middles 15, 17, 19 with rises 0.25, 0.5, 0.25: U = 17.
    const steps = [
      { exposure: 14, replicates: 20, negative: 0 },
      { exposure: 16, replicates: 20, negative: 5 },
      { exposure: 18, replicates: 20, negative: 15 },
      { exposure: 20, replicates: 20, negative: 20 },
    ];
    const d = decimalReductionTimeBySpearmanKarber(steps, { initial: 2e6 });
    expect(Math.abs(d - 17 / (Math.log10(2e6) + 0.2507))).toBeLessThan(1e-4);
  });

  test('simulated survivors give D back by both ways, within their spread', () => {
    const uniform = seededUniforms(seed);
    const decimalReduction = 3;
    const initial = 1e6;
    const growth = (exposure: number) =>
      uniform() >= Math.exp(-initial * 10 ** (-exposure / decimalReduction));
    const steps = Array.from({ length: 22 }, (_, i) => 12 + i).map((exposure) => ({
      exposure,
      replicates: 2000,
      negative: Array.from({ length: 2000 }, () => growth(exposure)).filter((grows) => !grows).length,
    }));
    const spread = [
      { exposure: 11, replicates: 10, negative: 0 },
      ...steps,
      { exposure: 34, replicates: 10, negative: 10 },
    ];
    expect(
      Math.abs(decimalReductionTimeBySpearmanKarber(monotone(spread), { initial }) - decimalReduction),
    ).toBeLessThan(0.02);
    const middle = steps.find(({ negative }) => negative > 500 && negative < 1500)!;
    expect(
      Math.abs(decimalReductionTimeFromNegatives({ ...middle, initial }) - decimalReduction),
    ).toBeLessThan(0.03);
  });

  test('exposure, log reduction, level and bioburden are inverse', () => {
    fc.assert(
      fc.property(population, reduction, (bioburden, logReduction) => {
        const level = sterilityAssuranceLevel({ population: bioburden, logReduction });
        expectRelative(bioburdenLimit({ logReduction, level }), bioburden, 1e-9);
        const exposure = exposureForAssurance({ population: bioburden, decimalReduction: 2, level });
        expectRelative(sporeLogReduction({ exposure, decimalReduction: 2 }), logReduction, 1e-9);
      }),
      { seed },
    );
  });

  test('what is amiss is named', () => {
    expect(() => decimalReductionTime({ exposure: 10, initial: 100, surviving: 100 })).toThrow(
      'surviving is 100',
    );
    expect(() =>
      decimalReductionTimeFromNegatives({ exposure: 10, initial: 1e6, replicates: 20, negative: 20 }),
    ).toThrow('with no growth at all there is only a bound');
    expect(() =>
      decimalReductionTimeFromNegatives({ exposure: 10, initial: 1e6, replicates: 20, negative: 0 }),
    ).toThrow('negative is 0');
    const step = (exposure: number, negative: number) => ({ exposure, replicates: 4, negative });
    const of = (...steps: ReturnType<typeof step>[]) =>
      decimalReductionTimeBySpearmanKarber(steps, { initial: 1e6 });
    expect(() => of(step(1, 0))).toThrow('1 exposures');
    expect(() => of(step(1, 1), step(2, 4))).toThrow('1 replicates are negative at the first exposure');
    expect(() => of(step(1, 0), step(2, 3))).toThrow('1 replicates grow at the last exposure');
    expect(() => of(step(1, 0), step(2, 3), step(3, 2), step(4, 4))).toThrow(
      'share falls from exposure 2 to 3',
    );
    expect(() => of(step(2, 0), step(2, 4))).toThrow('exposure 2 does not lie above 2');
    expect(() => exposureForAssurance({ population: 0, decimalReduction: 1, level: 1e-6 })).toThrow(
      'population is 0',
    );
  });
});

describe('a half cycle without growth', () => {
  test('20 indicators of a million show 6.82 powers of ten with 95 % confidence, by hand', () => {
    // -ln 0.05 / 20 = 0.149787; log10(1e6 / 0.149787) = 6.82453.
    expect(demonstratedLogReduction({ population: 1e6, indicators: 20, confidence: 0.95 }).toFixed(4)).toBe(
      '6.8245',
    );
    // One indicator at the confidence at which one survivor is expected: 1 - 1/e.
    expectRelative(
      demonstratedLogReduction({ population: 1e6, indicators: 1, confidence: 1 - Math.exp(-1) }),
      6,
      1e-12,
    );
  });

  test('at the bound, no growth has the probability 1 - confidence: simulated with Poisson survivors', () => {
    const uniform = seededUniforms(seed + 1);
    const indicators = 10;
    const bound = demonstratedLogReduction({ population: 1e6, indicators, confidence: 0.9 });
    const perIndicator = Math.exp(-1e6 * 10 ** -bound);
    let none = 0;
    for (let run = 0; run < 20_000; run++)
      if (Array.from({ length: indicators }, uniform).every((draw) => draw < perIndicator)) none++;
    expect(Math.abs(none / 20_000 - 0.1)).toBeLessThan(0.01);
  });

  test('more indicators show more, more confidence less', () => {
    fc.assert(
      fc.property(
        population,
        fc.integer({ min: 1, max: 200 }),
        fc.double({ min: 0.5, max: 0.99, noNaN: true }),
        (count, indicators, confidence) => {
          const here = demonstratedLogReduction({ population: count, indicators, confidence });
          expect(
            demonstratedLogReduction({ population: count, indicators: indicators + 1, confidence }),
          ).toBeGreaterThanOrEqual(here);
          expect(
            demonstratedLogReduction({ population: count, indicators, confidence: confidence + 0.005 }),
          ).toBeLessThanOrEqual(here);
        },
      ),
      { seed },
    );
    expect(() => demonstratedLogReduction({ population: 1e6, indicators: 0, confidence: 0.9 })).toThrow(
      'indicators is 0',
    );
    expect(() => demonstratedLogReduction({ population: 1e6, indicators: 1, confidence: 1 })).toThrow(
      'confidence is 1',
    );
  });
});

describe('endotoxin limits', () => {
  test('USP <161>: 20 EU per device in 10 devices rinsed with 40 mL each is 0.5 EU/mL', () => {
    // FDA, Pyrogen and Endotoxins Testing: Questions and Answers (2012), question 11: 0.5 EU/mL or 20 EU/device.
    expect(extractEndotoxinLimit({ perDevice: 20, devices: 10, volume: 400 })).toBe(0.5);
    // There: 0.06 EU/mL or 2.15 EU/device in contact with cerebrospinal fluid; 2.15 / 40 = 0.054 is rounded up.
    expect(extractEndotoxinLimit({ perDevice: 2.15, devices: 10, volume: 400 }).toFixed(3)).toBe('0.054');
  });

  test('USP <85>: K / M and the maximum valid dilution', () => {
    // 5 EU for each kg over 10 mL for each kg: 0.5 EU/mL, the limit of infusions (from memory); at 0.03 EU/mL: 16.7 times.
    expect(doseEndotoxinLimit({ threshold: 5, dose: 10 })).toBe(0.5);
    expect(maximumValidDilution({ limit: 0.5, sensitivity: 0.03 }).toFixed(1)).toBe('16.7');
    expect(() => doseEndotoxinLimit({ threshold: 5, dose: 0 })).toThrow('dose is 0');
    expect(() => extractEndotoxinLimit({ perDevice: 20, devices: 0, volume: 1 })).toThrow('devices is 0');
    expect(() => maximumValidDilution({ limit: 0, sensitivity: 1 })).toThrow('limit is 0');
  });
});

/** Pools neighbours whose negative share falls by chance, as the standard asks for a rising one. */
function monotone<Step extends { readonly replicates: number; readonly negative: number }>(
  steps: readonly Step[],
): Step[] {
  let share = 0;
  return steps.map((step) => {
    share = Math.max(share, step.negative / step.replicates);
    return { ...step, negative: Math.round(share * step.replicates) };
  });
}
