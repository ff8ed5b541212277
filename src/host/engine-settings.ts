import { version } from 'node:process';
import { setFlagsFromString } from 'node:v8';

/**
 * Settings of V8 for programs that end after seconds, by their names in Node 20, 22 and 24. Compiling what runs often
 * took half of the processors' time of a build, and a fifth of a check's: large functions are left as they are, and
 * others are not copied into their callers. Young objects of threads get their room at once, in place of being copied
 * about while it grows. What is computed is the same.
 */
const settings = [
  '--max-optimized-bytecode-size=2000',
  '--max-inlined-bytecode-size-cumulative=50',
  '--min-semi-space-size=16',
];

/** Sets the engine for a short run. For a Node whose settings are not known nothing is set: it would complain. */
export const settleEngine = (): void => {
  if (/^v(20|22|24)\./.test(version)) for (const setting of settings) setFlagsFromString(setting);
};
