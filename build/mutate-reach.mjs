// In every test file while it is learnt which tests reach which mutants: what was counted, and what the file takes of the processor.
import { appendFileSync } from 'node:fs';
import { afterAll } from 'vitest';

const file = globalThis.__vitest_worker__.filepath;
const before = process.cpuUsage();
const space = (globalThis.__stryker__ ??= {});
space.currentTestId = file;

const fails = ({ result, tasks = [] }) => result?.state === 'fail' || tasks.some(fails);

// oxlint-disable-next-line no-empty-pattern -- the runner reads the text of the function, and takes nothing else for its first argument
afterAll(({}, suite) => {
  const { user, system } = process.cpuUsage(before);
  const failed = fails(suite);
  const reached = Object.keys(space.mutantCoverage?.perTest[file] ?? {});
  appendFileSync(
    process.env.MUTATE_REACH,
    `${JSON.stringify({ file, seconds: (user + system) / 1e6, reached, failed })}\n`,
  );
});
