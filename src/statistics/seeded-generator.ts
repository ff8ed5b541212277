/**
 * Random numbers for simulations that must give the same figures everywhere: xoshiro128**, version 1.1 (Blackman and
 * Vigna, ACM Transactions on Mathematical Software 47, 2021). Its four words of state are filled from one seed by
 * SplitMix32, the 32-bit form of Steele, Lea and Flood's mixer (OOPSLA 2014) with the finaliser of MurmurHash3.
 */
import { requireCount } from './argument-checks.ts';

/** The seed of every simulation of this folder. Nothing hangs on its value: it is the year of Fisher's birth. */
export const simulationSeed = 1890;

/** Four words of 32 bits, not all 0. */
export type GeneratorState = readonly [number, number, number, number];

/**
 * The generator's words, whole numbers from 0 to 2^32 - 1.
 *
 * Source: Blackman and Vigna, ACM Transactions on Mathematical Software 47 (2021), xoshiro128** 1.1.
 */
export function xoshiro128StarStar(state: GeneratorState): () => number {
  let [a, b, c, d] = state;
  return () => {
    const result = Math.imul(rotated(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = rotated(d, 11);
    return result;
  };
}

/**
 * Uniform numbers between 0 and 1, both excluded, on a grid of 2^-53: the same sequence for the same seed, a whole
 * number from 0. Throws a RangeError on another seed.
 *
 * Source: as `xoshiro128StarStar`; 53 bits of two words to the middle of a cell of the grid.
 */
export function seededUniforms(seed: number): () => number {
  requireCount('seed', seed, 0);
  const mix = splitMix32(seed);
  const next = xoshiro128StarStar([mix(), mix(), mix(), mix()]);
  return () => ((next() >>> 5) * 0x4000000 + (next() >>> 6) + 0.5) / 0x20000000000000;
}

/**
 * Standard exponential numbers by inversion.
 *
 * Source: inversion of the distribution function: Devroye, Non-Uniform Random Variate Generation (1986), chapter 2.
 */
export function seededExponentials(seed: number): () => number {
  const uniform = seededUniforms(seed);
  return () => -Math.log(uniform());
}

/**
 * Standard normal numbers by the polar method, two from each accepted point.
 *
 * Source: Marsaglia and Bray, SIAM Review 6 (1964).
 */
export function seededNormals(seed: number): () => number {
  const uniform = seededUniforms(seed);
  let spare: number | undefined;
  return () => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const scale = Math.sqrt((-2 * Math.log(square)) / square);
      spare = y * scale;
      return x * scale;
    }
  };
}

function rotated(word: number, bits: number): number {
  return (word << bits) | (word >>> (32 - bits));
}

function splitMix32(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return (mixed ^ (mixed >>> 16)) >>> 0;
  };
}
