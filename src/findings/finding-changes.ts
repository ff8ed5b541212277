import type { Finding } from './finding.ts';
import { fingerprint } from './fingerprint.ts';

/** A finding without facts as values is told from its like by what it says. */
const identity = (finding: Finding): string =>
  finding.data === undefined ? `${fingerprint(finding)} ${finding.message}` : fingerprint(finding);

/** The same finding, said in the same words in the same file. */
const exactly = (finding: Finding): string =>
  JSON.stringify([identity(finding), finding.place.file, finding.message]);

const grouped = (
  findings: readonly Finding[],
  key: (finding: Finding) => string,
): ReadonlyMap<string, Finding[]> => {
  const groups = new Map<string, Finding[]>();
  for (const finding of findings) {
    const group = groups.get(key(finding));
    if (group) group.push(finding);
    else groups.set(key(finding), [finding]);
  }
  return groups;
};

/** What of `now` finds no partner in `before`, and the other way round; each has one partner at most. */
const unpaired = (
  now: readonly Finding[],
  before: readonly Finding[],
  key: (finding: Finding) => string,
): { readonly now: readonly Finding[]; readonly before: readonly Finding[] } => {
  const left = grouped(before, key);
  const alone = now.filter((finding) => left.get(key(finding))?.shift() === undefined);
  const remaining = new Set([...left.values()].flat());
  return { now: alone, before: before.filter((finding) => remaining.has(finding)) };
};

/** How the findings of two states differ. */
export interface FindingChanges {
  /** Findings of the present state that the earlier one did not have. */
  readonly fresh: ReadonlySet<Finding>;
  /** Findings of the earlier state that the present one no longer has, with their places then. */
  readonly gone: readonly Finding[];
}

/**
 * Compares the findings of two states as multisets. Lines do not count, so a finding that only moved is not new. Of
 * several findings alike as many are new as there are more than before: those first that say something else, or stand in
 * another file. A level does not count either: what was known as a note and is an error now is not new.
 */
export const compareFindingSets = (now: readonly Finding[], before: readonly Finding[]): FindingChanges => {
  const others = unpaired(now, before, exactly);
  const rest = unpaired(others.now, others.before, identity);
  return { fresh: new Set(rest.now), gone: rest.before };
};
