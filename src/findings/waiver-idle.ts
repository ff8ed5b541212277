import type { Explanation } from './explanation.ts';
import type { Finding, Place } from './finding.ts';
import type { Waiver } from './waivers.ts';

/** Findings about waivers that only the whole report can make. */
export const waiverCodes = {
  'waiver-idle': {
    title: 'A waiver meets no finding',
    level: 'warning',
    explain:
      'A waiver in plinth.yaml accepts a finding that does not stand: the cause is gone, or the finding is now about another record.\n\nA waiver without an object would silently accept the next finding of that kind.\n\nRemove it; the decision stays in the history of the file.',
  },
} as const satisfies Readonly<Record<string, Explanation>>;

/** A finding for each current waiver that no finding of the whole report met. */
export const idleWaiverFindings = (
  idle: readonly Waiver[],
  placeOfWaiver: (waiver: Waiver) => Place,
): readonly Finding[] =>
  idle.map((waiver) => ({
    code: 'waiver-idle',
    level: waiverCodes['waiver-idle'].level,
    place: placeOfWaiver(waiver),
    message: `the waiver of ${waiver.code} for ${waiver.record} meets no finding`,
    hint: 'Remove the waiver: its cause is gone.',
    records: [waiver.record],
    related: [],
    data: { code: waiver.code },
  }));
