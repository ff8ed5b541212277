import { describe, expect, test } from 'vitest';
import { calculated } from './calculated.ts';
import { csvOf, evaluated, normalReadings } from './test-run.ts';

describe('what could pass without ground', () => {
  test('a formula that bends over its tolerances is not judged by root-sum-square', () => {
    // x² - 2x has no slope at 1, so first-order propagation sees no spread; from 0.5 to 1.5 it lies between -1 and -0.75.
    const judged = (by: string) =>
      calculated(
        `kind: formula, formula: "x * x - 2 * x", variables: [{ name: x, output: DO-01, characteristic: gap }], judge_by: ${by}`,
        '{ characteristic: y, unit: "1", upper: -0.9 }',
        [['DO-01', '{ name: gap, nominal: 1.0, plus: 0.5, minus: 0.5, unit: "1" }']],
      );
    expect(judged('root-sum-square').verdict).toBe('undecided');
    expect(judged('root-sum-square').reason).toContain('bends too much');
    expect(judged('worst-case').verdict).toBe('fail');
  });

  test('a power whose interval is cut off by the range decides nothing', () => {
    // A narrow spread far from 0: any power makes such readings as normal as any other.
    const result = evaluated({
      acceptance: '{ characteristic: force, unit: N, lower: 30 }',
      sampling: 'kind: transformed-normal-tolerance-interval, confidence: 0.95, reliability: 0.9, size: 30',
      csv: csvOf(normalReadings(30, 50, 2).map((value) => value.toFixed(3))),
    });
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain('reaches an end of the range from -5 to 5');
  });

  test('lots whose means differ are put before people', () => {
    const lots = (shift: number) =>
      evaluated({
        acceptance: '{ characteristic: force, unit: N, lower: 30 }',
        sampling: 'kind: normal-tolerance-interval, confidence: 0.95, reliability: 0.9, size: 30',
        data: 'unit_id: unit\n  lot: lot',
        csv: `unit,lot,force [N]\n${[0, 1, 2]
          .flatMap((lot) =>
            normalReadings(10, 50 + lot * shift, 2).map(
              (value, index) => `L${lot}-${index},L${lot},${value.toFixed(3)}`,
            ),
          )
          .join('\n')}\n`,
      }).characteristics[0]?.assumptions.find((each) => each.name === 'lots alike');
    expect(lots(0)).toMatchObject({ outcome: 'met', detail: expect.stringContaining('p 1.000') });
    // Means 50, 52 and 54, standard deviation 2, ten each: F is 40 / 4 = 10, p 0.0006 at 2 and 27 degrees of freedom.
    expect(lots(2)).toMatchObject({
      outcome: 'to explain',
      detail: expect.stringContaining('p below 0.001'),
    });
  });
});
