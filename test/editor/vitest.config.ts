import { defineConfig } from 'vitest/config';

/** One editor, one journey: its tests build on each other, and the first that fails ends it. */
export default defineConfig({
  test: {
    include: ['test/editor/**/*.test.ts'],
    testTimeout: 90_000,
    hookTimeout: 120_000,
    fileParallelism: false,
    bail: 1,
  },
});
