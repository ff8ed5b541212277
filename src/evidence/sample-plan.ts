import type { VerificationProtocolFields } from '../records/fields.ts';
import { successRunSampleSize } from '../statistics/success-run.ts';
import type { Bounds } from './limit-comparison.ts';
import { evidenceMethod } from './methods/index.ts';
import type { EvidenceResult } from './result.ts';

export type SamplePlan = VerificationProtocolFields['sampling'];

/** What the planned size counts where it is not units: items or results of a characteristic. */
const counted: ReadonlyMap<string, string> = new Map([
  ['inspection-checklist', 'items'],
  ['laboratory-maximum', 'results'],
]);

/** What the planned size of a method counts, in the plural. */
export const countedThings = (method: string): string => counted.get(method) ?? 'units';

/**
 * How many units (or, for checklists and laboratories, items or results) counted; the fewest over the
 * characteristics. Undefined where the data could not be read so far.
 */
export const countedSize = (result: EvidenceResult): number | undefined => {
  if (counted.has(result.method)) {
    const sizes = result.characteristics.map((each) => each.sampleSize);
    return result.findings.length > 0 || sizes.length === 0 ? undefined : Math.min(...sizes);
  }
  return result.findings.length > 0 && result.unitCount === 0 ? undefined : result.unitCount;
};

/**
 * The smallest sample with which a plan can show its own confidence and reliability, where its method has one. Of several
 * characteristics the one with most limits decides.
 */
export const smallestPassingSize = (
  plan: SamplePlan,
  acceptance: readonly Pick<Bounds, 'lower' | 'upper'>[] = [],
): number | undefined => {
  const { kind, confidence, reliability, accept = 0 } = plan;
  if (confidence === undefined || reliability === undefined) return undefined;
  return evidenceMethod(kind)?.smallestSize?.(
    confidence,
    reliability,
    accept,
    acceptance.some(({ lower, upper }) => lower !== undefined && upper !== undefined),
  );
};

/** Whether a method speaks of confidence and reliability, so that the sampling policy and the number of lots matter. */
export const statesReliability = (kind: string): boolean => evidenceMethod(kind)?.statesReliability ?? false;

/** Units of the plan without failures that shows a reliability with a confidence. */
export const zeroFailureSize = (confidence: number, reliability: number): number =>
  successRunSampleSize({ confidence, reliability });
