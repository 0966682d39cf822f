import { defineConfig } from 'vitest/config';

/** Tests that put another module in the place of one of ours: they need a process of their own. */
const MOCKED = ['tests/cli/faults.test.ts', 'tests/notebook/mutations.test.ts'];

export default defineConfig({
  test: {
    setupFiles: ['tests/setup.ts'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    reporters: ['default'],
    // All cores: left alone, one of them is kept free.
    maxWorkers: '100%',
    projects: [
      {
        extends: true,
        // Libraries are loaded once a process, not once a file: that was most of the time.
        test: { name: 'together', include: ['tests/**/*.test.ts'], exclude: MOCKED, isolate: false },
      },
      { extends: true, test: { name: 'alone', include: MOCKED } },
    ],
  },
});
