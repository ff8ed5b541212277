import { normalQuantile } from '../../src/statistics/distributions.ts';

/** Uniform numbers between 0 and 1, both excluded: mulberry32, the same sequence for the same seed. */
export function seededUniforms(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return (((mixed ^ (mixed >>> 14)) >>> 0) + 0.5) / 2 ** 32;
  };
}

/** Standard normal numbers by inversion. */
export function seededNormals(seed: number): () => number {
  const uniform = seededUniforms(seed);
  return () => normalQuantile(uniform());
}
