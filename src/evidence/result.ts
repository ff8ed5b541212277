import type { Finding } from '../findings/finding.ts';
import type { Verdict } from '../graph/standing.ts';

/** A number that the evaluation found, for reports and for inline values in documents. */
export interface NamedValue {
  /** Snake case, for `:value[VR-09A/lower_bound]`. */
  readonly key: string;
  readonly label: string;
  readonly value: number;
  /** UCUM code; `1` where the number has no unit. */
  readonly unit: string;
  /** Decimals to print, unless a document asks for others. */
  readonly decimals: number;
}

/** A condition that the method rests on, with the outcome of testing it. */
export interface Assumption {
  readonly name: string;
  /** `to explain`: something was seen that decides nothing by itself, such as a trend in the order of the run. */
  readonly outcome: 'met' | 'not met' | 'not tested' | 'to explain';
  readonly detail: string;
}

/** Limits that the data were held against. */
export interface AcceptanceLimits {
  readonly characteristic: string;
  readonly unit: string;
  readonly lower?: number;
  readonly upper?: number;
  /** The limits as the protocol writes them, so that 8.0 stays 8.0 in a report. */
  readonly lowerText?: string;
  readonly upperText?: string;
  readonly criterion?: string;
}

/** Intermediate results in rows and columns, so that a reviewer can repeat the calculation. */
export interface EvidenceTable {
  readonly title: string;
  /** The first column names the row; the others hold numbers as they are to be printed. */
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Numbers behind a figure of a study, where the readings alone don't tell it. */
export type EvidenceChart =
  | {
      readonly kind: 'gauge-components';
      readonly components: readonly {
        readonly name: string;
        readonly percentContribution: number;
        readonly percentStudyVariation: number;
        readonly percentTolerance?: number;
      }[];
      /** Largest accepted share of the tolerance in per cent. */
      readonly accepted?: number;
    }
  | {
      readonly kind: 'bias';
      readonly readings: readonly { readonly reference: number; readonly bias: number }[];
      readonly references: readonly {
        readonly reference: number;
        readonly bias: number;
        readonly lower: number;
        readonly upper: number;
      }[];
      /** The fitted line with its band, at the references. Absent with one reference. */
      readonly line?: readonly {
        readonly reference: number;
        readonly bias: number;
        readonly lower: number;
        readonly upper: number;
      }[];
    };

/** `below`: the unit lay below the reading, written `<15`; `above`: above it, written `>100`. */
export type Beyond = 'below' | 'above';

/** What the data say about one characteristic. */
export interface CharacteristicEvidence {
  readonly limits: AcceptanceLimits;
  readonly verdict: Verdict;
  /** Why, in one sentence that a report can print. */
  readonly reason: string;
  readonly sampleSize: number;
  readonly values: readonly NamedValue[];
  readonly assumptions: readonly Assumption[];
  /** What to do where the data do not decide. */
  readonly remedy?: string;
  /** The readings that counted, one for each unit, in the order of the file, in the unit of the limits. */
  readonly readings: readonly number[];
  /** Present where a unit may have several readings: the worst of each unit stands among the readings. */
  readonly areWorstOfUnit?: true;
  /** For each reading: whether the unit lay beyond it, at the end of the range. Absent where every unit was measured. */
  readonly beyond?: readonly (Beyond | undefined)[];
  /** The readings of each group, where groups are compared and no single reading is held against the limits. */
  readonly groups?: readonly { readonly name: string; readonly values: readonly number[] }[];
  readonly tables?: readonly EvidenceTable[];
  readonly chart?: EvidenceChart;
}

/** What a record's raw data or calculation show. */
export interface EvidenceResult {
  /** The record that carries the data: verification record, validation record, analysis or test method. */
  readonly record: string;
  readonly protocol?: string;
  /** Name of the evidence method, calculation or study. */
  readonly method: string;
  /** How it was computed: method and source of the formula. */
  readonly basis: string;
  readonly characteristics: readonly CharacteristicEvidence[];
  readonly verdict: Verdict;
  readonly reason: string;
  readonly plannedSize?: number;
  /** Units in the data without the excluded ones. */
  readonly unitCount: number;
  readonly excludedUnits: readonly string[];
  readonly lots: readonly string[];
  /** Participants by user group, for validation records. */
  readonly groups?: ReadonlyMap<string, number>;
  /** Outcomes by task, for validation records. */
  readonly tasks?: ReadonlyMap<string, TaskOutcomes>;
  /** What is wrong with the data. */
  readonly findings: readonly Finding[];
  readonly dataFile?: string;
  readonly dataDigest?: string;
}

export interface TaskOutcomes {
  readonly success: number;
  readonly difficulty: number;
  readonly closeCall: number;
  readonly useError: number;
  readonly other: number;
  /** Words of the data in lower case, by participant; several where a participant has several rows. */
  readonly byParticipant: ReadonlyMap<string, readonly string[]>;
}

/** The weakest of several verdicts: a fail is a fail, whatever else is undecided. */
export const combineVerdicts = (verdicts: readonly Verdict[]): Verdict =>
  verdicts.includes('fail')
    ? 'fail'
    : verdicts.length === 0 || verdicts.includes('undecided')
      ? 'undecided'
      : 'pass';
