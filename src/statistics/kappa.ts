/** Agreement beyond chance: 1 is full agreement, 0 what chance would give. */
import { type Computed, computed, dataProblem } from './data-problem.ts';
import { compensatedSum } from './descriptive.ts';

/**
 * Cohen's kappa of paired ratings. Needs one pair; there is no kappa when both sides use one and the same category
 * throughout.
 *
 * Source: Cohen, Educational and Psychological Measurement 20 (1960).
 */
export function cohenKappa(pairs: readonly (readonly [string, string])[]): Computed<number> {
  if (pairs.length === 0) return dataProblem('too-few-values', '0 pairs of ratings, at least 1 needed');
  const first = tally(pairs.map((pair) => pair[0]));
  const second = tally(pairs.map((pair) => pair[1]));
  const observed = pairs.filter(([a, b]) => a === b).length / pairs.length;
  const products = [...first].map(([category, count]) => count * (second.get(category) ?? 0));
  return beyondChance(observed, compensatedSum(products) / pairs.length ** 2);
}

/**
 * Fleiss' kappa: `subjects` holds the ratings that each subject got. Every subject needs the same number of ratings,
 * at least two; there is no kappa when all ratings are the same.
 *
 * Source: Fleiss, Psychological Bulletin 76 (1971).
 */
export function fleissKappa(subjects: readonly (readonly string[])[]): Computed<number> {
  const ratings = subjects[0]?.length ?? 0;
  if (ratings < 2) return dataProblem('too-few-values', `${ratings} ratings per subject, at least 2 needed`);
  const uneven = subjects.findIndex((subject) => subject.length !== ratings);
  if (uneven >= 0)
    return dataProblem(
      'unbalanced',
      `subject ${uneven + 1} has ${subjects[uneven]!.length} ratings, not ${ratings}`,
    );
  const total = subjects.length * ratings;
  const agreeing = subjects.map((subject) =>
    compensatedSum([...tally(subject).values()].map((count) => count * (count - 1))),
  );
  const observed = compensatedSum(agreeing) / (total * (ratings - 1));
  const shares = [...tally(subjects.flat()).values()].map((count) => (count / total) ** 2);
  return beyondChance(observed, shares.length === 1 ? 1 : compensatedSum(shares));
}

function beyondChance(observed: number, chance: number): Computed<number> {
  if (chance >= 1) return dataProblem('no-spread', 'all ratings are the same');
  return computed((observed - chance) / (1 - chance));
}

function tally(ratings: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const rating of ratings) counts.set(rating, (counts.get(rating) ?? 0) + 1);
  return counts;
}
