/** Parts of several machines become the file of one, or are refused with a message for each that does not fit. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gather } from '../../src/batch/gather.ts';
import type { Job } from '../../src/batch/job.ts';
import { runJob } from '../../src/batch/run.ts';
import { partFile } from '../../src/batch/shard.ts';
import { here, mix, testFolder } from './place.ts';

const file = testFolder();

/** Writes all parts of a job and gives their paths. */
async function partsOf(name: string, job: Job, count: number): Promise<string[]> {
  const paths: string[] = [];
  for (let number = 1; number <= count; number++) {
    const store = partFile(file(`${name}.rows`), { number, count });
    await runJob(job, { ...here, store, shard: { number, count } });
    paths.push(store);
  }
  return paths;
}

async function wholeOf(name: string, job: Job): Promise<Buffer> {
  const store = file(`${name}.rows`);
  await runJob(job, { ...here, store });
  return readFileSync(store);
}

describe('parts that fit', () => {
  it('become the file of one undisturbed run, in whatever order they come and even where some are empty', async () => {
    let name = 0;
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 7 }), async (rows, count) => {
        const job = mix(rows);
        const parts = await partsOf(`p${name++}`, job, count);
        const target = file(`joined-${name}.rows`);
        expect(gather(parts.toReversed(), target)).toEqual({ rows, problems: [] });
        expect(readFileSync(target).equals(await wholeOf(`w${name}`, job))).toBe(true);
        // And a run takes it for its own.
        expect(await runJob(job, { ...here, store: target })).toMatchObject({ state: 'complete', found: rows });
      }),
      { numRuns: 15 },
    );
  });

  it('may be larger than what is read or written at once', async () => {
    const job: Job = { ...mix(30_000), columns: Array.from({ length: 12 }, (_, k) => `c${k}`) };
    const parts = await partsOf('large', job, 3);
    const target = file('large-joined.rows');
    expect(gather(parts, target).rows).toBe(30_000);
    expect(readFileSync(target).equals(await wholeOf('large-whole', job))).toBe(true);
  });

  it('replace an unfinished file of the same job', async () => {
    const job = mix(30);
    const parts = await partsOf('again', job, 2);
    const target = file('again-whole.rows');
    const whole = await wholeOf('again-whole', job);
    writeFileSync(target, whole.subarray(0, whole.length - 300));
    expect(gather(parts, target).problems).toEqual([]);
    expect(readFileSync(target).equals(whole)).toBe(true);
  });
});

describe('parts that do not fit', () => {
  const job = mix(30);

  /** What is said, without the folder; and nothing may be written. */
  function refused(paths: readonly string[], target = file('never.rows')): string[] {
    const before = existsSync(target) ? readFileSync(target) : null;
    const { rows, problems } = gather(paths, target);
    expect(rows).toBe(0);
    expect(existsSync(target) ? readFileSync(target) : null).toEqual(before);
    return problems.map(problem => problem.replaceAll(`${dirname(file('x'))}/`, ''));
  }

  it('are of another job, version or division', async () => {
    const [a = '', b = ''] = await partsOf('fit', job, 2);
    const [, otherJob = ''] = await partsOf('other', mix(30, { seed: 2 }), 2);
    const [third = ''] = await partsOf('thirds', job, 3);
    const old = file('old.2-of-2.rows');
    await runJob(job, { ...here, tool: 'test 0', store: old, shard: { number: 2, count: 2 } });
    expect(refused([a, otherJob, old, third])).toEqual([
      'other.2-of-2.rows is of another job than fit.1-of-2.rows (payload.seed: 2 there, 1 here)',
      'old.2-of-2.rows is of another job than fit.1-of-2.rows (made by test 0, this is test 1)',
      'thirds.1-of-3.rows is part 1/3, fit.1-of-2.rows is part 1/2',
    ]);
    expect(refused([a, a, b])).toEqual(['fit.1-of-2.rows is part 1/2, as fit.1-of-2.rows is; leave one out']);
  });

  it('are missing', async () => {
    const parts = await partsOf('some', job, 5);
    expect(refused(parts.filter((_, k) => k !== 1 && k !== 4))).toEqual([
      'part 2/5 is missing; run with --shard 2/5',
      'part 5/5 is missing; run with --shard 5/5',
    ]);
    expect(refused([])).toEqual(['no part to join']);
    expect(refused([file('nowhere.rows')])[0]).toContain('cannot read nowhere.rows: no such file or folder');
  });

  it('are not finished, at whatever byte they end', async () => {
    const parts = await partsOf('cut', mix(5), 2);
    const whole = readFileSync(parts[1]!);
    const header = whole.indexOf('\n') + 1;
    for (let length = 0; length < whole.length; length++) {
      writeFileSync(parts[1]!, whole.subarray(0, length));
      const [first = '', second = ''] = refused(parts);
      if (length < header)
        expect([first, second]).toEqual([
          'cut.2-of-2.rows is empty; run its part again',
          'part 2/2 is missing; run with --shard 2/2',
        ]);
      else
        expect(first).toMatch(
          /^cut\.2-of-2\.rows is not finished: (?:at|damaged or cut after) [012] of 2 rows; run with --shard 2\/2 again, it goes on from there$/u,
        );
    }
  });

  it('are damaged', async () => {
    const parts = await partsOf('bad', job, 2);
    const bytes = readFileSync(parts[0]!);
    const header = bytes.indexOf('\n') + 1;
    bytes[header + 100]! ^= 1;
    writeFileSync(parts[0]!, bytes);
    expect(refused(parts)).toEqual([
      'bad.1-of-2.rows is not finished: damaged or cut after 2 of 15 rows; run with --shard 1/2 again, it goes on from there',
    ]);
    await runJob(job, { ...here, store: parts[0]!, shard: { number: 1, count: 2 } });
    expect(gather(parts, file('mended.rows')).problems).toEqual([]);
    writeFileSync(parts[1]!, '# Notes\n');
    expect(refused(parts)[0]).toContain('bad.2-of-2.rows is no file of rows');
  });

  it('would overwrite something else', async () => {
    const parts = await partsOf('over', job, 2);
    const target = file('taken.rows');
    writeFileSync(target, '# Notes\n');
    expect(refused(parts, target)[0]).toContain('taken.rows is no file of rows');
    await wholeOf('theirs', mix(30, { seed: 3 }));
    expect(refused(parts, file('theirs.rows'))).toEqual([
      'theirs.rows is there already and of another job than over.1-of-2.rows; move it away',
    ]);
  });
});
