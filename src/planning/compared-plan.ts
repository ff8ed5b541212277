/** The statement that a plan shall support: with `confidence`, at least the share `reliability` of units conforms. */
export interface Statement {
  readonly confidence: number;
  readonly reliability: number;
}

interface Comparable {
  /** Short name, one for each plan of a comparison. */
  readonly name: string;
  /** One character for plots of characters. */
  readonly sign: string;
  /** Probability of passing at a share of units that do not conform, from 0 to 1. */
  readonly acceptance: (share: number) => number;
  /** Probability of passing where the share that conforms is only just the reliability: at most 1 - confidence. */
  readonly risk: number;
  /** Probability of passing at the expected quality, where there is one. */
  readonly chance?: number;
}

/** At most `acceptanceNumber` failing units among `sampleSize`. */
export interface AttributeCandidate extends Comparable {
  readonly kind: 'attribute';
  readonly sampleSize: number;
  readonly acceptanceNumber: number;
}

/** Mean minus (plus) `factor` standard deviations keeps the limits. */
export interface VariablesCandidate extends Comparable {
  readonly kind: 'variables';
  readonly sampleSize: number;
  readonly factor: number;
  readonly sides: 'one' | 'two';
  /** Units that the statement itself would take, where they are too few to test normality and the plan takes more. */
  readonly sizeOfStatement?: number;
}

/** What a sequential plan says about one number of failing units. */
export interface SequentialStep {
  readonly failures: number;
  /** First unit after which so few failures are accepted; undefined where that comes after the last unit. */
  readonly acceptFrom?: number;
  /** Last unit up to which so many failures are rejected; undefined where so many never are. */
  readonly rejectUpTo?: number;
}

/** Units one after the other, until the number failing decides. */
export interface SequentialCandidate extends Comparable {
  readonly kind: 'sequential';
  readonly averageSampleNumber: number;
  /** Average at the quality that must be kept out. */
  readonly averageSampleNumberAtLimit: number;
  readonly largestSample: number;
  /** Failing units accepted after the last unit. */
  readonly acceptedAtEnd: number;
  readonly acceptanceIntercept: number;
  readonly rejectionIntercept: number;
  readonly slope: number;
  readonly steps: readonly SequentialStep[];
}

export type ComparedPlan = AttributeCandidate | VariablesCandidate | SequentialCandidate;

/** A kind of plan that cannot be offered, and why. */
export interface UnavailablePlan {
  readonly kind: ComparedPlan['kind'];
  readonly reason: string;
}

/** Units that a plan takes: for a sequential one the average at the expected quality. */
export const unitsOf = (plan: ComparedPlan): number =>
  plan.kind === 'sequential' ? plan.averageSampleNumber : plan.sampleSize;

/** The share of units that the statement lets fail, without the digits that 1 - 0.95 leaves behind. */
export const claimedShare = ({ reliability }: Statement): number => Number((1 - reliability).toPrecision(12));
