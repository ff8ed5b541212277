import type { Finding } from './finding.ts';
import { fingerprint } from './fingerprint.ts';

/**
 * Findings that an earlier state did not have. Lines do not count, so a finding that only moved is not new. Of several
 * findings with one fingerprint as many are new as there are more than before, the last ones in the order of the report.
 */
export const newFindings = (now: readonly Finding[], before: readonly Finding[]): ReadonlySet<Finding> => {
  const known = new Map<string, number>();
  for (const finding of before) {
    const print = fingerprint(finding);
    known.set(print, (known.get(print) ?? 0) + 1);
  }
  const found = new Set<Finding>();
  for (const finding of now) {
    const print = fingerprint(finding);
    const left = known.get(print) ?? 0;
    if (left > 0) known.set(print, left - 1);
    else found.add(finding);
  }
  return found;
};
