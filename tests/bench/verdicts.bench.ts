import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { afterAll, describe, expect, test } from 'vitest';
import { normalToleranceIntervalMethod } from '../../src/evidence/methods/normal-tolerance-interval.ts';
import { weibullLowerBoundMethod } from '../../src/evidence/methods/weibull-lower-bound.ts';
import type { Readings, UnitReading } from '../../src/evidence/readings.ts';
import { arithmeticMean, sampleStandardDeviation } from '../../src/statistics/descriptive.ts';
import { seededExponentials } from '../../src/statistics/seeded-generator.ts';
import { oneSidedToleranceFactor, twoSidedToleranceFactor } from '../../src/statistics/tolerance-factor.ts';
import { seededNormals } from '../statistics/seeded-normals.ts';
import { projectRoot } from '../support/technical-file.ts';

const verdicts = 10_000;
const units = 30;

const normals = seededNormals(52);
const samples = Array.from({ length: verdicts }, () =>
  Array.from({ length: units }, () => 52 + 5.4 * normals()),
);
const readingsOf = (values: readonly number[]): Readings => ({
  list: values.map(
    (value, index): UnitReading => ({
      unit: `U${index}`,
      value,
      cell: { text: value.toFixed(2), line: index + 2, column: 1 },
    }),
  ),
  decimals: 2,
  findings: [],
});
const prepared = samples.map(readingsOf);

/** Milliseconds of the best of several runs: the others were disturbed by something else on the machine. */
const best = (run: () => unknown, runs = 3): number =>
  Math.min(
    ...Array.from({ length: runs }, () => {
      const start = performance.now();
      run();
      return performance.now() - start;
    }),
  );

const judge = (): number =>
  prepared.filter(
    (readings) =>
      normalToleranceIntervalMethod.evaluate({
        limits: { characteristic: 'force', unit: 'N', lower: 30 },
        sampling: {
          kind: 'normal-tolerance-interval',
          confidence: 0.95,
          reliability: 0.99,
          rationale: 'For speed.',
        },
        readings,
      }).verdict !== 'fail',
  ).length;

describe('verdicts of 30 readings', () => {
  test('10,000 normal tolerance verdicts, against computing only mean and standard deviation', () => {
    const floor = best(() =>
      samples.reduce((sum, values) => sum + arithmeticMean(values) + sampleStandardDeviation(values), 0),
    );
    expect(judge()).toBeGreaterThan(verdicts / 2);
    const time = best(judge);
    console.info(
      `${verdicts} verdicts: ${time.toFixed(0)} ms, ${(time / floor).toFixed(0)} times the floor of ${floor.toFixed(1)} ms`,
    );
    expect(time / floor).toBeLessThan(100);
    expect(time).toBeLessThan(5000);
  });
});

describe('verdicts of 30 strengths', () => {
  test('10,000 Weibull verdicts with test of fit and bound of reliability, against mean and standard deviation', () => {
    const exponential = seededExponentials(7);
    const strengths = Array.from({ length: verdicts }, () =>
      Array.from({ length: units }, () => 60 * exponential() ** (1 / 8)),
    );
    const floor = best(() =>
      strengths.reduce((sum, values) => sum + arithmeticMean(values) + sampleStandardDeviation(values), 0),
    );
    const read = strengths.map(readingsOf);
    const time = best(
      () =>
        read.map((readings) =>
          weibullLowerBoundMethod.evaluate({
            limits: { characteristic: 'force', unit: 'N', lower: 25 },
            sampling: {
              kind: 'weibull-lower-bound',
              confidence: 0.95,
              reliability: 0.95,
              rationale: 'For speed.',
            },
            readings,
          }),
        ),
      1,
    );
    console.info(
      `${verdicts} Weibull verdicts: ${time.toFixed(0)} ms, ${(time / floor).toFixed(0)} times the floor of ${floor.toFixed(1)} ms`,
    );
    expect(time).toBeLessThan(5000);
  });
});

describe('one exact tolerance factor', () => {
  const folder = mkdtempSync(join(tmpdir(), 'plinth-factor-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  /** Milliseconds of the first call in a process of its own, loading left out. */
  const firstCall = async (call: string): Promise<number> => {
    const outfile = join(folder, 'factor.mjs');
    await build({
      absWorkingDir: projectRoot,
      entryPoints: ['src/statistics/tolerance-factor.ts'],
      outfile,
      bundle: true,
      format: 'esm',
      platform: 'node',
      banner: {
        js: "import { createRequire as plinthRequire } from 'node:module'; const require = plinthRequire(import.meta.url);",
      },
    });
    const code = `import { oneSidedToleranceFactor, twoSidedToleranceFactor } from ${JSON.stringify(pathToFileURL(outfile).href)};
const start = performance.now(); ${call}; process.stdout.write(String(performance.now() - start));`;
    const times = Array.from({ length: 5 }, () => {
      const { status, stdout } = spawnSync(process.execPath, ['--input-type=module', '-e', code], {
        encoding: 'utf8',
      });
      expect(status).toBe(0);
      return Number(stdout);
    });
    return Math.min(...times);
  };

  test.each([
    ['one-sided', oneSidedToleranceFactor],
    ['two-sided', twoSidedToleranceFactor],
  ] as const)('%s: under 1 ms warm, under 20 ms at the first call', async (name, factor) => {
    // Factors are remembered by their arguments, so each call has a confidence of its own.
    let step = 0;
    const calls = 200;
    const some = (): void => {
      for (let call = 0; call < calls; call += 1) {
        step += 1;
        factor({ sampleSize: units, coverage: 0.99, confidence: 0.9 + step * 1e-6 });
      }
    };
    some();
    const warm = best(some) / calls;
    const values = samples[0] ?? [];
    const floor =
      best(() => {
        for (let call = 0; call < calls * 100; call += 1)
          arithmeticMean(values) + sampleStandardDeviation(values);
      }) /
      (calls * 100);
    const first = await firstCall(
      `${factor.name}({ sampleSize: ${units}, coverage: 0.99, confidence: 0.95 })`,
    );
    console.info(
      `${name} factor: ${warm.toFixed(3)} ms warm, ${(warm / floor).toFixed(0)} times mean and standard deviation; ${first.toFixed(1)} ms at the first call`,
    );
    expect(warm).toBeLessThan(1);
    expect(first).toBeLessThan(20);
  });
});
