import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { gaugeStudy } from '../../src/statistics/gauge-study.ts';
import { helmertContrasts } from '../../src/statistics/helmert-contrasts.ts';

test('of three readings, by the definition', () => {
  // (1 - 2) / sqrt 2 and (1 + 2 - 2 x 6) / sqrt 6.
  const [first, second] = helmertContrasts([[1, 2, 6], [4]]);
  expect(first).toBeCloseTo(-1 / Math.SQRT2, 12);
  expect(second).toBeCloseTo(-9 / Math.sqrt(6), 12);
});

test('hold the whole sum of squares within groups: AIAG data, repeatability of the analysis of variance', () => {
  // AIAG Measurement Systems Analysis, 4th ed.: 10 parts, 3 appraisers, 3 trials, 60 degrees of freedom.
  const readings = readFileSync(new URL('data/grr_aiag_10x3x3.csv', import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','))
    .map(([operator = '', part = '', , value]) => ({ operator, part, value: Number(value) }));
  const groups = new Map<string, number[]>();
  for (const { operator, part, value } of readings) {
    const key = `${operator} ${part}`;
    groups.set(key, [...(groups.get(key) ?? []), value]);
  }
  const contrasts = helmertContrasts([...groups.values()]);
  expect(contrasts).toHaveLength(60);
  const study = gaugeStudy(readings, {});
  if (!study.ok) throw new Error(study.reason);
  expect(contrasts.reduce((sum, each) => sum + each ** 2, 0)).toBeCloseTo(
    study.value.analysis.repeatability.sumOfSquares,
    10,
  );
});
