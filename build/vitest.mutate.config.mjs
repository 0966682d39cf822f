// The tests that mutants are put before: those named by MUTATE_TESTS, folders or files with commas between them.
import { defineConfig } from 'vitest/config';

const named = (process.env.MUTATE_TESTS ?? 'tests').split(',');

export default defineConfig({
  test: {
    setupFiles: ['tests/setup.ts'],
    testTimeout: 60_000,
    include: named.map(name => (name.endsWith('.ts') ? name : `${name}/**/*.test.ts`)),
    isolate: false,
  },
});
