import type { Finding } from './finding.ts';

/**
 * What identifies a finding through edits of the file: code and records, not lines. Two findings of one code
 * about the same records differ in `data`; a digest in there tells of the content, not of the finding, and is left out.
 * A finding about no record is known by its file.
 */
export const fingerprint = ({ code, records, data, place }: Finding): string => {
  const facts = Object.fromEntries(Object.entries(data ?? {}).filter(([name]) => name !== 'digest'));
  return JSON.stringify([code, records, facts, ...(records.length === 0 ? [place.file] : [])]);
};
