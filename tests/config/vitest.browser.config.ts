import { defineConfig } from 'vitest/config';

/** The built export in a real Chromium: one file at a time, the build made once before them. */
export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['tests/browser/**/*.test.ts'],
    globalSetup: 'tests/browser/build-once.ts',
    testTimeout: 120_000,
    hookTimeout: 120_000,
    fileParallelism: false,
  },
});
