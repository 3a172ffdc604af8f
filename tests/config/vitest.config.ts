import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    exclude: ['tests/simulation/**', 'tests/browser/**', 'node_modules/**'],
    testTimeout: 60_000,
    maxWorkers: 2,
  },
});
