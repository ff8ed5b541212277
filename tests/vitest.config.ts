import { defineConfig } from 'vitest/config';

/** Everything that needs no system package. */
export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/system/**', 'tests/bench/**'],
    globalSetup: ['tests/bundle-setup.ts'],
    // Left to itself the runner keeps one processor free, which halves a machine of two.
    maxWorkers: '100%',
    // Tests share no state that one of them changes, so a worker loads the sources once and not again for each file.
    isolate: false,
    testTimeout: 60_000,
    coverage: { include: ['src/**'], reportsDirectory: 'build/coverage' },
  },
});
