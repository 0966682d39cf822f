// Changes the source in small ways and asks whether a test notices: npm run mutate -- src/model/pack/charging.ts tests/model/pack,tests/runs/charge
// Prints every mutant that lived, and the score; docs/MUTATION.md keeps the scores of the core.
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const [files, tests] = process.argv.slice(2);
process.chdir(root);
if (process.argv.includes('--sample')) {
  const { mutateSample } = await import('./mutate-sample.mjs');
  await mutateSample();
  process.exit();
}
if (files === undefined || tests === undefined) {
  console.error(
    'usage: npm run mutate -- FILE[,FILE...] TESTS[,TESTS...] or --sample N --seed S [--minutes M] [--budget SECONDS]',
  );
  process.exit(2);
}
process.env.MUTATE_TESTS = tests;
const { Stryker } = await import('@stryker-mutator/core');

const found = await new Stryker({
  mutate: files.split(','),
  testRunner: 'vitest',
  vitest: { configFile: 'build/vitest.mutate.config.mjs', related: false },
  plugins: ['@stryker-mutator/vitest-runner'],
  coverageAnalysis: 'perTest',
  concurrency: Number(process.env.MUTATE_WORKERS ?? 1),
  reporters: [],
  // Words are held by other tests; a message that changes is no physics.
  mutator: { excludedMutations: ['StringLiteral'] },
  tempDirName: 'out/mutate',
  cleanTempDir: 'always',
  disableTypeChecks: true,
  // The compiler has no interface for programs that it could be rewritten by; the sandbox needs none.
  tsconfigFile: 'none.json',
  timeoutMS: 20_000,
  /** @type {any} */
  // @ts-ignore the library wants a member of its own list of names
  logLevel: 'error',
  allowConsoleColors: false,
  ignorePatterns: ['dist', 'out', 'scenarios', 'bench', 'biome.json'],
  clearTextReporter: { allowColor: false },
}).runMutationTest();

const counts = new Map();
for (const { status } of found) counts.set(status, (counts.get(status) ?? 0) + 1);
for (const { status, fileName, location, replacement, mutatorName } of found) {
  if (status !== 'Survived' && status !== 'NoCoverage') continue;
  const { line, column } = location.start;
  console.log(`${status} ${fileName.replace(root, '')}:${line}:${column} ${mutatorName}: ${replacement}`);
}
const of = status => counts.get(status) ?? 0;
const dead = of('Killed') + of('Timeout');
const all = dead + of('Survived') + of('NoCoverage');
console.log(`${files}: ${dead} of ${all} died (${Math.round((100 * dead) / Math.max(1, all))} %)`);
