import { compareContent } from '../change/compare-records.ts';
import { describeContentChange } from '../change/describe-content-change.ts';
import type { Objection, PlannedApproval } from '../graph/plan-approvals.ts';
import type { Analysis } from '../pipeline.ts';
import type { TechnicalRecord } from '../records/record.ts';

/** A limit that was loosened or tightened is a technical effect, whatever the reason says. */
export const changedFigures = (
  planned: readonly PlannedApproval[],
  analysis: Analysis,
): readonly Objection[] => {
  const seen = new Set<string>();
  return planned.flatMap(({ record, replaces }) =>
    contentBefore(record, replaces, analysis).flatMap(({ then, now }) =>
      compareContent(then, now, analysis.graph.types.get(now.type)?.informative).fields.flatMap((change) => {
        const { label, before, after, demand } = change;
        const key = `${now.id} ${label}`;
        if (demand === undefined || seen.has(key)) return [];
        seen.add(key);
        return [
          {
            reason: `${now.id}: ${label} went from ${before ?? 'nothing'} to ${after ?? 'nothing'}, which is a technical effect`,
            hint: 'Leave --no-effect out and say with --meaning how the change was judged.',
          },
        ];
      }),
    ),
  );
};

/** Earlier content of a record and of what it relies on, as far as an approval named it, it changed and git has it. */
const contentBefore = (
  record: TechnicalRecord,
  replaces: PlannedApproval['replaces'],
  { graph, past }: Analysis,
): readonly { readonly then: TechnicalRecord; readonly now: TechnicalRecord }[] =>
  (replaces?.changed ?? []).flatMap((id) => {
    const digest = id === record.id ? replaces?.approval.digest : replaces?.approval.relies_on?.[id];
    const then = digest === undefined ? undefined : past?.get(digest);
    const now = graph.record(id);
    return then && now ? [{ then, now }] : [];
  });

/** What changed since the approval that is replaced, in words; by ids alone where git does not have the earlier content. */
export const changesSince = (
  { record, replaces }: PlannedApproval,
  analysis: Analysis,
): readonly string[] => {
  const changed = replaces?.changed ?? [];
  if (!replaces || changed.length === 0) return [];
  const since = `since the approval of ${replaces.approval.date}`;
  const names = changed.map((id) => (id === record.id ? 'its own content' : id));
  const details = contentBefore(record, replaces, analysis).flatMap(({ then, now }) =>
    describeContentChange(then, now, analysis.graph.types.get(now.type)?.informative).map(({ message }) =>
      message.replace(' since then:', ''),
    ),
  );
  return [`changed ${since}: ${names.join(', ')}`, ...details];
};
