/** The same numbers, and the same bytes, however the rows are done. */
import { readFileSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import * as fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type WorkerPool, createWorkerPool } from '../../src/batch/worker-pool.ts';
import type { Consumer } from '../../src/batch/consumer.ts';
import { type Job, toolName } from '../../src/batch/job.ts';
import { type RunOptions, runJob } from '../../src/batch/run.ts';
import { createTable, tableHere } from '../../src/batch/table.ts';
import { testEvaluators } from './evaluators.ts';
import { here, mix, testBundles, testFolder } from './place.ts';

const file = testFolder();
const bundled = testBundles();
let worker: URL;
const pools = new Map<number, WorkerPool | null>();
beforeAll(async () => {
  worker = pathToFileURL(await bundled('worker'));
  for (const workers of [1, 2, 3]) {
    const pool = createWorkerPool(worker, workers);
    await pool?.start();
    pools.set(workers, pool);
  }
});
afterAll(async () => {
  for (const pool of pools.values()) await pool?.close();
});

/** Every row in one of so many threads; one stands for this thread. */
const by = (workers: number): RunOptions => ({ ...here, pool: pools.get(workers)!, poolFrom: 0 });

const fails = (rows: number, at: readonly number[]): Job => ({ kind: 'fails', payload: { at }, rows, columns: ['a'] });

/** Notes the portions, and has enough after some. */
function portions(every: number, enough = Number.POSITIVE_INFINITY): { consumer: Consumer; seen: [number, number][] } {
  const seen: [number, number][] = [];
  const take: Consumer['take'] = ({ first, count }) => {
    seen.push([first, count]);
    return first + count >= enough ? 'enough' : 'more';
  };
  return { consumer: { every, take }, seen };
}

describe('any number of workers', () => {
  it('gives the numbers of this thread', async () => {
    const job = mix(3000);
    const expected = tableHere(job, testEvaluators);
    expect(expected.column('a')[3]).toBeNaN();
    expect(expected.code(3)).toBe('no answer');
    expect(expected.code(26)).toBe('größer als 26');
    expect(expected.column('b')[0]).toBe(Number.POSITIVE_INFINITY);
    for (const workers of [1, 2, 3]) {
      const { consumer, table } = createTable(job);
      const outcome = await runJob(job, { ...by(workers), consumer });
      expect(outcome).toMatchObject({ state: 'complete', rows: 3000, found: 0 });
      for (const name of job.columns) expect(table.column(name)).toEqual(expected.column(name));
      expect(Array.from({ length: 3000 }, (_, row) => table.code(row))).toEqual(
        Array.from({ length: 3000 }, (_, row) => expected.code(row)),
      );
    }
  });

  it('writes the same file', async () => {
    const job = mix(3000, { work: 200 });
    const files: Buffer[] = [];
    for (const workers of [1, 2, 3]) {
      const store = file(`workers-${workers}.rows`);
      await runJob(job, { ...by(workers), store });
      files.push(readFileSync(store));
    }
    expect(files[0]!.length).toBeGreaterThan(3000 * 36);
    expect(files[1]!.equals(files[0]!)).toBe(true);
    expect(files[2]!.equals(files[0]!)).toBe(true);
  });

  it('stays in this thread where there is no worker file', async () => {
    const job = mix(50);
    const { consumer, table } = createTable(job);
    await runJob(job, { ...here, pool: createWorkerPool(new URL('file:///no/such/worker.js'), 2), consumer });
    expect(table.column('b')).toEqual(tableHere(job, testEvaluators).column('b'));
  });
});

describe('a consumer', () => {
  it('gets portions that do not depend on the workers', async () => {
    for (const workers of [1, 2]) {
      const { consumer, seen } = portions(300);
      await runJob(mix(1000), { ...by(workers), consumer });
      expect(seen).toEqual([
        [0, 300],
        [300, 300],
        [600, 300],
        [900, 100],
      ]);
    }
  });

  it('ends the job when it has enough, in one run or in several', async () => {
    const job = mix(5000);
    const once = file('once.rows');
    const { consumer } = portions(100, 1200);
    expect(await runJob(job, { ...here, store: once, consumer })).toMatchObject({ state: 'complete', rows: 1200 });
    const bytes = readFileSync(once);
    for (const before of [300, 2500, 5000]) {
      const store = file(`again-${before}.rows`);
      await runJob(job, { ...by(2), store, consumer: portions(100, before).consumer });
      const outcome = await runJob(job, { ...by(2), store, consumer: portions(100, 1200).consumer });
      expect(outcome).toMatchObject({ rows: 1200, found: Math.min(before, 1200) });
      expect(readFileSync(store).equals(bytes)).toBe(true);
    }
  });

  it('does not go with a shard', async () => {
    const { consumer } = portions(10);
    await expect(runJob(mix(10), { ...here, shard: { number: 1, count: 2 }, consumer })).rejects.toThrow(
      'gather first',
    );
  });
});

describe('an interruption', () => {
  it('keeps what is done, and going on ends with the same file', async () => {
    const job = mix(20_000, { work: 50 });
    const whole = file('undisturbed.rows');
    await runJob(job, { ...here, store: whole });
    const bytes = readFileSync(whole);
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 9 }), fc.constantFrom(1, 2, 3)), { maxLength: 4 }),
        async stops => {
          const store = file(`interrupted-${fc.stringify(stops)}.rows`);
          let kept = 0;
          for (const [after, workers] of stops) {
            const controller = new AbortController();
            let told = 0;
            const onProgress = (): void => void (++told > after && controller.abort());
            const outcome = await runJob(job, { ...by(workers), store, signal: controller.signal, onProgress });
            expect(outcome.found).toBe(kept);
            expect(outcome.state).toBe(outcome.rows === job.rows ? 'complete' : 'interrupted');
            kept = outcome.rows;
          }
          await runJob(job, { ...by(2), store });
          expect(readFileSync(store).equals(bytes)).toBe(true);
        },
      ),
      { numRuns: 5 },
    );
  });

  it('before the start does nothing', async () => {
    const outcome = await runJob(mix(10), { ...by(2), signal: AbortSignal.abort() });
    expect(outcome).toMatchObject({ state: 'interrupted', rows: 0 });
  });
});

describe('a row that fails', () => {
  it('is the first that does, for any number of workers, and the rows before it are kept', async () => {
    for (const workers of [1, 2, 3]) {
      const store = file(`fails-${workers}.rows`);
      const job = fails(2000, [1999, 700, 701, 1200]);
      await expect(runJob(job, { ...by(workers), store })).rejects.toThrow(
        'job "fails", row 700: RangeError: cannot do 700',
      );
      const told: number[] = [];
      const again = runJob(job, { ...by(workers), store, onProgress: done => void told.push(done) });
      await expect(again).rejects.toThrow('row 700');
      expect(told[0]).toBe(700);
    }
    expect(() => tableHere(fails(20, [9]), testEvaluators)).toThrow('row 9: RangeError: cannot do 9');
  });

  it('does not matter behind the rows that were enough', async () => {
    const outcome = await runJob(fails(2000, [150]), { ...by(2), consumer: portions(100, 100).consumer });
    expect(outcome).toMatchObject({ state: 'complete', rows: 100 });
  });

  it('may be one that ends its thread', async () => {
    const job: Job = { kind: 'dies', payload: null, rows: 100, columns: ['a'] };
    await expect(runJob(job, { ...by(2) })).rejects.toThrow('a worker thread ended');
  });

  it('may be in a thread that cannot even start', async () => {
    const broken = file('broken.mjs');
    writeFileSync(broken, 'throw new Error("cannot load");\n');
    const pool = createWorkerPool(pathToFileURL(broken), 2);
    await pool?.start();
    const run = runJob(mix(100), { ...here, pool, poolFrom: 0 });
    await expect(run).rejects.toThrow('a worker thread ended: cannot load');
    await pool?.close();
  });

  it('may want an evaluator that is not there', async () => {
    const job: Job = { kind: 'dance', payload: null, rows: 100, columns: ['a'] };
    await expect(runJob(job, { ...by(2) })).rejects.toThrow('no evaluator "dance"; known are mix, fails, dies');
  });
});

describe('a job that is none', () => {
  it.each([
    [{ ...mix(0) }, '1 to 4294967294 rows, not 0'],
    [{ ...mix(1.5) }, 'rows, not 1.5'],
    [{ ...mix(5), columns: [] }, 'one or more different names'],
    [{ ...mix(5), columns: ['a', 'a'] }, 'one or more different names'],
    [{ ...mix(5), kind: '' }, 'wants a kind'],
    [mix(5, { seed: Number.NaN }), 'JSON cannot carry NaN, at payload.seed'],
  ])('is refused: %j', async (job, message) => {
    await expect(runJob(job, here)).rejects.toThrow(message);
  });

  it('has a code that is too long', async () => {
    const evaluators = new Map([['long', () => ({ evaluate: () => 'x'.repeat(1025) })]]);
    const job: Job = { kind: 'long', payload: null, rows: 1, columns: ['a'] };
    await expect(runJob(job, { ...here, evaluators })).rejects.toThrow('row 0: RangeError: a code of 1025 bytes');
  });
});

it('has another hash for another payload, version or Node', async () => {
  const hash = async (job: Job, tool: string): Promise<string> => (await runJob(job, { ...here, tool })).hash;
  const first = await hash(mix(5), 'test 1');
  expect(first).toMatch(/^[0-9a-f]{64}$/u);
  expect(await hash(mix(5, { seed: 1 }), 'test 1')).toBe(first);
  expect(await hash(mix(5, { seed: 2 }), 'test 1')).not.toBe(first);
  expect(await hash(mix(5), 'test 2')).not.toBe(first);
  expect(toolName('1.2.3')).toMatch(/^axlewatt 1\.2\.3, node \d+$/u);
});
