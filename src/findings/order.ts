import type { Finding, Level } from './finding.ts';

const weight: Record<Level, number> = { error: 0, warning: 1, note: 2 };

/** True where `level` is at least as grave as `threshold`. */
export const isAtLeast = (level: Level, threshold: Level): boolean => weight[level] <= weight[threshold];

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Order of all reports: file, line, column, code, message. By code unit, so that it is the same in every locale. */
export const compareFindings = (a: Finding, b: Finding): number =>
  compareText(a.place.file, b.place.file) ||
  a.place.line - b.place.line ||
  a.place.column - b.place.column ||
  compareText(a.code, b.code) ||
  compareText(a.message, b.message);

/** Number of findings of each level. */
export const countByLevel = (findings: readonly Finding[]): Readonly<Record<Level, number>> => {
  const counts: Record<Level, number> = { error: 0, warning: 0, note: 0 };
  for (const finding of findings) counts[finding.level] += 1;
  return counts;
};
