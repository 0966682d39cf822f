// Loaded by every process of a run of tests that learns: takes down what the process in which the command is called has counted.
import { appendFileSync } from 'node:fs';

if (process.argv[1]?.endsWith('command-host.mjs')) {
  process.on('exit', () => {
    const { user, system } = process.cpuUsage();
    const reached = Object.keys(globalThis.__stryker__?.mutantCoverage?.static ?? {});
    const line = { file: process.env.MUTATE_TESTS, seconds: (user + system) / 1e6, reached, failed: false };
    appendFileSync(process.env.MUTATE_REACH, `${JSON.stringify(line)}\n`);
  });
}
