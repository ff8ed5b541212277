import { sha256Hex } from '../graph/digest.ts';
import { compareIds } from '../graph/trace-graph.ts';

/** A sample that anybody can draw again from the ids, the seed and its size. */
export interface Sample {
  readonly seed: string;
  readonly population: number;
  /** In order of id. */
  readonly ids: readonly string[];
}

/**
 * Draws a sample without replacement: of all ids those whose SHA-256 of seed, blank and id is smallest. Every sample of
 * the size is as likely as any other, the order of files plays no part, and it can be drawn again with a tool that
 * computes SHA-256. Of a population smaller than the sample all are taken.
 */
export const drawSample = (population: readonly string[], size: number, seed: string): Sample => {
  const ranked = [...new Set(population)]
    .map((id) => ({ id, rank: sha256Hex(new TextEncoder().encode(`${seed} ${id}`)) }))
    .sort((a, b) => (a.rank < b.rank ? -1 : 1));
  return {
    seed,
    population: ranked.length,
    ids: ranked
      .slice(0, size)
      .map(({ id }) => id)
      .sort(compareIds),
  };
};
