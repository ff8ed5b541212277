import type { EvidenceResult } from '../evidence/result.ts';
import type { Finding } from '../findings/finding.ts';
import type { Signatures } from '../graph/approval-signatures.ts';
import type { Approvals } from '../graph/approvals.ts';
import type { Standing } from '../graph/standing.ts';
import { placeOf } from '../records/record.ts';
import type { SourceFile } from '../records/source-file.ts';
import { breaksOf } from './breaks.ts';
import type { Fact, FactInputs } from './fact.ts';
import { type RawData, rawDataOf } from './raw-data.ts';
import { factsOf } from './step-facts.ts';
import { mustAnswer, type Stop, walkDown, walkUp } from './walk.ts';

export interface VouchInputs extends Omit<FactInputs, 'rawData'> {
  /** All files of the technical file, for the rows of raw data. */
  readonly files: ReadonlyMap<string, SourceFile>;
  readonly approvals: Approvals;
  readonly standing: ReadonlyMap<string, Standing>;
  readonly findings: readonly Finding[];
  readonly signatures?: Signatures;
}

/** An approval as the walk shows it. */
export interface StepApproval {
  readonly role: string;
  readonly name: string;
  readonly meaning: string;
  readonly date: string;
  readonly state: 'in force' | 'lapsed';
  /** Records whose content changed since. */
  readonly changed: readonly string[];
  /** In signed mode: the commit, and what git says of its signature. */
  readonly signature?: string;
}

/** One step of the walk: a record, what it says there, how it stands, who approved it and what of. */
export interface VouchStep extends Stop {
  readonly type: string;
  readonly title: string;
  readonly status: string;
  readonly file: string;
  /** Line of the file on which the id stands. */
  readonly line: number;
  readonly digest: string;
  readonly standing?: {
    readonly state: string;
    readonly reason: string;
    readonly because: readonly string[];
  };
  readonly facts: readonly Fact[];
  readonly approvals: readonly StepApproval[];
  readonly missingRoles: readonly string[];
  /** Whether its front matter could be judged; where not, nothing that it says of itself counts. */
  readonly isJudged: boolean;
  /** Records that repeat this one. */
  readonly repeatedBy: readonly string[];
}

/** The readings that counted, one for each unit, in the order of the file and the unit of the limits. */
export interface VouchReadings {
  readonly record: string;
  readonly characteristic: string;
  readonly unit: string;
  readonly dataFile?: string;
  readonly dataDigest?: string;
  readonly readings: readonly number[];
}

/** From a claim down to the measurement and up to the need. */
export interface VouchReport {
  readonly claim: VouchStep;
  readonly up: readonly VouchStep[];
  readonly down: readonly VouchStep[];
  /** Where the chain does not hold, in plain words. */
  readonly breaks: readonly string[];
  readonly readings: readonly VouchReadings[];
  /** The raw-data files of the results on the walk. */
  readonly rawData: readonly RawData[];
  /** Findings of level error or warning that stand on records of the walk. */
  readonly findings: readonly Finding[];
}

const stepOf = (stop: Stop, inputs: VouchInputs & FactInputs): VouchStep | undefined => {
  const record = inputs.graph.record(stop.id);
  if (!record) return undefined;
  const standing = inputs.standing.get(stop.id);
  const approvals = inputs.approvals.of(stop.id);
  return {
    ...stop,
    type: record.type,
    title: record.title,
    status: record.status,
    file: record.file,
    line: placeOf(record, 'id').line,
    digest: inputs.approvals.digests.get(stop.id) ?? '',
    ...(standing
      ? { standing: { state: standing.state, reason: standing.reason, because: standing.because } }
      : {}),
    facts: factsOf(record, inputs),
    approvals: (approvals?.states ?? []).flatMap((state): readonly StepApproval[] => {
      if (state.state === 'replaced') return [];
      const { role, name, meaning, date } = state.approval;
      const signature = inputs.signatures?.checked ? inputs.signatures.of(stop.id, state.index) : undefined;
      return [
        {
          role,
          name,
          meaning,
          date,
          state: state.state,
          changed: state.changed,
          ...(signature
            ? {
                signature: signature.commit
                  ? `commit ${signature.commit.id.slice(0, 12)} of ${signature.commit.date}: ${signature.signature?.state ?? 'unchecked'}${signature.signature?.signer ? `, ${signature.signature.signer}` : ''}`
                  : 'in no commit yet',
              }
            : {}),
        },
      ];
    }),
    missingRoles: record.sound ? (approvals?.missingRoles ?? []) : [],
    isJudged: record.sound,
    repeatedBy: inputs.graph.linksTo(stop.id, 'retests').map((link) => link.from),
  };
};

/** Readings of a study judge the method, not the device. */
const readingsOf = (step: VouchStep, result: EvidenceResult | undefined): readonly VouchReadings[] =>
  step.type === 'test-method' || !result
    ? []
    : result.characteristics
        .filter((each) => each.readings.length > 0)
        .map((each) => ({
          record: step.id,
          characteristic: each.limits.characteristic,
          unit: each.limits.unit,
          ...(result.dataFile === undefined ? {} : { dataFile: result.dataFile }),
          ...(result.dataDigest === undefined ? {} : { dataDigest: result.dataDigest }),
          readings: each.readings,
        }));

/** Walks from a record to everything that shows it and everything that it answers to; undefined where there is no such record. */
export const vouch = (id: string, inputs: VouchInputs): VouchReport | undefined => {
  const { graph, evidence, files } = inputs;
  const stops = [{ id, depth: 0 }, ...walkDown(graph, id)];
  const rawData = new Map(
    stops.flatMap((stop) => {
      const record = graph.record(stop.id);
      const raw = record && rawDataOf(record, evidence.get(stop.id), files);
      return raw ? [[stop.id, raw] as const] : [];
    }),
  );
  const steps = (list: readonly Stop[]): readonly VouchStep[] =>
    list.flatMap((stop) => stepOf(stop, { ...inputs, rawData }) ?? []);
  const [claim, ...down] = steps(stops);
  if (!claim) return undefined;
  const up = steps(walkUp(graph, id));
  const ids = new Set([claim, ...down, ...up].map((step) => step.id));
  return {
    claim,
    up,
    down,
    breaks: breaksOf({
      claim,
      up,
      down,
      hasResult: (step) => evidence.has(step),
      mustAnswer: mustAnswer(claim.type, graph),
    }),
    readings: [claim, ...down].flatMap((step) => readingsOf(step, evidence.get(step.id))),
    rawData: [...rawData.values()],
    findings: inputs.findings.filter(
      (finding) => finding.level !== 'note' && ids.has(finding.records[0] ?? ''),
    ),
  };
};
