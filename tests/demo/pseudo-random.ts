/** A stream of pseudo-random numbers: the same seed gives the same numbers on every machine. */
export interface RandomStream {
  /** Uniform, from 0 up to, not including, 1. */
  readonly uniform: () => number;
  /** Bell-shaped with mean 0 and standard deviation 1. */
  readonly bell: () => number;
  /** A whole number from 0 up to, not including, `below`. */
  readonly whole: (below: number) => number;
}

/**
 * Starts a stream (mulberry32: 32-bit integer steps only). The bell shape is the sum of twelve uniform numbers, since
 * logarithms and cosines may differ in the last place between machines.
 */
export const randomStream = (seed: number): RandomStream => {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const bell = (): number => Array.from({ length: 12 }, uniform).reduce((sum, value) => sum + value, -6);
  return { uniform, bell, whole: (below) => Math.floor(uniform() * below) };
};
