import type { AcceptancePlan } from './acceptance-plan.ts';
import { requireCount } from './argument-checks.ts';

/** General inspection levels; II unless there is a reason for another. */
export type InspectionLevel = 'I' | 'II' | 'III';

/** A plan looked up by lot size and AQL. */
export interface CodeLetterPlan extends AcceptancePlan {
  /** The code letter of the plan that is used; another than that of the lot size where the table points to it. */
  readonly codeLetter: string;
  readonly rejectionNumber: number;
}

const letters = 'ABCDEFGHJKLMNPQR';
const sampleSizes = [2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250, 2000];
const largestLots = [8, 15, 25, 50, 90, 150, 280, 500, 1200, 3200, 10_000, 35_000, 150_000, 500_000];
const byLotSize: Readonly<Record<InspectionLevel, string>> = {
  I: 'AABCCDEFGHJKLMN',
  II: 'ABCDEFGHJKLMNPQ',
  III: 'BCDEFGHJKLMNPQR',
};

/** Acceptable quality limits in per cent nonconforming. */
export const acceptableQualityLimits: readonly number[] = [
  0.01, 0.015, 0.025, 0.04, 0.065, 0.1, 0.15, 0.25, 0.4, 0.65, 1, 1.5, 2.5, 4, 6.5, 10,
];

/** Acceptance numbers along a row of the master table: 0, an arrow up, an arrow down, 1, 2, 3, ... */
const acceptanceNumbers = [0, undefined, undefined, 1, 2, 3, 5, 7, 10, 14, 21];

/** The column of acceptance number 0 in the row of letter A; each further letter has it one column earlier. */
const columnOfZero = 14;

/**
 * The single plan for normal inspection by lot size, general inspection level and AQL in per cent nonconforming. The
 * table of code letters was checked against a public chart of the standard; the master table repeats along its
 * diagonals and is built from that rule, which is from memory and was checked against 12 published or remembered
 * plans: confirm a plan against the standard before relying on it. Where the table points to another sample size,
 * that one counts, also for drawing; a sample that reaches the lot means inspecting every unit. Undefined for an AQL
 * that is none of `acceptableQualityLimits`. Throws a RangeError for a lot of fewer than 2 units.
 *
 * Source: ISO 2859-1, tables 1 and 2-A, the same as ANSI/ASQ Z1.4 and MIL-STD-105E; the master table from memory.
 */
export function codeLetterPlan({
  lotSize,
  acceptableQualityLimit,
  level = 'II',
}: {
  readonly lotSize: number;
  readonly acceptableQualityLimit: number;
  readonly level?: InspectionLevel;
}): CodeLetterPlan | undefined {
  requireCount('lotSize', lotSize, 2);
  const column = acceptableQualityLimits.indexOf(acceptableQualityLimit);
  if (column < 0) return undefined;
  const range = largestLots.findIndex((largest) => lotSize <= largest);
  const row = letters.indexOf(byLotSize[level].at(range)!);
  const diagonal = row + column - columnOfZero;
  const target = Math.max(0, Math.min(acceptanceNumbers.length - 1, settled(diagonal, row)));
  const used = target - column + columnOfZero;
  const acceptanceNumber = acceptanceNumbers[target]!;
  return {
    codeLetter: letters[used]!,
    sampleSize: Math.min(sampleSizes[used]!, lotSize),
    acceptanceNumber,
    rejectionNumber: acceptanceNumber + 1,
  };
}

/**
 * Follows the arrow: up to acceptance number 0, down to 1. Above row A and below row R there is nothing, so their arrows
 * point the other way.
 */
function settled(diagonal: number, row: number): number {
  if (diagonal === 1) return row === 0 ? 3 : 0;
  if (diagonal === 2) return row === letters.length - 1 ? 0 : 3;
  return diagonal;
}
