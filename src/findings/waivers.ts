import type { Finding } from './finding.ts';

/** A finding that people have accepted for a time, with a reason. */
export interface Waiver {
  readonly code: string;
  /** Id of the record that the finding is mainly about. */
  readonly record: string;
  readonly reason: string;
  readonly role: string;
  readonly date: string;
  /** Last day, ISO, on which the waiver holds. */
  readonly expires: string;
}

export interface WaivedFinding {
  readonly finding: Finding;
  readonly waiver: Waiver;
}

export interface WaiverOutcome {
  readonly standing: readonly Finding[];
  readonly waived: readonly WaivedFinding[];
  /** Waivers that met no finding: the reason is gone, or the code is misspelt. */
  readonly idle: readonly Waiver[];
  /** Waivers past their last day, whose findings stand again. */
  readonly expired: readonly Waiver[];
}

/**
 * Sets waived findings apart. A waiver holds for one code and one record, up to and including its last day
 * (`asOf`, ISO date).
 */
export const applyWaivers = (
  findings: readonly Finding[],
  waivers: readonly Waiver[],
  asOf: string,
): WaiverOutcome => {
  const expired = waivers.filter((waiver) => waiver.expires < asOf);
  const current = waivers.filter((waiver) => waiver.expires >= asOf && waiver.date <= asOf);
  const used = new Set<Waiver>();
  const standing: Finding[] = [];
  const waived: WaivedFinding[] = [];
  for (const finding of findings) {
    const waiver = current.find((each) => each.code === finding.code && each.record === finding.records[0]);
    if (waiver) {
      used.add(waiver);
      waived.push({ finding, waiver });
    } else standing.push(finding);
  }
  return { standing, waived, idle: current.filter((waiver) => !used.has(waiver)), expired };
};
