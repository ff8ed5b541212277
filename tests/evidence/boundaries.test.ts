import { describe, expect, test } from 'vitest';
import { compareWithLimit } from '../../src/evidence/limit-comparison.ts';
import { conditionsOf, limitsUnderTest } from '../../src/evidence/limits-under-test.ts';
import {
  confidenceReliability,
  decimalsOf,
  decimalsThatTell,
  fixed,
  percent,
} from '../../src/evidence/number-text.ts';
import { residualRisk } from '../../src/evidence/residual-risk.ts';
import type { EvidenceResult } from '../../src/evidence/result.ts';
import { estimateRisk, type RiskCriteria } from '../../src/evidence/risk-estimate.ts';
import { countedSize, smallestPassingSize } from '../../src/evidence/sample-plan.ts';
import { statedResult } from '../../src/evidence/stated-result.ts';
import { assessApprovals } from '../../src/graph/approvals.ts';
import { recordDigest } from '../../src/graph/digest.ts';
import { verifiersOf } from '../../src/graph/verifiers.ts';
import type { PlinthFields } from '../../src/records/fields.ts';
import { graphOf, type Node, recordOf } from '../graph/small-graphs.ts';
import { csvOf, evaluated, normalReadings } from './test-run.ts';

const criteria: RiskCriteria = {
  severities: ['S1', 'S2'].map((each) => ({ class: each, name: each })),
  probability: { denominator: 'per use', bands: [{ band: 'O1', below: 1e-5 }, { band: 'O2' }] },
  acceptable: { S1: 'O2', S2: 'O1' },
};

describe('tests of normality', () => {
  const run = (readings: readonly number[]) =>
    evaluated({
      acceptance: '{ characteristic: force, unit: N, lower: 0 }',
      sampling: 'kind: normal-tolerance-interval, confidence: 0.9, reliability: 0.9',
      csv: csvOf(readings),
    });
  const detail = (readings: readonly number[]) => run(readings).characteristics[0]?.assumptions[0]?.detail;

  // From 8 on by Anderson and Darling: D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), table 4.9.
  test('from 8 units on; with fewer a test can only speak against, and its silence does not decide', () => {
    expect(detail(normalReadings(8, 50, 1))).toMatch(/^Anderson-Darling A² 0\.\d/);
    expect(detail(normalReadings(7, 50, 1))).toMatch(
      /^7 readings are too few, it takes 8; Shapiro-Wilk W 0\.9/,
    );
    for (const few of [3, 5, 7]) expect(run(normalReadings(few, 50, 0.001)).verdict).toBe('undecided');
    expect(run(normalReadings(8, 50, 0.001)).verdict).toBe('pass');
    const skewed = run([50, 50.01, 50.02, 50.01, 50, 58]).characteristics[0]?.assumptions[0];
    expect(skewed).toMatchObject({ outcome: 'not met', detail: expect.stringMatching(/^Shapiro-Wilk/) });
  });

  test('doubt at 5 per cent, not only at 1', () => {
    // A² 0.929297513 by scipy.stats.anderson (SciPy 1.17.1); A* = A² (1 + 0.75/n + 2.25/n²) = 0.96052 and
    // p = exp(1.2937 - 5.709 A* + 0.0186 A*²) = 0.0154 by D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), table 4.9.
    const result = run(
      Array.from({ length: 25 }, (_, k) => 500 + ((7919 * (k + 1) ** 2 + 104729 * (k + 1)) % 1009) / 10),
    );
    expect(result.characteristics[0]?.assumptions[0]).toEqual({
      name: 'normal distribution',
      outcome: 'not met',
      detail: 'Anderson-Darling A² 0.929, p 0.015',
    });
    expect(result).toMatchObject({ verdict: 'undecided', characteristics: [{ remedy: expect.any(String) }] });
  });
});

test('a probability that is a limit on paper is one for the tool', () => {
  // 0.000016 x 0.625 is 0.00001 on paper and 0.000009999999999999999 in binary fractions.
  expect(0.000016 * 0.625).toBeLessThan(0.00001);
  expect(estimateRisk('S2', { p1: 0.000016, p2: 0.625 }, criteria)).toMatchObject({
    probability: 0.00001,
    band: 'O2',
    acceptable: false,
  });
});

test('a limit written with thirteen digits is not missed by the conversion', () => {
  // 199.98 lbf x 4.4482216152605 N/lbf (NIST SP 811, appendix B.8) = 889.555358619795 N.
  const bounds = (unit: string, lower: number) => ({ characteristic: 'x', unit, lower });
  expect(compareWithLimit(bounds('[lbf_av]', 199.98), bounds('N', 889.5553586198)).kind).toBe(
    'same or stricter',
  );
  expect(compareWithLimit(bounds('[lbf_av]', 199.98), bounds('N', 889.5553587)).kind).toBe('looser');
});

describe('the risk that remains', () => {
  const project: PlinthFields = {
    device: { name: 'a', maker: 'b' },
    risk: criteria,
    approval_roles: { 'benefit-risk': ['quality lead'] },
  };
  const risk = (p1: number): Node => ({
    id: 'RK-1',
    type: 'risk',
    fields: { severity: 'S2', before: { p1: 1, p2: 1 }, after: { p1, p2: 1 } },
  });
  const decision = (more: Partial<Node> = {}, approvals?: readonly object[]): Node => {
    const node: Node = {
      id: 'BR-1',
      type: 'benefit-risk',
      status: 'approved',
      links: { decides: ['RK-1'] },
      ...more,
      fields: { decision: 'benefit outweighs risk', ...more.fields },
    };
    const own = { role: 'quality lead', name: 'Brede Falkonet', meaning: 'accepted', date: '2026-01-10' };
    const digests = {
      digest: recordDigest(recordOf(node), undefined),
      relies_on: { 'RK-1': recordDigest(recordOf(risk(0.1)), undefined) },
    };
    return { ...node, fields: { ...node.fields, approvals: approvals ?? [{ ...own, ...digests }] } };
  };
  const remaining = (p1: number, ...nodes: readonly Node[]) => {
    const graph = graphOf([risk(p1), ...nodes]);
    const record = graph.recordOf('risk', 'RK-1');
    if (!record) throw new Error('no risk');
    return residualRisk(record, graph, assessApprovals(graph, project), project);
  };
  const gap = (...nodes: readonly Node[]): string | undefined => {
    const found = remaining(0.1, ...nodes);
    return found.kind === 'not accepted' ? found.gaps.map((each) => each.gap).join('; ') : found.kind;
  };

  test('is acceptable by the criteria, whatever a decision says', () => {
    expect(remaining(1e-6).kind).toBe('acceptable');
    expect(remaining(1e-6, decision({ fields: { decision: 'risk outweighs benefit' } })).kind).toBe(
      'acceptable',
    );
    expect(remaining(0.1)).toMatchObject({ kind: 'not accepted', gaps: [] });
  });

  test('is accepted by a decision that is approved and still in force', () => {
    expect(remaining(0.1, decision())).toMatchObject({ kind: 'accepted by decision', decision: 'BR-1' });
  });

  test('is not accepted by anything less', () => {
    expect(gap(decision({ fields: { decision: 'risk outweighs benefit' } }))).toBe(
      'decides "risk outweighs benefit"',
    );
    expect(gap(decision({}, []))).toBe('lacks the approval of quality lead');
    expect(gap(decision({ status: 'in review' }))).toBe('has the status in review');
    expect(gap(decision({ status: 'retired' }))).toBe('');
    const stale = decision();
    expect(gap({ ...stale, body: 'Other reasons.' })).toBe('rests on an approval that has lapsed');
  });

  test('is not judged without criteria', () => {
    const graph = graphOf([risk(0.1)]);
    const record = graph.recordOf('risk', 'RK-1');
    const bare: PlinthFields = { device: { name: 'a', maker: 'b' } };
    expect(record && residualRisk(record, graph, assessApprovals(graph, bare), bare).kind).toBe(
      'not estimated',
    );
  });
});

describe('the limits under test', () => {
  const input: Node = {
    id: 'DI-1',
    type: 'design-input',
    fields: {
      limits: [
        { characteristic: 'Force', unit: 'N', upper: 25 },
        { characteristic: 'force', unit: 'N', upper: 30, conditions: ['aged', 'shipped'] },
        { characteristic: 'colour', criterion: 'white' },
      ],
    },
  };
  const uppers = (condition: string | undefined, more: Partial<Node> = {}, characteristic = ' FORCE ') => {
    const graph = graphOf([
      { ...input, ...more },
      {
        id: 'VP-1',
        type: condition === undefined ? 'validation-protocol' : 'verification-protocol',
        links: { verifies: ['DI-1'] },
        fields: {
          ...(condition ? { condition } : {}),
          acceptance: [{ characteristic, unit: 'N', upper: 20 }],
        },
      },
    ]);
    const [verifier] = verifiersOf(graph, 'DI-1');
    return verifier ? limitsUnderTest(graph, verifier).map(({ limit }) => limit.upper) : [];
  };

  test('are those for the condition of the protocol; fresh where none is named', () => {
    expect(conditionsOf({ characteristic: 'x' })).toEqual(['fresh']);
    expect(uppers('fresh')).toEqual([25]);
    expect(uppers('Aged ')).toEqual([30]);
  });

  test('are all of them where none is for the condition, and for studies with users', () => {
    expect(uppers('frozen')).toEqual([25, 30]);
    expect(uppers(undefined)).toEqual([25, 30]);
  });

  test('are none for another characteristic or a retired input', () => {
    expect(uppers('fresh', {}, 'torque')).toEqual([]);
    expect(uppers('fresh', { status: 'retired' })).toEqual([]);
  });
});

describe('what a plan counts', () => {
  const result = (method: string, sizes: readonly number[], more: Partial<EvidenceResult> = {}) =>
    ({
      method,
      unitCount: 12,
      findings: [],
      characteristics: sizes.map((sampleSize) => ({ sampleSize })),
      ...more,
    }) as unknown as EvidenceResult;

  test('are units, or the fewest results of a laboratory and items of a checklist', () => {
    expect(countedSize(result('attribute', [3]))).toBe(12);
    expect(countedSize(result('laboratory-maximum', [5, 3, 4]))).toBe(3);
    expect(countedSize(result('inspection-checklist', []))).toBeUndefined();
  });

  // Success run: ln(1 - C) / ln(R), rounded up; with one failure by the binomial distribution (public tables, see the tests of plans).
  test.each([
    ['success-run', 0.95, 0.95, undefined, 59],
    ['attribute', 0.95, 0.95, 0, 59],
    ['attribute', 0.95, 0.9, 1, 46],
    ['success-run', 0.95, 0.99, undefined, 299],
  ])('%s %s/%s with %s accepted needs %s', (kind, confidence, reliability, accept, expected) => {
    const plan = {
      kind,
      confidence,
      reliability,
      rationale: 'x',
      ...(accept === undefined ? {} : { accept }),
    };
    expect(smallestPassingSize(plan)).toBe(expected);
  });

  test('is not told by methods that have no smallest size', () => {
    expect(
      smallestPassingSize({ kind: 'all-units', confidence: 0.9, reliability: 0.9, rationale: 'x' }),
    ).toBe(undefined);
    expect(smallestPassingSize({ kind: 'success-run', rationale: 'x' })).toBeUndefined();
  });
});

test('the stated result of a retired record counts no more', () => {
  const evidence = { record: 'VR-1' } as EvidenceResult;
  const node: Node = { id: 'VR-1', type: 'verification-record', fields: { result: 'pass' } };
  expect(statedResult(graphOf([node]), evidence)).toMatchObject({ result: 'pass', path: ['result'] });
  expect(statedResult(graphOf([{ ...node, status: 'retired' }]), evidence)).toBeUndefined();
  const method: Node = { id: 'VR-1', type: 'test-method', fields: { study: { result: 'fail' } } };
  expect(statedResult(graphOf([method]), evidence)).toMatchObject({
    result: 'fail',
    path: ['study', 'result'],
  });
});

describe('numbers in reports', () => {
  test.each([
    [29.98, 30, 1, 2],
    [29.98, 31, 1, 1],
    [30, 30, 1, 1],
    [29.9999999999, 30, 1, 7],
    [5, undefined, 0, 0],
  ])('%s against %s with %s decimals takes %s', (value, limit, decimals, expected) => {
    expect(decimalsThatTell(value, limit, decimals)).toBe(expected);
  });

  test.each([
    [-0.001, 2, '0.00'],
    [1.5e9, 2, '1.50 × 10⁹'],
    [1e-9, 2, '1.00 × 10⁻⁹'],
    [Number.NaN, 2, 'not a number'],
    [Number.POSITIVE_INFINITY, 2, 'not a number'],
    [12.5, 0, '13'],
  ])('%s with %s decimals is %s', (value, decimals, expected) => {
    expect(fixed(value, decimals)).toBe(expected);
  });

  test('keep the decimals of the readings, and short names of plans', () => {
    expect(['19.60', '5', '1,25', '1e3', '.5'].map(decimalsOf)).toEqual([2, 0, 2, 0, 1]);
    expect(percent(0.0495, 2)).toBe('4.95 %');
    expect(confidenceReliability(0.95, 0.999)).toBe('95/99.9');
    expect(confidenceReliability(0.29, 0.57)).toBe('29/57');
  });
});
