import { defineConfig } from 'vitest/config';

/** Tests that need system packages: LibreOffice, poppler's tools and Chromium. One after the other, for they are heavy. */
export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['tests/system/**/*.test.ts'],
    globalSetup: ['tests/bundle-setup.ts'],
    testTimeout: 240_000,
    hookTimeout: 240_000,
    fileParallelism: false,
  },
});
