import { describe, expect, test } from 'vitest';
import { type Approval, assessApprovals, reliedOn, requiredRoles } from '../../src/graph/approvals.ts';
import { recordDigest } from '../../src/graph/digest.ts';
import { buildGraph } from '../../src/graph/trace-graph.ts';
import type { PlinthFields } from '../../src/records/fields.ts';
import { graphOf, type Node, recordOf } from './small-graphs.ts';

const project: PlinthFields = {
  device: { name: 'a', maker: 'b' },
  approval_roles: { '*': ['quality lead'], 'design-input': ['design engineer', 'quality lead'] },
};

const need: Node = { id: 'UN-01', type: 'user-need', body: 'A need.' };
const input: Node = {
  id: 'DI-01',
  type: 'design-input',
  links: { derives_from: ['UN-01'] },
  body: 'An input.',
};
const digestOf = (node: Node): string => recordDigest(recordOf(node), undefined);

const by = (role: string, more: Partial<Approval> = {}): Approval => ({
  role,
  name: 'Brede Falkonet',
  meaning: 'approved',
  date: '2026-01-10',
  digest: digestOf(input),
  relies_on: { 'UN-01': digestOf(need) },
  ...more,
});

const state = (approvals: readonly Approval[], { own = input, relied = need as Node | 'gone' } = {}) => {
  const record: Node = { ...own, fields: { ...own.fields, approvals } };
  const found = assessApprovals(graphOf(relied === 'gone' ? [record] : [record, relied]), project).of(
    'DI-01',
  );
  if (!found) throw new Error('no state');
  const { states, missingRoles, inForce, changed } = found;
  return { states: states.map((each) => each.state), missingRoles, inForce, changed };
};

describe('an approval', () => {
  const both = [by('design engineer'), by('quality lead')];

  test('is in force while nothing changed', () => {
    expect(state(both)).toEqual({
      states: ['in force', 'in force'],
      missingRoles: [],
      inForce: true,
      changed: [],
    });
  });

  test('lapses when the record itself changed', () => {
    expect(state(both, { own: { ...input, body: 'Another input.' } })).toEqual({
      states: ['lapsed', 'lapsed'],
      missingRoles: [],
      inForce: false,
      changed: ['DI-01'],
    });
  });

  test('lapses when a record that it relies on changed, or is gone', () => {
    for (const relied of [{ ...need, body: 'Another need.' }, 'gone' as const])
      expect(state(both, { relied })).toEqual({
        states: ['lapsed', 'lapsed'],
        missingRoles: [],
        inForce: false,
        changed: ['UN-01'],
      });
  });

  test('does not lapse over a link that carries no reliance, whatever digest it stores', () => {
    const record: Node = { ...input, fields: { ...input.fields, approvals: both } };
    const loose = {
      ...recordOf(record),
      links: recordOf(record).links.map((link) => ({ ...link, relies: false })),
    };
    const graph = buildGraph([loose, recordOf({ ...need, body: 'Another need.' })], new Map());
    expect(assessApprovals(graph, project).of('DI-01')).toMatchObject({ inForce: true, changed: [] });
    expect(reliedOn(loose)).toEqual([]);
    expect(reliedOn(recordOf({ ...input, links: { a: ['X-10', 'X-2'], b: ['X-2'] } }))).toEqual([
      'X-2',
      'X-10',
    ]);
  });

  test('does not lapse when only the status of the other changed', () => {
    expect(state(both, { relied: { ...need, status: 'approved' } }).inForce).toBe(true);
  });

  test('is replaced by a later one of the same role, whatever the order in the file', () => {
    const old = by('quality lead', { date: '2025-12-01', digest: '0'.repeat(64) });
    for (const list of [
      [old, ...both],
      [...both, old],
    ])
      expect(state(list)).toMatchObject({ inForce: true, changed: [] });
    expect(state([old, ...both]).states).toEqual(['replaced', 'in force', 'in force']);
  });

  test('of the same day is replaced by the one further down', () => {
    const wrong = by('quality lead', { digest: '0'.repeat(64) });
    expect(state([by('design engineer'), wrong, by('quality lead')]).states).toEqual([
      'in force',
      'replaced',
      'in force',
    ]);
    expect(state([by('design engineer'), by('quality lead'), wrong])).toMatchObject({
      states: ['in force', 'replaced', 'lapsed'],
      inForce: false,
    });
  });

  test('of one role does not stand for another', () => {
    expect(state([by('quality lead')])).toMatchObject({ missingRoles: ['design engineer'], inForce: false });
    expect(state([])).toEqual({
      states: [],
      missingRoles: ['design engineer', 'quality lead'],
      inForce: false,
      changed: [],
    });
  });
});

test('roles are those of the type, else those for all, and no type name reaches the prototype', () => {
  expect(requiredRoles(project, 'design-input')).toEqual(['design engineer', 'quality lead']);
  expect(requiredRoles(project, 'user-need')).toEqual(['quality lead']);
  expect(requiredRoles(project, 'constructor')).toEqual(['quality lead']);
  expect(requiredRoles({ device: { name: 'a', maker: 'b' } }, 'toString')).toEqual([]);
});
