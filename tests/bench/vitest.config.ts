import { defineConfig } from 'vitest/config';

/** Speed as ratios to a floor that is measured in the same run: npm run bench. */
export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['tests/bench/**/*.bench.ts'],
    globalSetup: ['tests/bundle-setup.ts'],
    testTimeout: 300_000,
    fileParallelism: false,
  },
});
