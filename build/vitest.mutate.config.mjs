// The tests that mutants are put before: those named by MUTATE_TESTS, folders or files with commas between them.
// MUTATE_TEXTS names a JSON file of sources that stand in the place of those on disk; MUTATE_REACH a file that takes down what tests reach.
import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { defineConfig } from 'vitest/config';
import { MOCKED, SLOW } from '../tests/slow.ts';

const named = (process.env.MUTATE_TESTS ?? 'tests').split(',');
const texts = process.env.MUTATE_TEXTS === undefined ? {} : JSON.parse(readFileSync(process.env.MUTATE_TEXTS, 'utf8'));
const textOf = id => texts[relative(process.cwd(), id)];
const learns = process.env.MUTATE_REACH !== undefined;

export default defineConfig({
  plugins: [
    {
      name: 'mutant',
      enforce: 'pre',
      load: textOf,
      // What was compiled is kept from mutant to mutant, but for what stands in the place of a source.
      configureVitest: vitest =>
        vitest.experimental_defineCacheKeyGenerator(({ id }) => (textOf(id) === undefined ? undefined : false)),
    },
  ],
  test: {
    experimental: { fsModuleCache: process.env.MUTATE_TEXTS !== undefined, fsModuleCachePath: 'out/mutants/compiled' },
    setupFiles: ['tests/setup.ts', ...(learns ? ['build/mutate-reach.mjs'] : [])],
    testTimeout: 60_000,
    include: named.map(name => (name.endsWith('.ts') ? name : `${name}/**/*.test.ts`)),
    exclude: process.env.MUTATE_TEXTS === undefined ? [] : [...MOCKED, ...SLOW],
    isolate: false,
  },
});
