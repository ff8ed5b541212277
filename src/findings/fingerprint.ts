import type { Finding } from './finding.ts';

/**
 * What identifies a finding through edits of the file: code and records, not lines. Two findings of one code
 * about the same records differ in `data`.
 */
export const fingerprint = (finding: Finding): string =>
  JSON.stringify([finding.code, finding.records, finding.data ?? {}]);
