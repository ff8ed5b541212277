import type { WrittenLink } from '../records/record.ts';
import { changedIds, whatHappened } from './changed-ids.ts';
import type { RecordChange } from './compare-records.ts';
import type { FileState } from './file-state.ts';
import { type ReliancePath, relianceOf } from './reliance.ts';
import type { TestToRepeat } from './tests-to-repeat.ts';

/** A risk whose estimate rests on something that is no longer as it was. */
export interface RiskToEvaluate {
  readonly id: string;
  readonly title: string;
  readonly reasons: readonly { readonly text: string; readonly path: ReliancePath }[];
}

/**
 * Risks to evaluate again (ISO 14971:2019 clauses 6 to 8 and 10.4): the risk itself changed, one of its controls is
 * new, changed or gone, a control rests on something that changed, a result that shows a control is to be repeated or
 * argued anew, or what tells users of the risk changed. All of them, where the criteria in force are others.
 */
export const risksToEvaluate = (
  before: FileState,
  after: FileState,
  records: readonly RecordChange[],
  tests: readonly TestToRepeat[],
): readonly RiskToEvaluate[] => {
  const changed = changedIds(records);
  const added = new Set(records.filter((change) => change.kind === 'added').map((change) => change.id));
  const { graph } = after;
  const criteriaDiffer =
    JSON.stringify(before.project.fields.risk) !== JSON.stringify(after.project.fields.risk);
  const plan = after.project.riskPlan?.id;
  return graph.recordsOf('risk').flatMap((risk): readonly RiskToEvaluate[] => {
    if (risk.status === 'retired') return [];
    const reasons: { readonly text: string; readonly path: ReliancePath }[] = [];
    const own = changed.get(risk.id);
    if (own || added.has(risk.id))
      reasons.push({ text: `${risk.id} ${own ? whatHappened(own) : 'is new'}`, path: [risk.id] });
    if (criteriaDiffer)
      reasons.push({
        text: `the criteria that it is judged by${plan === undefined ? '' : ` (${plan})`} changed`,
        path: plan === undefined ? [risk.id] : [risk.id, plan],
      });
    const controls = graph.linksTo(risk.id, 'controls').map((link) => link.from);
    const gone = before.graph
      .linksTo(risk.id, 'controls')
      .map((link) => link.from)
      .filter((id) => !controls.includes(id));
    for (const id of new Set([...controls, ...gone])) {
      const change = changed.get(id);
      if (change || added.has(id) || gone.includes(id))
        reasons.push({
          text: `its control ${id} ${change ? whatHappened(change) : added.has(id) ? 'is new' : 'no longer controls it'}`,
          path: [risk.id, id],
        });
      if (graph.record(id)?.status === 'retired' || !controls.includes(id)) continue;
      // What other risks the control answers to is no part of how it works.
      const isBasis = ({ from, to }: WrittenLink): boolean =>
        from !== id || graph.record(to)?.type !== 'risk';
      for (const [cause, path] of relianceOf(graph, id, isBasis)) {
        const what = changed.get(cause);
        if (what && cause !== risk.id)
          reasons.push({
            text: `its control ${id} rests on ${cause}, which ${whatHappened(what)}`,
            path: [risk.id, ...path],
          });
      }
      for (const { to: protocol } of graph.linksFrom(id, 'shown_by'))
        for (const test of tests)
          if (test.id === protocol || test.protocols.includes(protocol))
            reasons.push({
              text: `its control ${id} is shown by ${test.id}, to be ${test.action === 'repeat' ? 'repeated' : 'argued anew'}`,
              path: [risk.id, id, protocol, ...(test.id === protocol ? [] : [test.id])],
            });
    }
    for (const { from, field } of graph.linksTo(risk.id))
      if (field === 'discloses') {
        const change = changed.get(from);
        if (change)
          reasons.push({
            text: `${from}, which discloses it, ${whatHappened(change)}`,
            path: [risk.id, from],
          });
      }
    const distinct = reasons.filter(
      (reason, index) => reasons.findIndex((each) => each.text === reason.text) === index,
    );
    return distinct.length > 0 ? [{ id: risk.id, title: risk.title, reasons: distinct }] : [];
  });
};
