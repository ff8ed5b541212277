import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lapsedRoles } from '../../src/graph/approval-selection.ts';
import { type Approval, assessApprovals } from '../../src/graph/approvals.ts';
import { type ApprovalWish, planApprovals } from '../../src/graph/plan-approvals.ts';
import type { PlinthFields } from '../../src/records/fields.ts';
import { graphOf, type Node } from './small-graphs.ts';

const device = { name: 'a', maker: 'b' };
const oneRole: PlinthFields = { device, approval_roles: { '*': ['lead'] } };
const twoRoles: PlinthFields = { device, approval_roles: { '*': ['lead'], input: ['engineer', 'lead'] } };

const wish = (ids: readonly string[], more: Partial<ApprovalWish> = {}): ApprovalWish => ({
  ids,
  role: 'lead',
  name: 'Brede Falkonet',
  meaning: 'approved',
  date: '2026-01-10',
  ...more,
});

/** Records by number, each with the numbers that it relies on and the approvals that it has. */
type State = readonly {
  readonly type: string;
  readonly to: readonly number[];
  readonly approvals: readonly Approval[];
}[];

const idOf = (number: number): string => `X-${number}`;

const planOf = (state: State, project: PlinthFields, wanted: ApprovalWish) => {
  const nodes = state.map(
    ({ type, to, approvals }, number): Node => ({
      id: idOf(number),
      type,
      links: { rests_on: to.map(idOf) },
      fields: { approvals },
      body: `Record ${number}.`,
    }),
  );
  const graph = graphOf(nodes);
  const approvals = assessApprovals(graph, project);
  return { graph, approvals, plan: planApprovals({ graph, approvals, project }, wanted) };
};

/** The state after the plan was written. */
const signed = (state: State, project: PlinthFields, wanted: ApprovalWish): State => {
  const { plan } = planOf(state, project, wanted);
  expect(plan.objections).toEqual([]);
  return state.map((each, number) => {
    const planned = plan.planned.find(({ record }) => record.id === idOf(number));
    const { role, name, meaning, date } = wanted;
    return planned
      ? {
          ...each,
          approvals: [
            ...each.approvals,
            { role, name, meaning, date, digest: planned.digest, relies_on: { ...planned.reliesOn } },
          ],
        }
      : each;
  });
};

const graphs = fc.integer({ min: 1, max: 7 }).chain((size) =>
  fc.array(
    fc.record({
      type: fc.constantFrom('need', 'input'),
      to: fc.uniqueArray(fc.nat(size - 1), { maxLength: 3 }),
    }),
    { minLength: size, maxLength: size },
  ),
);

const unsigned = (graph: readonly { readonly type: string; readonly to: readonly number[] }[]): State =>
  graph.map((each) => ({ ...each, approvals: [] }));

/** Numbers that a record leads to, by definition: over any number of links. */
const reach = (state: State, from: number): ReadonlySet<number> => {
  let found = new Set(state[from]?.to);
  for (;;) {
    const next = new Set([...found, ...[...found].flatMap((each) => state[each]?.to ?? [])]);
    if (next.size === found.size) return found;
    found = next;
  }
};

describe('on any graph', () => {
  test('all records at once, one role after the other, are approved and in force', () => {
    fc.assert(
      fc.property(graphs, (graph) => {
        const start = unsigned(graph);
        const all = start.map((_, number) => idOf(number));
        const inputs = all.filter((_, number) => start[number]?.type === 'input');
        const bothApprove = signed(start, oneRole, wish(all));
        expect(planOf(bothApprove, oneRole, wish(all)).plan).toMatchObject({ planned: [], objections: [] });
        // The lead alone can settle a need, but not one that rests on an input that the engineer has yet to approve.
        expect(
          planOf(start, twoRoles, wish(all))
            .plan.objections.map(({ reason }) => reason)
            .sort(),
        ).toEqual(
          start
            .flatMap(({ type, to }, from) =>
              to
                .filter(
                  (target) =>
                    type === 'need' && start[target]?.type === 'input' && !reach(start, target).has(from),
                )
                .map(
                  (target) => `${idOf(from)} relies on ${idOf(target)}, which is not approved by engineer`,
                ),
            )
            .sort(),
        );
        // With two roles the needs come first where an input rests on one.
        const { plan } = planOf(start, twoRoles, wish(inputs, { role: 'engineer', name: 'Tamsin Oakrill' }));
        const blocked = start.some(
          ({ type, to }, from) =>
            type === 'input' &&
            to.some((target) => start[target]?.type === 'need' && !reach(start, target).has(from)),
        );
        expect(plan.objections.length > 0).toBe(blocked);
        if (blocked) return;
        const half = signed(start, twoRoles, wish(inputs, { role: 'engineer', name: 'Tamsin Oakrill' }));
        const whole = signed(half, twoRoles, wish(all));
        const { approvals } = planOf(whole, twoRoles, wish(all));
        for (const id of all) expect(approvals.of(id)?.inForce).toBe(true);
      }),
      { numRuns: 300 },
    );
  });

  test('one record is refused exactly where something that it rests on, and that does not rest on it, is not approved', () => {
    fc.assert(
      fc.property(graphs, fc.array(fc.nat(6), { maxLength: 7 }), (graph, order) => {
        let state = unsigned(graph);
        for (const number of order) {
          if (number >= state.length) continue;
          const open = (state[number]?.to ?? []).filter(
            (target) =>
              target !== number &&
              (state[target]?.approvals.length ?? 0) === 0 &&
              !reach(state, target).has(number),
          );
          const { plan } = planOf(state, oneRole, wish([idOf(number)]));
          expect(plan.objections.map(({ reason }) => reason).sort()).toEqual(
            (state[number]?.approvals.length ? [] : open)
              .map((target) => `${idOf(number)} relies on ${idOf(target)}, which is not approved by lead`)
              .sort(),
          );
          if (plan.objections.length === 0) state = signed(state, oneRole, wish([idOf(number)]));
        }
      }),
      { numRuns: 300 },
    );
  });

  test('order and repetition of the ids make no difference', () => {
    fc.assert(
      fc.property(graphs, fc.array(fc.nat(6)), (graph, numbers) => {
        const state = unsigned(graph);
        const ids = numbers.map(idOf);
        const { plan } = planOf(state, oneRole, wish(ids));
        expect(planOf(state, oneRole, wish([...ids].reverse().concat(ids))).plan).toEqual(plan);
      }),
      { numRuns: 100 },
    );
  });
});

test('what lapsed, and because of what', () => {
  const state = signed(
    unsigned([
      { type: 'need', to: [] },
      { type: 'need', to: [0] },
      { type: 'need', to: [1] },
    ]),
    oneRole,
    wish(['X-0', 'X-1', 'X-2']),
  );
  const nodes = state.map(
    ({ type, to, approvals }, number): Node => ({
      id: idOf(number),
      type,
      links: { rests_on: to.map(idOf) },
      fields: { approvals },
      body: number === 0 ? 'Changed.' : `Record ${number}.`,
    }),
  );
  const graph = graphOf(nodes);
  const approvals = assessApprovals(graph, oneRole);
  const lead = (...ids: readonly string[]) => ids.map((id) => ({ id, role: 'lead' }));
  expect(lapsedRoles(graph, approvals)).toEqual(lead('X-0', 'X-1'));
  expect(lapsedRoles(graph, approvals, 'X-0')).toEqual(lead('X-0', 'X-1'));
  expect(lapsedRoles(graph, approvals, 'X-1')).toEqual([]);
  // What rests on the changed record is approved again with it, or after it.
  const { planned } = planApprovals({ graph, approvals, project: oneRole }, wish(['X-1', 'X-0']));
  expect(planned.map(({ record, replaces }) => [record.id, replaces?.changed])).toEqual([
    ['X-0', ['X-0']],
    ['X-1', ['X-0']],
  ]);
  expect(planApprovals({ graph, approvals, project: oneRole }, wish(['X-1'])).objections).toEqual([
    {
      reason: 'X-1 relies on X-0, which is approved with older content by lead',
      hint: 'Approve both in one call: plinth approve X-0 X-1 --role lead --name "FULL NAME"',
    },
  ]);
});
