import { defineConfig } from 'vitest/config';
import { MOCKED, SLOW } from './tests/slow.ts';

const every = 'tests/**/*.test.ts';
/** Libraries are loaded once a process, not once a file: that was most of the time. */
const together = { setupFiles: ['tests/setup.ts'], isolate: false };
const alone = { setupFiles: ['tests/setup.ts'] };
const slow = (file: string): boolean => SLOW.includes(file);

export default defineConfig({
  test: {
    testTimeout: 60_000,
    hookTimeout: 60_000,
    reporters: ['default'],
    // All cores: left alone, one of them is kept free.
    maxWorkers: '100%',
    projects: [
      {
        extends: true,
        test: {
          ...together,
          name: 'quick',
          include: [every],
          exclude: [...MOCKED, ...SLOW],
          globalSetup: 'tests/slow-told.ts',
        },
      },
      { extends: true, test: { ...alone, name: 'quick-alone', include: MOCKED.filter(file => !slow(file)) } },
      {
        extends: true,
        test: {
          ...together,
          name: 'slow',
          include: SLOW.filter(file => !MOCKED.includes(file)),
        },
      },
      { extends: true, test: { ...alone, name: 'slow-alone', include: MOCKED.filter(slow) } },
    ],
  },
});
