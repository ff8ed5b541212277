import type { Verdict } from '../graph/standing.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { compareIds } from '../graph/trace-graph.ts';
import type { RecordOf, TechnicalRecord } from '../records/record.ts';
import { changedIds, whatHappened } from './changed-ids.ts';
import type { RecordChange } from './compare-records.ts';
import type { FileState } from './file-state.ts';
import { type ReliancePath, relianceOf } from './reliance.ts';

/** Why a result no longer speaks for itself. */
export interface TestReason {
  readonly text: string;
  /** From the record of the result to what changed. */
  readonly path: ReliancePath;
  /** Whether the work itself is in question, not only what it is held against. */
  readonly asksForWork: boolean;
}

/** What a design change in the later state decides about a result. */
export interface TestDecision {
  readonly change: string;
  readonly decision: string;
  readonly reason: string;
  /** False where the earlier state had the design change as it is: it decides about another change. */
  readonly isNew: boolean;
}

/** A result that a change touches: to be shown again by work, or by argument. */
export interface TestToRepeat {
  readonly id: string;
  readonly type: string;
  readonly title: string;
  readonly action: 'repeat' | 're-argue';
  readonly reasons: readonly TestReason[];
  /** Protocols that it reports, in either state. */
  readonly protocols: readonly string[];
  readonly verdictBefore?: Verdict;
  readonly verdictAfter?: Verdict;
  /** Decisions of design changes about it. */
  readonly decisions: readonly TestDecision[];
  /** Records that repeat it in the later state. */
  readonly repeatedBy: readonly string[];
}

const resultTypes: ReadonlySet<string> = new Set(['verification-record', 'validation-record', 'analysis']);

/** Fields of a protocol that say what the data are held against: the data can be judged anew without new work. */
const judgedAnew: ReadonlySet<string> = new Set(['acceptance', 'sampling', 'title']);

/**
 * Results that a change touches. Those that rest on something that changed: their data have been judged anew in the
 * later state, so a verdict that no longer holds asks for work; so does a change of what was tested, or of how. Anything
 * else asks for an argument. Those that decide again because their repetition is gone, and those that are gone
 * themselves. Results that another one has replaced all along, and results that are new, are left out.
 */
export const testsToRepeat = (
  before: FileState,
  after: FileState,
  records: readonly RecordChange[],
): readonly TestToRepeat[] => {
  const changed = changedIds(records);
  const still = [...after.graph.records.values()]
    .filter((record) => isResult(record) && before.graph.record(record.id) !== undefined)
    .flatMap((record) => {
      const repetitions = replacing(before.graph, record.id);
      const isReplaced = repetitions.length > 0;
      if (isReplaced && replacing(after.graph, record.id).length > 0) return [];
      const verdictAfter = after.evidence.get(record.id)?.verdict;
      const reasons = [
        ...(isReplaced ? [decidesAgain(record.id, repetitions, verdictAfter)] : []),
        ...verdictReason(record.id, before.evidence.get(record.id)?.verdict, verdictAfter, after),
        ...dataReason(record.id, before, after),
        ...changeReasons(record, after, changed),
      ];
      return reasons.length > 0 ? [touched(record, reasons, before, after)] : [];
    });
  const gone = [...before.graph.records.values()]
    .filter((record) => {
      const now = after.graph.record(record.id);
      return (
        isResult(record) &&
        (now === undefined || now.status === 'retired') &&
        replacing(before.graph, record.id).length === 0 &&
        replacing(after.graph, record.id).length === 0
      );
    })
    .map((record) => {
      const what = after.graph.record(record.id) ? 'was retired' : 'was removed';
      const reason = {
        text: `it ${what}, and no other result replaces it`,
        path: [record.id],
        asksForWork: true,
      };
      return touched(record, [reason], before, after);
    });
  return [...still, ...gone].sort((a, b) => compareIds(a.id, b.id));
};

const isResult = (record: TechnicalRecord): boolean =>
  resultTypes.has(record.type) && record.status !== 'retired';

const touched = (
  record: TechnicalRecord,
  reasons: readonly TestReason[],
  before: FileState,
  after: FileState,
): TestToRepeat => {
  const verdictBefore = before.evidence.get(record.id)?.verdict;
  const verdictAfter = after.evidence.get(record.id)?.verdict;
  const protocols = [record, ...[before, after].flatMap(({ graph }) => graph.record(record.id) ?? [])];
  return {
    id: record.id,
    type: record.type,
    title: record.title,
    action: reasons.some((reason) => reason.asksForWork) ? 'repeat' : 're-argue',
    reasons,
    protocols: [...new Set(protocols.flatMap(protocolsOf))],
    ...(verdictBefore ? { verdictBefore } : {}),
    ...(verdictAfter ? { verdictAfter } : {}),
    decisions: decisionsAbout(record.id, before, after),
    repeatedBy: after.graph.linksTo(record.id, 'retests').map((link) => link.from),
  };
};

const decidesAgain = (
  id: string,
  repetitions: readonly string[],
  verdict: Verdict | undefined,
): TestReason => ({
  text: `its repetition ${repetitions.join(', ')} no longer counts, so it decides again${verdict === 'pass' ? '' : ` (${verdict ?? 'no verdict'})`}`,
  path: [id],
  asksForWork: verdict !== 'pass',
});

/** Approved repetitions of a result, whether it is there or not: they, not it, decide. */
const replacing = (graph: TraceGraph, id: string): readonly string[] =>
  [
    ...graph.linksTo(id, 'retests'),
    ...graph.dangling.filter((link) => link.to === id && link.field === 'retests'),
  ]
    .map((link) => link.from)
    .filter((from) => from !== id && graph.record(from)?.status === 'approved');

const verdictReason = (
  id: string,
  verdictBefore: Verdict | undefined,
  verdictAfter: Verdict | undefined,
  after: FileState,
): readonly TestReason[] => {
  if (verdictBefore !== 'pass' || verdictAfter === 'pass') return [];
  const reason = after.evidence.get(id)?.reason;
  return [
    {
      text: `judged anew, the data no longer pass (${verdictAfter ?? 'no verdict'}${reason ? `: ${reason}` : ''})`,
      path: [id],
      asksForWork: true,
    },
  ];
};

const dataReason = (id: string, before: FileState, after: FileState): readonly TestReason[] => {
  const old = before.evidence.get(id);
  const now = after.evidence.get(id);
  if (old?.dataDigest === undefined || old.dataDigest === now?.dataDigest) return [];
  return [
    {
      text: `its raw data ${now?.dataDigest === undefined ? `${old.dataFile} are gone` : 'are not those of the earlier state'}`,
      path: [id],
      asksForWork: true,
    },
  ];
};

const changeReasons = (
  record: TechnicalRecord,
  after: FileState,
  changed: ReadonlyMap<string, RecordChange>,
): readonly TestReason[] => {
  const own = changed.get(record.id);
  const reached = relianceOf(after.graph, record.id);
  const outputs = outputsBehind(record, after.graph, reached);
  return [
    ...(own
      ? [{ text: `${record.id} itself ${whatHappened(own)}`, path: [record.id], asksForWork: false }]
      : []),
    ...[...reached, ...outputs].flatMap(([id, path]): readonly TestReason[] => {
      const change = changed.get(id);
      return change ? [reasonFor(change, path, record, after.graph)] : [];
    }),
  ];
};

/** Protocols that a result reports, whether they are still there or not. */
const protocolsOf = (record: TechnicalRecord): readonly string[] =>
  record.links.filter((link) => link.field === 'reports').map((link) => link.to);

/**
 * Where neither the result nor its protocol says which outputs were tested, those that satisfy its design inputs may
 * have been.
 */
const outputsBehind = (
  record: TechnicalRecord,
  graph: TraceGraph,
  reached: ReadonlyMap<string, ReliancePath>,
): ReadonlyMap<string, ReliancePath> => {
  const sources = [record, ...protocolsOf(record).flatMap((id) => graph.record(id) ?? [])];
  const isOutputNamed = sources.some(({ links }) =>
    links.some(
      ({ allowed, to }) => allowed.includes('design-output') || graph.record(to)?.type === 'design-output',
    ),
  );
  if (isOutputNamed) return new Map();
  const outputs = new Map<string, ReliancePath>();
  const protocols = [record.id, ...protocolsOf(record)];
  for (const protocol of protocols)
    for (const { to: input } of graph.linksFrom(protocol, 'verifies'))
      for (const { from: output } of graph.linksTo(input, 'satisfies'))
        if (!reached.has(output) && !outputs.has(output))
          outputs.set(output, [...(protocol === record.id ? [] : [record.id]), protocol, input, output]);
  return outputs;
};

const reasonFor = (
  change: RecordChange,
  path: ReliancePath,
  record: TechnicalRecord,
  graph: TraceGraph,
): TestReason => {
  const { id } = change;
  const what = whatHappened(change);
  const protocols = new Set(protocolsOf(record));
  const isNear = path.length === 2 || (path.length === 3 && protocols.has(path[1] ?? ''));
  if (protocols.has(id)) {
    const isProcedure =
      change.kind === 'removed' ||
      change.body.length > 0 ||
      change.fields.some((field) => !judgedAnew.has(String(field.path[0])));
    return {
      text: isProcedure
        ? `its protocol ${id} ${what} in more than what the data are held against`
        : `its protocol ${id} holds the data against something else`,
      path,
      asksForWork: isProcedure,
    };
  }
  if (change.type === 'design-output' && isNear)
    return { text: `${id}, which was tested, ${what}`, path, asksForWork: true };
  if (change.type === 'test-method' && isNear)
    return { text: `${id}, by which was measured, ${what}`, path, asksForWork: true };
  const last = path.at(-2) ?? record.id;
  return {
    text:
      last === record.id
        ? `${id}, on which it rests, ${what}`
        : graph.linksTo(last, 'satisfies').some((link) => link.from === id)
          ? `${id}, which satisfies ${last}, ${what}; nothing says which output was tested`
          : `${id}, on which ${last} rests, ${what}`,
    path,
    asksForWork: false,
  };
};

const decisionsAbout = (id: string, before: FileState, after: FileState): readonly TestDecision[] =>
  after.graph
    .linksTo(id, 'decisions')
    .flatMap((link) => after.graph.recordOf('design-change', link.from) ?? [])
    .filter((change: RecordOf<'design-change'>) => change.status !== 'retired')
    .flatMap((change) =>
      (change.fields.decisions ?? [])
        .filter((decision) => decision.record === id)
        .map(({ decision, reason }) => ({
          change: change.id,
          decision,
          reason,
          isNew: before.approvals.digests.get(change.id) !== after.approvals.digests.get(change.id),
        })),
    );
