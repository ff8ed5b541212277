import { describe, expect, test } from 'vitest';
import { criteriaFaults } from '../../src/evidence/risk-criteria-faults.ts';
import { requiredByPolicy } from '../../src/evidence/sampling-policy.ts';
import type { PlinthFields } from '../../src/records/fields.ts';
import { graphOf } from '../graph/small-graphs.ts';

type Risk = NonNullable<PlinthFields['risk']>;
type Policy = NonNullable<PlinthFields['sampling_policy']>;

const risk: Risk = {
  severities: ['S1', 'S2', 'S3'].map((name) => ({ class: name, name })),
  probability: { denominator: 'per use', bands: [{ band: 'O1', below: 0.001 }, { band: 'O2' }] },
  acceptable: { S1: 'O2', S2: 'O1', S3: 'O1' },
};
const entry = (severity: string, reliability: number): Policy[number] => ({
  severity,
  confidence: 0.95,
  reliability,
});
const policy: Policy = [entry('S1', 0.9), entry('S2', 0.95), entry('S3', 0.99)];

const said = (more: Partial<Risk> = {}, asked: Policy = policy): readonly string[] =>
  criteriaFaults({
    device: { name: 'a', maker: 'b' },
    risk: { ...risk, ...more },
    ...(asked.length > 0 ? { sampling_policy: asked } : {}),
  }).map(({ path, message, hint }) => {
    expect(hint).toBeTruthy();
    return `${path.join('.')}: ${message}`;
  });

const bands = (...ends: readonly (number | undefined)[]): Partial<Risk> => ({
  probability: {
    denominator: 'per use',
    bands: ends.map((below, index) => ({ band: `O${index + 1}`, ...(below === undefined ? {} : { below }) })),
  },
});

describe('risk criteria', () => {
  test('that are complete have no fault, with or without a sampling policy', () => {
    expect(said()).toEqual([]);
    expect(said({}, [])).toEqual([]);
    expect(criteriaFaults({ device: { name: 'a', maker: 'b' } })).toEqual([]);
  });

  test.each<[string, Partial<Risk>, Policy, readonly string[]]>([
    [
      'bands that fall',
      bands(0.001, 0.0001, undefined),
      policy,
      ['risk.probability.bands.1.below: the band O2 ends at 0.0001, not above 0.001, where O1 ends'],
    ],
    [
      'bands of no width',
      bands(0.001, 0.001, undefined),
      policy,
      ['risk.probability.bands.1.below: the band O2 ends at 0.001, not above 0.001, where O1 ends'],
    ],
    [
      'no open end',
      bands(0.001, 0.01),
      policy,
      [
        'risk.probability.bands.1.below: the last band O2 ends at 0.01, so greater probabilities lie in no band',
      ],
    ],
    [
      'an open band in the middle',
      bands(undefined, undefined),
      policy,
      ['risk.probability.bands.0: the band O1 has no end, but O2 follows it'],
    ],
    [
      'a severity without a limit',
      { acceptable: { S1: 'O2', S2: 'O1' } },
      policy,
      ['risk.acceptable: the severity S3 has no entry under acceptable, so its risks cannot be judged'],
    ],
    [
      'a limit for no severity, up to no band',
      { acceptable: { ...risk.acceptable, S3: 'O9', S4: 'O1' } },
      policy,
      [
        'risk.acceptable.S3: acceptable names the unknown band O9 for S3',
        'risk.acceptable.S4: acceptable names the unknown severity S4',
      ],
    ],
    [
      'a severity twice',
      { severities: [...risk.severities, { class: 'S2', name: 'again' }] },
      policy,
      ['risk.severities.3.class: the severity class S2 stands twice'],
    ],
    [
      'a policy for another severity',
      {},
      [...policy, entry('S33', 0.9)],
      ['sampling_policy.3.severity: the sampling policy names the unknown severity S33'],
    ],
    [
      'a policy that leaves out the gravest',
      {},
      policy.slice(0, 2),
      ['sampling_policy: the sampling policy has no entry for the severity S3'],
    ],
    [
      'a policy with two entries for one',
      {},
      [...policy, entry('S3', 0.9)],
      ['sampling_policy.3.severity: the severity S3 stands twice in the sampling policy'],
    ],
  ])('%s', (_, more, asked, expected) => {
    expect(said(more, asked)).toEqual(expected);
  });
});

describe('a sampling policy with a gap', () => {
  const asked = (severity: string, given: Policy) =>
    requiredByPolicy(
      graphOf([
        { id: 'DI-1', type: 'design-input', links: { derives_from: ['RK-1'] } },
        { id: 'RK-1', type: 'risk', fields: { severity } },
      ]),
      { device: { name: 'a', maker: 'b' }, risk, sampling_policy: given },
      'DI-1',
    );

  test('never asks less for a graver harm', () => {
    expect(asked('S2', [entry('S1', 0.9), entry('S3', 0.99)])).toMatchObject({
      severity: 'S2',
      reliability: 0.99,
      risk: 'RK-1',
    });
    expect(asked('S3', [entry('S1', 0.9), entry('S2', 0.95)])).toMatchObject({
      severity: 'S3',
      reliability: 0.95,
      path: ['RK-1', 'DI-1'],
    });
  });

  test('does not depend on the order of its entries', () => {
    expect(asked('S3', [entry('S2', 0.95), entry('S1', 0.9)])).toMatchObject({ reliability: 0.95 });
  });

  test('cannot place a severity that the criteria do not have: the first entry holds, a check names the risk', () => {
    expect(asked('S9', policy)).toEqual({ ...entry('S1', 0.9), path: ['DI-1'] });
  });
});
