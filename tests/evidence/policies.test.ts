import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compareWithLimit } from '../../src/evidence/limit-comparison.ts';
import { combineVerdicts } from '../../src/evidence/result.ts';
import { estimateRisk, probabilityBand, type RiskCriteria } from '../../src/evidence/risk-estimate.ts';
import { requiredByPolicy } from '../../src/evidence/sampling-policy.ts';
import type { PlinthFields } from '../../src/records/fields.ts';
import { graphOf, type Node } from '../graph/small-graphs.ts';

/** The criteria of the demonstration file (invented). */
const criteria: RiskCriteria = {
  severities: ['S1', 'S2', 'S3', 'S4', 'S5'].map((each) => ({ class: each, name: each })),
  probability: {
    denominator: 'per use',
    bands: [
      { band: 'O1', below: 1e-6 },
      { band: 'O2', below: 1e-5 },
      { band: 'O3', below: 1e-4 },
      { band: 'O4', below: 1e-3 },
      { band: 'O5' },
    ],
  },
  acceptable: { S1: 'O5', S2: 'O4', S3: 'O2', S4: 'O1', S5: 'O1' },
};

describe('bands of probability', () => {
  test.each([
    [0, 'O1'],
    [9.99e-7, 'O1'],
    [1e-6, 'O2'],
    [1e-5, 'O3'],
    [1e-4, 'O4'],
    [1e-3, 'O5'],
    [1, 'O5'],
  ])('%s lies in %s: each band holds its lower end', (probability, band) => {
    expect(probabilityBand(probability, criteria)).toBe(band);
  });

  test('hold every probability exactly once', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.double({ min: 1e-9, max: 0.999, noNaN: true }), { maxLength: 6 }),
        fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.integer({ min: 0, max: 5 })),
        (ends, pick) => {
          const sorted = [...ends].sort((a, b) => a - b);
          const bands = [
            ...sorted.map((below, index) => ({ band: `B${index}`, below })),
            { band: `B${sorted.length}` },
          ];
          const probability = Number.isInteger(pick) ? (sorted[pick] ?? 1) : pick;
          const found = probabilityBand(probability, {
            ...criteria,
            probability: { denominator: 'x', bands },
          });
          const holding = bands.filter(
            (_, index) =>
              probability >= (sorted[index - 1] ?? 0) &&
              probability < (sorted[index] ?? Number.POSITIVE_INFINITY),
          );
          expect(holding.map((band) => band.band)).toEqual([found]);
        },
      ),
      { seed: 20260727, numRuns: 1_000 },
    );
  });

  // P1 and P2 of the demonstration file, with the bands worked out by hand.
  test.each([
    ['S4', 1e-3, 2e-2, 'O3', false],
    ['S4', 1e-5, 2e-2, 'O1', true],
    ['S3', 1e-2, 2e-2, 'O4', false],
    ['S3', 4e-4, 2e-2, 'O2', true],
    ['S2', 2e-2, 1e-1, 'O5', false],
    ['S2', 2e-3, 1e-1, 'O4', true],
    ['S5', 2e-4, 1e-2, 'O2', false],
    ['S2', 2e-2, 1e-3, 'O3', true],
    ['S3', 1e-3, 1e-2, 'O3', false],
    ['S1', 1, 1, 'O5', true],
  ])('%s with P1 %s and P2 %s: %s, acceptable %s', (severity, p1, p2, band, acceptable) => {
    expect(estimateRisk(severity, { p1, p2 }, criteria)).toMatchObject({ band, acceptable });
  });

  test.each(['S9', 'constructor', '__proto__', 'toString', ''])(
    'a severity that the plan does not have is not judged: %s',
    (severity) => {
      expect(estimateRisk(severity, { p1: 1e-9, p2: 1e-9 }, criteria)).toBeUndefined();
    },
  );
});

describe('the sampling policy', () => {
  const project: PlinthFields = {
    device: { name: 'a', maker: 'b' },
    risk: criteria,
    sampling_policy: [
      { severity: 'S1', confidence: 0.95, reliability: 0.9 },
      { severity: 'S2', confidence: 0.95, reliability: 0.9 },
      { severity: 'S3', confidence: 0.95, reliability: 0.95 },
      { severity: 'S4', confidence: 0.95, reliability: 0.99 },
      { severity: 'S5', confidence: 0.95, reliability: 0.99 },
    ],
  };
  const risk = (id: string, severity: string, status = 'draft'): Node => ({
    id,
    type: 'risk',
    status,
    fields: { severity },
  });
  const control = (
    id: string,
    risks: readonly string[],
    more: Readonly<Record<string, readonly string[]>> = {},
    status = 'draft',
  ): Node => ({
    id,
    type: 'risk-control',
    status,
    links: { controls: risks, ...more },
  });
  const input = (from: readonly string[]): Node => ({
    id: 'DI-1',
    type: 'design-input',
    links: { derives_from: from },
  });
  const asked = (...nodes: readonly Node[]) => requiredByPolicy(graphOf(nodes), project, 'DI-1');

  test('asks for the first entry where no risk is linked', () => {
    expect(asked(input([]))).toEqual({ severity: 'S1', confidence: 0.95, reliability: 0.9, path: ['DI-1'] });
    expect(requiredByPolicy(graphOf([input([])]), { device: project.device }, 'DI-1')).toBeUndefined();
  });

  test('takes the most severe risk, and shows the way to it', () => {
    expect(asked(input(['RK-1', 'RK-2']), risk('RK-1', 'S3'), risk('RK-2', 'S2'))).toMatchObject({
      severity: 'S3',
      risk: 'RK-1',
      path: ['RK-1', 'DI-1'],
    });
    expect(
      asked(input(['RC-1', 'RK-2']), control('RC-1', ['RK-1']), risk('RK-1', 'S4'), risk('RK-2', 'S3')),
    ).toMatchObject({
      severity: 'S4',
      reliability: 0.99,
      path: ['RK-1', 'RC-1', 'DI-1'],
    });
    expect(
      asked(input([]), control('RC-1', ['RK-1'], { implemented_by: ['DI-1'] }), risk('RK-1', 'S5')),
    ).toMatchObject({
      severity: 'S5',
      path: ['RK-1', 'RC-1', 'DI-1'],
    });
    expect(
      asked(
        input([]),
        { id: 'VP-1', type: 'verification-protocol', links: { verifies: ['DI-1'] } },
        control('RC-1', ['RK-1'], { shown_by: ['VP-1'] }),
        risk('RK-1', 'S4'),
      ),
    ).toMatchObject({ severity: 'S4', path: ['RK-1', 'RC-1', 'VP-1', 'DI-1'] });
  });

  test('does not count what is retired', () => {
    expect(asked(input(['RK-1']), risk('RK-1', 'S5', 'retired'))?.severity).toBe('S1');
    expect(
      asked(input(['RC-1']), control('RC-1', ['RK-1'], {}, 'retired'), risk('RK-1', 'S5'))?.severity,
    ).toBe('S1');
    expect(
      asked(
        input([]),
        { id: 'VP-1', type: 'verification-protocol', status: 'retired', links: { verifies: ['DI-1'] } },
        control('RC-1', ['RK-1'], { shown_by: ['VP-1'] }),
        risk('RK-1', 'S4'),
      )?.severity,
    ).toBe('S1');
  });
});

describe('acceptance against a limit', () => {
  const bounds = (unit: string, lower?: number, upper?: number) => ({
    characteristic: 'x',
    unit,
    ...(lower === undefined ? {} : { lower }),
    ...(upper === undefined ? {} : { upper }),
  });

  test.each([
    [bounds('N', 30), bounds('N', 30), 'same or stricter'],
    [bounds('N', 31), bounds('N', 30), 'same or stricter'],
    [bounds('N', 29.99), bounds('N', 30), 'looser'],
    [bounds('N', undefined, 40), bounds('N', 30), 'looser'],
    [bounds('N', 30, 40), bounds('N', 30), 'same or stricter'],
    [bounds('kN', 0.03), bounds('N', 30), 'same or stricter'],
    [bounds('kN', 0.0299), bounds('N', 30), 'looser'],
    [bounds('[lbf_av]', 6.75), bounds('N', 30), 'same or stricter'],
    [bounds('[lbf_av]', 6.74), bounds('N', 30), 'looser'],
    [bounds('°C', 10, 30), bounds('K', 283.15, 303.15), 'same or stricter'],
    [bounds('°C', 10, 30.1), bounds('K', 283.15, 303.15), 'looser'],
    [bounds('µm', undefined, 50), bounds('mm', undefined, 0.05), 'same or stricter'],
    [bounds('mm', 30), bounds('N', 30), 'not convertible'],
    [bounds('EU', undefined, 20), bounds('CFU', undefined, 20), 'not convertible'],
  ])('%j for %j: %s', (acceptance, limit, kind) => {
    expect(compareWithLimit(acceptance, limit).kind).toBe(kind);
  });
});

test('verdicts together are as weak as the weakest; nothing is no pass', () => {
  expect(combineVerdicts([])).toBe('undecided');
  expect(combineVerdicts(['pass', 'pass'])).toBe('pass');
  expect(combineVerdicts(['pass', 'undecided'])).toBe('undecided');
  expect(combineVerdicts(['undecided', 'fail', 'pass'])).toBe('fail');
});
