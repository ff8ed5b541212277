import { compareContent } from '../change/compare-records.ts';
import type { ValueChange, ValuePath } from '../change/compare-values.ts';
import { describeContentChange } from '../change/describe-content-change.ts';
import type { Objection, PlannedApproval } from '../graph/plan-approvals.ts';
import { wordingOfKey } from '../graph/wording-digests.ts';
import type { Analysis } from '../pipeline.ts';
import type { TechnicalRecord } from '../records/record.ts';

/** Numbers in a text, in order: a word may change without technical effect, a number may not. */
const numbersIn = (text: string): string => (text.match(/[-+\u2212]?\d+(?:[.,]\d+)*/g) ?? []).join(' ');

const valueAt = (record: TechnicalRecord, path: ValuePath): unknown =>
  path.reduce<unknown>(
    (value, key) =>
      value !== null && typeof value === 'object' && Object.hasOwn(value, key)
        ? (value as Readonly<Record<string | number, unknown>>)[key]
        : undefined,
    record.fields,
  );

/** Whether a field holds words that may be mended: a sentence in which every number stays, or the title. */
const isMendedWording = ({ kind, before, after, path }: ValueChange, now: TechnicalRecord): boolean => {
  if (kind !== 'changed' || before === undefined || after === undefined) return false;
  const isSentence = path[0] === 'title' || (/\s/.test(before) && /\s/.test(after));
  return typeof valueAt(now, path) === 'string' && isSentence && numbersIn(before) === numbersIn(after);
};

/**
 * What speaks against the reason that a change has no technical effect. Only words may have changed: sentences of the
 * front matter and of the body, with every number as it was. Anything else in the front matter (a limit, a unit, a link,
 * a severity, an entry that came or went) counts as technical, and so does content that git does not have to compare with.
 */
export const technicalEffects = (
  planned: readonly PlannedApproval[],
  analysis: Analysis,
): readonly Objection[] => {
  const seen = new Set<string>();
  const once = (key: string, objection: Objection): readonly Objection[] => {
    if (seen.has(key)) return [];
    seen.add(key);
    return [objection];
  };
  const judgeIt = 'Leave --no-effect out and say with --meaning how the change was judged.';
  return planned.flatMap(({ record, replaces }) => {
    const known = contentBefore(record, replaces, analysis);
    const unknown = (replaces?.changed ?? []).filter((id) => !known.some(({ now }) => now.id === id));
    return [
      ...unknown.flatMap((id) =>
        once(
          `${id} unknown`,
          wordingOfKey(id) === undefined
            ? {
                reason: `the content of ${id} that was approved is not to be found in git, so nobody can see what changed`,
                hint: 'Fetch the whole history (git fetch --unshallow), or leave --no-effect out.',
              }
            : {
                reason: `the wording "${wordingOfKey(id)}" of plinth.yaml, which ${record.id} takes in, changed`,
                hint: judgeIt,
              },
        ),
      ),
      ...known.flatMap(({ then, now }) => [
        ...compareContent(then, now, analysis.graph.types.get(now.type)?.informative).fields.flatMap(
          (change) =>
            isMendedWording(change, now)
              ? []
              : once(`${now.id} ${change.label}`, {
                  reason: `${now.id}: ${change.label} went from ${change.before ?? 'nothing'} to ${change.after ?? 'nothing'}, which is a technical effect`,
                  hint: judgeIt,
                }),
        ),
        ...(numbersIn(then.body) === numbersIn(now.body)
          ? []
          : once(`${now.id} body`, {
              reason: `${now.id}: a number in its text changed, which is a technical effect`,
              hint: judgeIt,
            })),
      ]),
    ];
  });
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
