import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findCycles } from '../../src/graph/cycles.ts';
import { reach } from '../../src/graph/reach.ts';
import { strongComponents } from '../../src/graph/strong-components.ts';
import { compareIds } from '../../src/graph/trace-graph.ts';
import { processorMilliseconds } from '../support/processor-time.ts';
import { chain, graphOf, type Node } from './small-graphs.ts';

describe('the order of ids', () => {
  test('is that of people who count', () => {
    const ids = [
      'DI-10',
      'DI-2',
      'VP-09A',
      'VP-09',
      'DI-',
      'DI-0',
      'VP-9',
      'AN-1',
      'DI-2.10',
      'DI-2.9',
      'DI',
    ];
    expect([...ids].sort(compareIds)).toEqual([
      'AN-1',
      'DI',
      'DI-',
      'DI-0',
      'DI-2',
      'DI-2.9',
      'DI-2.10',
      'DI-10',
      'VP-09',
      'VP-9',
      'VP-09A',
    ]);
  });

  test('is a total order', () => {
    const id = fc.oneof(
      fc.string({ unit: fc.constantFrom('A', 'B', '-', '.', '0', '1', '9'), maxLength: 6 }),
      fc.constantFrom(
        'A-9007199254740993',
        'A-9007199254740992',
        `A-${'9'.repeat(400)}`,
        `A-${'9'.repeat(401)}`,
      ),
    );
    fc.assert(
      fc.property(id, id, id, (a, b, c) => {
        expect(Math.sign(compareIds(a, b))).toBe(0 - Math.sign(compareIds(b, a)));
        expect(compareIds(a, b) === 0).toBe(a === b);
        if (compareIds(a, b) <= 0 && compareIds(b, c) <= 0) expect(compareIds(a, c)).toBeLessThanOrEqual(0);
      }),
      { seed: 20260727, numRuns: 5_000 },
    );
  });
});

describe('links', () => {
  const graph = graphOf([
    { id: 'DI-2', type: 'design-input', links: { derives_from: ['UN-1', 'UN-9'] } },
    { id: 'DI-1', type: 'design-input', status: 'retired', links: { derives_from: ['UN-1'] } },
    { id: 'UN-1', type: 'user-need' },
  ]);

  test('are read from both ends, in order of id', () => {
    expect(graph.linksFrom('DI-2', 'derives_from').map((link) => link.to)).toEqual(['UN-1']);
    expect(graph.linksTo('UN-1').map((link) => link.from)).toEqual(['DI-1', 'DI-2']);
    expect(graph.linksTo('UN-1', 'verifies')).toEqual([]);
    expect(graph.sources('UN-1', 'derives_from', 'design-input').map((record) => record.id)).toEqual([
      'DI-2',
    ]);
    expect(graph.targets('DI-2', 'derives_from', 'user-need').map((record) => record.id)).toEqual(['UN-1']);
    expect(graph.recordsOf('design-input').map((record) => record.id)).toEqual(['DI-1', 'DI-2']);
  });

  test('that lead nowhere are set apart', () => {
    expect(graph.dangling.map((link) => link.to)).toEqual(['UN-9']);
    expect(graph.linksFrom('nothing')).toEqual([]);
  });
});

const up = new Set(['up']);
const nodes = (links: Readonly<Record<string, readonly string[]>>): readonly Node[] =>
  Object.entries(links).map(([id, targets]) => ({ id, type: 'n', links: { up: targets } }));

describe('circles', () => {
  test.each([
    ['none', { A: ['B'], B: [] }, []],
    ['a record that links itself', { A: ['A'] }, [['A']]],
    ['two records', { A: ['B'], B: ['A'] }, [['A', 'B']]],
    ['the shortest way round', { A: ['B', 'C'], B: ['C'], C: ['D'], D: ['A'] }, [['A', 'C', 'D']]],
    [
      'two circles, one before the other',
      { A: ['B'], B: ['A', 'C'], C: ['D'], D: ['C'] },
      [
        ['A', 'B'],
        ['C', 'D'],
      ],
    ],
    ['a record on the way into a circle is not part of it', { A: ['B'], B: ['C'], C: ['B'] }, [['B', 'C']]],
  ])('%s', (_, links, expected) => {
    expect(findCycles(graphOf(nodes(links)), up)).toEqual(expected);
  });

  test('of other links are none', () => {
    expect(findCycles(graphOf(nodes({ A: ['A'] })), new Set(['down']))).toEqual([]);
  });

  test('groups are those that reach each other, and come after what they lead to', () => {
    const links = fc.array(fc.tuple(fc.nat(6), fc.nat(6)), { maxLength: 14 });
    fc.assert(
      fc.property(links, (pairs) => {
        const names = ['0', '1', '2', '3', '4', '5', '6'];
        const next = (id: string): string[] =>
          pairs.filter(([from]) => String(from) === id).map(([, to]) => String(to));
        const reached = (from: string): Set<string> => {
          const seen = new Set<string>([from]);
          for (const id of seen) for (const to of next(id)) seen.add(to);
          return seen;
        };
        const groups = strongComponents(names, next);
        expect(groups.flat().sort()).toEqual(names);
        for (const [index, group] of groups.entries()) {
          const one = group[0] as string;
          const naive = names.filter((id) => reached(one).has(id) && reached(id).has(one));
          expect([...group].sort()).toEqual(naive);
          const earlier = new Set(groups.slice(0, index + 1).flat());
          for (const id of group) for (const to of next(id)) expect(earlier.has(to)).toBe(true);
        }
      }),
      { seed: 20260727, numRuns: 500 },
    );
  });

  test('are looked for in a chain of 20,000 records in no time', () => {
    const graph = graphOf(chain(20_000));
    const start = processorMilliseconds();
    expect(findCycles(graph, up)).toEqual([]);
    expect(processorMilliseconds() - start).toBeLessThan(3_000);
    const ring = graphOf([
      ...chain(20_000).slice(0, -1),
      { id: 'N-19999', type: 'n', links: { up: ['N-0'] } },
    ]);
    expect(findCycles(ring, up)[0]).toHaveLength(20_000);
    expect(processorMilliseconds() - start).toBeLessThan(6_000);
  });
});

describe('reach', () => {
  const graph = graphOf(nodes({ A: ['B', 'C'], B: ['D'], C: ['D'], D: ['A'], E: ['A'] }));
  const path = (ids: ReturnType<typeof reach>, id: string): string[] =>
    ids.pathTo(id).map((link) => `${link.from}>${link.to}`);

  test('goes up and down by shortest paths', () => {
    const upward = reach(graph, 'A', 'up');
    expect(upward.ids).toEqual(['B', 'C', 'D']);
    expect(path(upward, 'D')).toEqual(['A>B', 'B>D']);
    const downward = reach(graph, 'D', 'down');
    expect(downward.ids).toEqual(['B', 'C', 'A', 'E']);
    expect(path(downward, 'E')).toEqual(['B>D', 'A>B', 'E>A']);
    expect(path(upward, 'E')).toEqual([]);
  });

  test('follows only what it is told to', () => {
    expect(reach(graph, 'A', 'up', (link) => link.to !== 'B').ids).toEqual(['C', 'D']);
    expect(reach(graph, 'nothing', 'up').ids).toEqual([]);
  });

  test('takes a chain of 20,000 records', () => {
    const reached = reach(graphOf(chain(20_000)), 'N-0', 'up');
    expect(reached.ids).toHaveLength(19_999);
    expect(reached.pathTo('N-19999')).toHaveLength(19_999);
  });
});
