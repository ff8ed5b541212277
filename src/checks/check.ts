import type { DataFiles } from '../evidence/evaluate.ts';
import type { EvidenceResult } from '../evidence/result.ts';
import type { Finding, Level, Place, RelatedPlace } from '../findings/finding.ts';
import type { Signatures } from '../graph/approval-signatures.ts';
import type { Approvals } from '../graph/approvals.ts';
import type { PastContent } from '../graph/past-content.ts';
import type { Standing } from '../graph/standing.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import type { Project } from '../records/project.ts';
import type { ClauseTables } from '../regulation/clause-tables.ts';

/** Everything that a check may look at. All of it is plain data; a check never reads a file or a clock. */
export interface CheckContext {
  readonly project: Project;
  readonly graph: TraceGraph;
  readonly approvals: Approvals;
  readonly evidence: ReadonlyMap<string, EvidenceResult>;
  readonly standing: ReadonlyMap<string, Standing>;
  readonly files: DataFiles;
  /** Tables of the clauses of law and standards, those of the technical file among them. */
  readonly clauseTables: ClauseTables;
  /** Earlier contents of records, where a history was at hand. */
  readonly past?: PastContent;
  /** How approvals were signed, where plinth.yaml asks for it. */
  readonly signatures?: Signatures;
  /** Level of every finding code that there is, of checks and of all other stages. */
  readonly findingLevels: ReadonlyMap<string, Level>;
  /** ISO date that the file is checked for. */
  readonly asOf: string;
}

/** A finding without what the runner stamps on it. */
export interface Draft {
  readonly place: Place;
  readonly message: string;
  readonly hint?: string;
  /** Ids that the finding is about, the main one first. */
  readonly records: readonly string[];
  readonly related?: readonly RelatedPlace[];
  /** Where not that of the check: a rule of the file may give its own. */
  readonly level?: Level;
  readonly data?: NonNullable<Finding['data']>;
}

/**
 * One check. `subjects` lists what it examines, so that each report can say how many there were; `judge` says what is
 * wrong with one of them.
 */
export interface Check {
  /** Kebab-case, says what is wrong; equals the file name. */
  readonly code: string;
  readonly level: Level;
  /** One line, no full stop. */
  readonly title: string;
  /** Clause or standard that asks for it, or `common practice, no source`. */
  readonly basis: string;
  /** Markdown: what it means, why it matters, what to do. */
  readonly explain: string;
  /** What is examined, in words: `design inputs`. */
  readonly examines: string;
  /**
   * Types of the records whose absence, or whose lack of a verdict, it finds. While one of them cannot be read, what the
   * check finds around it may only follow from that, and is held back. `named`: it is enough that a finding names one.
   */
  readonly awaits?: readonly string[] | 'named';
  /** The records that it awaits need no link to what it finds. */
  readonly awaitsAnywhere?: true;
  /** It finds what plinth.yaml does not say: while fields of that file cannot be read, it is held back. */
  readonly awaitsProject?: true;
  readonly run: (context: CheckContext) => { readonly examined: number; readonly drafts: readonly Draft[] };
}

interface Definition<Subject> extends Omit<Check, 'run'> {
  readonly subjects: (context: CheckContext) => readonly Subject[];
  readonly judge: (subject: Subject, context: CheckContext) => readonly Draft[];
}

export const defineCheck = <Subject>({ subjects, judge, ...about }: Definition<Subject>): Check => ({
  ...about,
  run: (context) => {
    const list = subjects(context);
    return { examined: list.length, drafts: list.flatMap((subject) => judge(subject, context)) };
  },
});

export interface CheckReport {
  readonly code: string;
  readonly examines: string;
  readonly examined: number;
  readonly found: number;
}

/** Runs the checks and stamps code and level on what they find. */
export const runChecks = (
  checks: readonly Check[],
  context: CheckContext,
): { readonly findings: readonly Finding[]; readonly reports: readonly CheckReport[] } => {
  const findings: Finding[] = [];
  const reports = checks.map((check): CheckReport => {
    const { examined, drafts } = check.run(context);
    for (const draft of drafts)
      findings.push({
        ...draft,
        code: check.code,
        level: draft.level ?? check.level,
        related: draft.related ?? [],
      });
    return { code: check.code, examines: check.examines, examined, found: drafts.length };
  });
  return { findings, reports };
};
