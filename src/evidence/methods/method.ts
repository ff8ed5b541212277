import type { VerificationProtocolFields } from '../../records/fields.ts';
import type { Readings } from '../readings.ts';
import type { AcceptanceLimits, CharacteristicEvidence } from '../result.ts';

export type Sampling = VerificationProtocolFields['sampling'];
export type PerUnit = 'maximum' | 'minimum' | 'mean';

export interface MethodInput {
  readonly limits: AcceptanceLimits;
  readonly perUnit?: PerUnit;
  readonly sampling: Sampling;
  readonly readings: Readings;
}

/** A way from raw readings to a verdict. */
export interface EvidenceMethod {
  /** Name in `sampling.kind`. */
  readonly name: string;
  readonly title: string;
  /** Source of the formula. */
  readonly basis: string;
  /** Markdown for `explain`: what it computes, when it holds, what it needs. */
  readonly explain: string;
  /** Fields of `sampling` without which it can't judge. */
  readonly needs: readonly (keyof Sampling)[];
  /** Whether it makes a statement of confidence and reliability, so that the sampling policy applies. */
  readonly statesReliability: boolean;
  /** The smallest sample with which the method can pass at all, where there is one; more where two limits are to be kept. */
  readonly smallestSize?: (
    confidence: number,
    reliability: number,
    accept: number,
    hasTwoLimits?: boolean,
  ) => number;
  /** Fewest units with which the assumption on the distribution can be tested; with fewer the verdict is undecided. */
  readonly fewestUnits?: (sampling: Sampling) => number;
  readonly evaluate: (input: MethodInput) => CharacteristicEvidence;
}
