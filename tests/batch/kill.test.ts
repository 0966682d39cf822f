/** Killed without warning, twenty times; two runs at once on one file; Ctrl-C. */
import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import * as fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import type { Job } from '../../src/batch/job.ts';
import { runJob } from '../../src/batch/run.ts';
import { here, mix, testBundles, testFolder } from './place.ts';

const file = testFolder();
const bundled = testBundles();
const job = mix(12_000, { work: 2500 });
let child: string;
let worker: string;
let expected: Buffer;
beforeAll(async () => {
  [child, worker] = [await bundled('child'), await bundled('worker')];
  await runJob(job, { ...here, store: file('whole.rows') });
  expected = readFileSync(file('whole.rows'));
});

function start(store: string, workers: number, what: Job = job): ChildProcess {
  const args = [child, store, JSON.stringify(what), String(workers), worker];
  return spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] });
}

/** The moments come from the seed of all property tests, and from the scheduler of the machine. */
const moments = fc.sample(fc.integer({ min: 0, max: 150 }), { numRuns: 20, seed: fc.readConfigureGlobal().seed ?? 1 });

it('goes on after kill -9 at twenty moments, and ends with the file of an undisturbed run', async () => {
  const store = file('killed.rows');
  let kills = 0;
  for (let round = 0; kills < moments.length; round++) {
    const code = await killed(start(store, 1 + (round % 2)), moments[kills]!);
    if (code === null) kills++;
    else {
      // Too quick for us: from the start once more.
      expect(code).toBe(0);
      expect(readFileSync(store).equals(expected)).toBe(true);
      rmSync(store);
    }
  }
  expect(await exit(start(store, 2))).toBe(0);
  expect(readFileSync(store).equals(expected)).toBe(true);
});

it('is done by two runs at once on one file as by one', async () => {
  const store = file('both.rows');
  expect(await Promise.all([start(store, 1), start(store, 2)].map(exit))).toEqual([0, 0]);
  expect(readFileSync(store).equals(expected)).toBe(true);
});

it('keeps what is done at Ctrl-C, and goes on', async () => {
  const store = file('interrupted.rows');
  const running = start(store, 2);
  running.stdout?.once('data', () => running.kill('SIGINT'));
  expect(await exit(running)).toBe(130);
  expect(await exit(start(store, 2))).toBe(0);
  expect(readFileSync(store).equals(expected)).toBe(true);
});

it('ends at the second Ctrl-C even in the middle of a row', async () => {
  const running = start(file('endless.rows'), 2, mix(100, { work: 1e12 }));
  running.stdout?.on('data', () => running.kill('SIGINT'));
  expect(await exit(running)).toBe(130);
});

/** Kills a process so many milliseconds after its first word; its exit code, null when it was killed. */
async function killed(child: ChildProcess, after: number): Promise<number | null> {
  const timer = new Promise<void>(resolve => child.stdout?.once('data', () => setTimeout(resolve, after)));
  void timer.then(() => child.kill('SIGKILL'));
  child.stdout?.resume();
  return exit(child);
}

function exit(child: ChildProcess): Promise<number | null> {
  child.stdout?.resume();
  return new Promise(resolve => child.once('exit', resolve));
}
