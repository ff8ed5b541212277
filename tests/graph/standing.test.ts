import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { assessApprovals } from '../../src/graph/approvals.ts';
import { assessStanding, type Verdict } from '../../src/graph/standing.ts';
import type { TraceGraph } from '../../src/graph/trace-graph.ts';
import type { StandingRule } from '../../src/records/schema-set.ts';
import { readSchemas } from '../../src/records/schema-set.ts';
import { processorMilliseconds } from '../support/processor-time.ts';
import { ownSchemas } from '../support/technical-file.ts';
import { chain, graphOf, type Node, typeOf } from './small-graphs.ts';

const own = readSchemas(ownSchemas).types;
const project = { device: { name: 'a', maker: 'b' } };

const standingOf = (nodes: readonly Node[], verdicts: Readonly<Record<string, Verdict>> = {}) => {
  const graph = graphOf(nodes, [...own.values()]);
  return assessStanding({ graph, approvals: assessApprovals(graph, project), verdict: (id) => verdicts[id] });
};

const need: Node = { id: 'UN-1', type: 'user-need' };
const input: Node = { id: 'DI-1', type: 'design-input', links: { derives_from: ['UN-1'] } };
const protocol: Node = { id: 'VP-1', type: 'verification-protocol', links: { verifies: ['DI-1'] } };
const result = (
  id: string,
  more: Partial<Node> & { retests?: readonly string[]; reports?: string } = {},
): Node => ({
  id,
  type: 'verification-record',
  status: 'approved',
  ...more,
  links: { reports: [more.reports ?? 'VP-1'], ...(more.retests ? { retests: more.retests } : {}) },
});

describe('the standing of a need', () => {
  const of = (nodes: readonly Node[], verdicts: Readonly<Record<string, Verdict>> = {}) =>
    standingOf([need, ...nodes], verdicts).get('UN-1');

  test.each<[string, readonly Node[], Readonly<Record<string, Verdict>>, string, readonly string[]]>([
    ['nothing answers it', [], {}, 'unplanned', ['UN-1']],
    ['its input has no protocol', [input], {}, 'unplanned', ['UN-1', 'DI-1']],
    ['its protocol has not been carried out', [input, protocol], {}, 'planned', ['UN-1', 'DI-1', 'VP-1']],
    [
      'the test passed',
      [input, protocol, result('VR-1')],
      { 'VR-1': 'pass' },
      'passed',
      ['UN-1', 'DI-1', 'VP-1', 'VR-1'],
    ],
    [
      'the test failed',
      [input, protocol, result('VR-1')],
      { 'VR-1': 'fail' },
      'failed',
      ['UN-1', 'DI-1', 'VP-1', 'VR-1'],
    ],
    [
      'the data do not decide',
      [input, protocol, result('VR-1')],
      { 'VR-1': 'undecided' },
      'in doubt',
      ['UN-1', 'DI-1', 'VP-1', 'VR-1'],
    ],
    [
      'one of two tests failed',
      [input, protocol, result('VR-1'), result('VR-2')],
      { 'VR-1': 'pass', 'VR-2': 'fail' },
      'failed',
      ['UN-1', 'DI-1', 'VP-1', 'VR-2'],
    ],
    [
      'a retest passed',
      [input, protocol, result('VR-1'), result('VR-2', { retests: ['VR-1'] })],
      { 'VR-1': 'fail', 'VR-2': 'pass' },
      'passed',
      ['UN-1', 'DI-1', 'VP-1', 'VR-2'],
    ],
    [
      'the record of the test is a draft',
      [input, protocol, result('VR-1', { status: 'draft' })],
      { 'VR-1': 'pass' },
      'planned',
      ['UN-1', 'DI-1', 'VP-1', 'VR-1'],
    ],
    [
      'a draft of a retest does not hide the failure',
      [input, protocol, result('VR-1'), result('VR-2', { retests: ['VR-1'], status: 'draft' })],
      { 'VR-1': 'fail', 'VR-2': 'pass' },
      'failed',
      ['UN-1', 'DI-1', 'VP-1', 'VR-1'],
    ],
    [
      'a retired record does not count',
      [input, protocol, result('VR-1', { status: 'retired' })],
      { 'VR-1': 'pass' },
      'planned',
      ['UN-1', 'DI-1', 'VP-1'],
    ],
    [
      'a retired retest does not hide the failure',
      [input, protocol, result('VR-1'), result('VR-2', { retests: ['VR-1'], status: 'retired' })],
      { 'VR-1': 'fail', 'VR-2': 'pass' },
      'failed',
      ['UN-1', 'DI-1', 'VP-1', 'VR-1'],
    ],
    [
      'a retest of another protocol does not hide the failure',
      [
        input,
        protocol,
        { ...protocol, id: 'VP-2' },
        result('VR-1'),
        result('VR-2', { retests: ['VR-1'], reports: 'VP-2' }),
      ],
      { 'VR-1': 'fail', 'VR-2': 'pass' },
      'failed',
      ['UN-1', 'DI-1', 'VP-1', 'VR-1'],
    ],
    [
      'records that retest each other hide nothing',
      [input, protocol, result('VR-1', { retests: ['VR-2'] }), result('VR-2', { retests: ['VR-1'] })],
      { 'VR-1': 'fail', 'VR-2': 'pass' },
      'failed',
      ['UN-1', 'DI-1', 'VP-1', 'VR-1'],
    ],
    [
      'a record that retests itself hides nothing',
      [input, protocol, result('VR-1', { retests: ['VR-1'] })],
      { 'VR-1': 'fail' },
      'failed',
      ['UN-1', 'DI-1', 'VP-1', 'VR-1'],
    ],
  ])('%s', (_, nodes, verdicts, state, because) => {
    expect(of(nodes, verdicts)).toMatchObject({ state, because });
  });

  test('rests on every result that counts: not on one that was repeated, retired or is for another need', () => {
    const nodes = [
      input,
      { ...input, id: 'DI-2', links: {} },
      protocol,
      { ...protocol, id: 'VP-2', links: { verifies: ['DI-2'] } },
      result('VR-10'),
      result('VR-2', { retests: ['VR-1'] }),
      result('VR-1'),
      result('VR-3', { status: 'retired' }),
      result('VR-4', { reports: 'VP-2' }),
    ];
    expect(of(nodes, { 'VR-1': 'fail', 'VR-2': 'pass', 'VR-10': 'pass' })?.results).toEqual([
      'VR-2',
      'VR-10',
    ]);
    // A draft hides nothing, so both count.
    expect(
      of([input, protocol, result('VR-1'), result('VR-2', { retests: ['VR-1'], status: 'draft' })])?.results,
    ).toEqual(['VR-1', 'VR-2']);
    expect(of([])?.results).toEqual([]);
  });

  test('is in doubt when something it rests on changed after its approval', () => {
    const stale = {
      ...protocol,
      fields: {
        approvals: [{ role: 'a', name: 'b', meaning: 'c', date: '2026-01-01', digest: '0'.repeat(64) }],
      },
    };
    expect(of([input, stale, result('VR-1')], { 'VR-1': 'pass' })).toMatchObject({
      state: 'in doubt',
      because: ['UN-1', 'DI-1', 'VP-1'],
      reason: 'VP-1 changed after VP-1 was approved',
    });
    expect(of([input, stale, result('VR-1')], { 'VR-1': 'fail' })?.state).toBe('failed');
  });
});

test('a passed record on which an error stands is in doubt, and so is what rests on it', () => {
  const nodes = [need, input, protocol, result('VR-1')];
  const graph = graphOf(nodes, [...own.values()]);
  const standing = assessStanding({
    graph,
    approvals: assessApprovals(graph, project),
    verdict: () => 'pass',
    doubts: new Map([['VP-1', 'an error stands on VP-1: acceptance-looser-than-input']]),
  });
  expect(standing.get('VR-1')?.state).toBe('passed');
  expect(standing.get('UN-1')).toMatchObject({
    state: 'in doubt',
    reason: 'an error stands on VP-1: acceptance-looser-than-input',
    because: ['UN-1', 'DI-1', 'VP-1'],
  });
});

/** The rules once more, as plainly as can be said: recursion over the links, a circle found by looking for a way back. */
const naively = (
  graph: TraceGraph,
  verdict: (id: string) => Verdict | undefined,
): ReadonlyMap<string, string> => {
  const order = ['failed', 'in doubt', 'unplanned', 'planned', 'passed'];
  const restsOn = (id: string): string[][] =>
    (graph.types.get(graph.record(id)?.type ?? '')?.standing?.shown_by ?? []).map((source) => {
      const near = [...graph.records.values()]
        .filter((other) => other.status !== 'retired' && source.types.includes(other.type))
        .map((other) => other.id)
        .filter((other) =>
          source.direction === 'in'
            ? graph.record(other)?.links.some((link) => link.field === source.link && link.to === id)
            : graph.record(id)?.links.some((link) => link.field === source.link && link.to === other),
        );
      if (source.need === 'all') return near;
      const last = near.filter(
        (other) =>
          !near.some(
            (later) =>
              later !== other &&
              graph.record(later)?.status === 'approved' &&
              graph.record(later)?.links.some((link) => link.field === 'retests' && link.to === other),
          ),
      );
      return last.length > 0 ? last : near;
    });
  const leadsTo = (from: string, to: string, seen = new Set<string>()): boolean =>
    restsOn(from)
      .flat()
      .some((next) => next === to || (!seen.has(next) && leadsTo(next, to, seen.add(next))));
  const stateOf = (id: string): string => {
    const rule = graph.types.get(graph.record(id)?.type ?? '')?.standing;
    if (!rule) return 'unplanned';
    const states: string[] = [];
    const passed = graph.record(id)?.status === 'approved' ? 'passed' : 'planned';
    if (rule.verdict)
      states.push(
        { pass: passed, fail: 'failed', undecided: 'in doubt', none: 'planned' }[verdict(id) ?? 'none'],
      );
    for (const [index, source] of (rule.shown_by ?? []).entries()) {
      const list = restsOn(id)[index] ?? [];
      if (list.length === 0 && !source.optional) states.push(source.pending ?? 'unplanned');
      for (const other of list)
        states.push(other === id || leadsTo(other, id) ? 'unplanned' : stateOf(other));
    }
    return order.find((state) => states.includes(state)) ?? 'unplanned';
  };
  return new Map(
    [...graph.records.values()]
      .filter((record) => graph.types.get(record.type)?.standing)
      .map((record) => [record.id, stateOf(record.id)]),
  );
};

describe('standing by the rules of schemas', () => {
  test('is what a second, plain implementation says', () => {
    const source = fc.record(
      {
        link: fc.constantFrom('p', 'q'),
        direction: fc.constantFrom('in' as const, 'out' as const),
        types: fc.subarray(['a', 'b', 'c'], { minLength: 1 }),
        need: fc.constantFrom('all' as const, 'latest' as const),
        optional: fc.boolean(),
        pending: fc.constantFrom('planned' as const, 'unplanned' as const),
      },
      { requiredKeys: ['link', 'direction', 'types', 'need'] },
    );
    const rule: fc.Arbitrary<StandingRule> = fc.record({
      verdict: fc.boolean(),
      shown_by: fc.array(source, { maxLength: 2 }),
    });
    const node = (index: number): fc.Arbitrary<Node> => {
      const targets = fc.subarray(['X-0', 'X-1', 'X-2', 'X-3', 'X-4', 'X-5']);
      return fc.record({
        id: fc.constant(`X-${index}`),
        type: fc.constantFrom('a', 'b', 'c', 'd'),
        status: fc.constantFrom('draft', 'approved', 'approved', 'retired'),
        links: fc.record({ p: targets, q: targets, retests: fc.subarray(['X-0', 'X-1', 'X-2']) }),
      });
    };
    const verdicts = fc.dictionary(
      fc.constantFrom('X-0', 'X-1', 'X-2', 'X-3', 'X-4', 'X-5'),
      fc.constantFrom<Verdict>('pass', 'fail', 'undecided'),
    );
    const seen = new Set<string>();
    fc.assert(
      fc.property(
        fc.tuple(rule, rule, rule),
        fc.tuple(...[0, 1, 2, 3, 4, 5].map(node)),
        verdicts,
        (rules, nodes, said) => {
          const graph = graphOf(
            nodes,
            ['a', 'b', 'c'].map((type, index) => typeOf(type, rules[index])),
          );
          const verdict = (id: string): Verdict | undefined =>
            Object.hasOwn(said, id) ? said[id] : undefined;
          const found = assessStanding({ graph, approvals: assessApprovals(graph, project), verdict });
          const states = new Map([...found].map(([id, { state }]) => [id, state]));
          for (const { state, because } of found.values()) {
            seen.add(state);
            expect(because.length).toBeGreaterThan(0);
          }
          expect(states).toEqual(naively(graph, verdict));
        },
      ),
      { seed: 20260727, numRuns: 1_000 },
    );
    expect([...seen].sort()).toEqual(['failed', 'in doubt', 'passed', 'planned', 'unplanned']);
  });

  test('takes a chain of 20,000 records', () => {
    const rule: StandingRule = {
      verdict: false,
      shown_by: [{ link: 'up', direction: 'out', types: ['n', 'end'], need: 'all' }],
    };
    const nodes = [...chain(20_000).slice(0, -1), { id: 'N-19999', type: 'end' }];
    const graph = graphOf(nodes, [typeOf('n', rule), typeOf('end', { verdict: true })]);
    const start = processorMilliseconds();
    const found = assessStanding({
      graph,
      approvals: assessApprovals(graph, project),
      verdict: () => 'fail',
    });
    expect(processorMilliseconds() - start).toBeLessThan(8_000);
    expect(found.get('N-0')?.state).toBe('failed');
    expect(found.get('N-0')?.because).toHaveLength(20_000);
    expect(found.get('N-0')?.because.at(-1)).toBe('N-19999');
  });
});
