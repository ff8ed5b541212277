import type { Finding } from '../findings/finding.ts';
import type { Signatures } from '../graph/approval-signatures.ts';
import type { Approvals } from '../graph/approvals.ts';
import type { Standing } from '../graph/standing.ts';
import { type Fact, type FactInputs, factsOf } from './step-facts.ts';
import { type Stop, walkDown, walkUp } from './walk.ts';

export interface VouchInputs extends FactInputs {
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
  readonly digest: string;
  readonly standing?: {
    readonly state: string;
    readonly reason: string;
    readonly because: readonly string[];
  };
  readonly facts: readonly Fact[];
  readonly approvals: readonly StepApproval[];
  readonly missingRoles: readonly string[];
}

/** The readings behind a result. */
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
  /** Findings of level error or warning that stand on records of the walk. */
  readonly findings: readonly Finding[];
}

const stepOf = (stop: Stop, inputs: VouchInputs): VouchStep | undefined => {
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
    missingRoles: approvals?.missingRoles ?? [],
  };
};

/** Types whose records bear the weight of the claim: a break in one of them is a break in the chain. */
const bearing: ReadonlySet<string> = new Set([
  'user-need',
  'design-input',
  'risk',
  'risk-control',
  'verification-protocol',
  'validation-protocol',
  'verification-record',
  'validation-record',
  'analysis',
]);

const breaksOf = (claim: VouchStep, down: readonly VouchStep[], readings: number): readonly string[] => {
  const steps = [claim, ...down];
  return [
    ...(claim.standing && claim.standing.state !== 'passed'
      ? [`${claim.id} stands as ${claim.standing.state}: ${claim.standing.reason}`]
      : []),
    ...steps
      .filter((step) => step.standing?.state === 'unplanned' && step !== claim)
      .map((step) => `nothing shows ${step.id} below this: ${step.standing?.reason}`),
    ...steps
      .filter((step) => bearing.has(step.type) && step.status !== 'approved')
      .map((step) => `${step.id} is not approved: its status is ${step.status}`),
    ...steps.flatMap((step) =>
      step.approvals
        .filter((approval) => approval.state === 'lapsed')
        .map(
          (approval) =>
            `the approval of ${step.id} by ${approval.role} of ${approval.date} has lapsed: ${approval.changed.join(', ')} changed`,
        ),
    ),
    ...steps
      .filter((step) => step.status === 'approved' && step.missingRoles.length > 0)
      .map((step) => `${step.id} lacks the approval of ${step.missingRoles.join(' and ')}`),
    ...(readings === 0 && claim.standing ? [`no reading lies below ${claim.id}`] : []),
  ];
};

/** Walks from a record to everything that shows it and everything that it answers to; undefined where there is no such record. */
export const vouch = (id: string, inputs: VouchInputs): VouchReport | undefined => {
  const claim = stepOf({ id, depth: 0 }, inputs);
  if (!claim) return undefined;
  const steps = (stops: readonly Stop[]): readonly VouchStep[] =>
    stops.flatMap((stop) => stepOf(stop, inputs) ?? []);
  const down = steps(walkDown(inputs.graph, id));
  const up = steps(walkUp(inputs.graph, id));
  const readings = [claim, ...down].flatMap(({ id: record, type }): readonly VouchReadings[] => {
    const result = type === 'test-method' ? undefined : inputs.evidence.get(record);
    return (result?.characteristics ?? [])
      .filter((each) => each.readings.length > 0)
      .map((each) => ({
        record,
        characteristic: each.limits.characteristic,
        unit: each.limits.unit,
        ...(result?.dataFile === undefined ? {} : { dataFile: result.dataFile }),
        ...(result?.dataDigest === undefined ? {} : { dataDigest: result.dataDigest }),
        readings: each.readings,
      }));
  });
  const ids = new Set([claim, ...down, ...up].map((step) => step.id));
  return {
    claim,
    up,
    down,
    breaks: breaksOf(claim, down, [claim, ...down].filter((step) => inputs.evidence.has(step.id)).length),
    readings,
    findings: inputs.findings.filter(
      (finding) => finding.level !== 'note' && ids.has(finding.records[0] ?? ''),
    ),
  };
};
