/** Whatever a crash or somebody else leaves behind: it is gone on with, or refused, never half read. */
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BatchProblem } from '../../src/batch/problem.ts';
import { runJob } from '../../src/batch/run.ts';
import { here, mix, testFolder } from './place.ts';

const file = testFolder();
const job = mix(8);

async function undisturbed(): Promise<Buffer> {
  const store = file('whole.rows');
  await runJob(job, { ...here, store });
  return readFileSync(store);
}

describe('a torn file', () => {
  it('is gone on with after a cut at every byte', async () => {
    const whole = await undisturbed();
    const store = file('torn.rows');
    const found = new Set<number>();
    for (let length = 0; length <= whole.length; length++) {
      writeFileSync(store, whole.subarray(0, length));
      const outcome = await runJob(job, { ...here, store });
      found.add(outcome.found);
      expect(readFileSync(store).equals(whole), `cut at ${length}`).toBe(true);
    }
    // Every good row was kept by some cut.
    expect(found.size).toBe(job.rows + 1);
  });

  it('is gone on with after any damage behind the first line', async () => {
    const whole = await undisturbed();
    const header = whole.indexOf('\n') + 1;
    const store = file('damaged.rows');
    const place = fc.integer({ min: header, max: whole.length - 1 });
    await fc.assert(
      fc.asyncProperty(place, fc.uint8Array({ minLength: 1, maxLength: 300 }), fc.boolean(), async (at, bytes, cut) => {
        const damaged = Buffer.from(whole);
        damaged.set(bytes.subarray(0, whole.length - at), at);
        writeFileSync(store, cut ? damaged.subarray(0, at + bytes.length) : Buffer.concat([damaged, bytes]));
        await runJob(job, { ...here, store });
        expect(readFileSync(store).equals(whole)).toBe(true);
      }),
    );
  });

  it('is taken as it is when it is whole', async () => {
    const whole = await undisturbed();
    const store = file('whole.rows');
    const outcome = await runJob(job, { ...here, store });
    expect(outcome).toMatchObject({ state: 'complete', rows: 8, found: 8, total: 8 });
    expect(readFileSync(store).equals(whole)).toBe(true);
  });
});

describe('a file of something else', () => {
  it.each(['# Notes\n', 'x', `{"format":"axlewatt rows 9","hash":"0"}\n`, '\0'.repeat(500)])(
    'is left alone: %j',
    async text => {
      const store = file('foreign.rows');
      writeFileSync(store, text);
      await expect(runJob(job, { ...here, store })).rejects.toThrow(/is no file of rows; move it away/u);
      expect(readFileSync(store, 'utf8')).toBe(text);
    },
  );

  it('is left alone when its first line is damaged', async () => {
    const whole = await undisturbed();
    const store = file('header.rows');
    const text = whole.toString('latin1').replace('"rows":8', '"rows":9');
    writeFileSync(store, text, 'latin1');
    await expect(runJob(job, { ...here, store })).rejects.toThrow(/damaged first line.*delete it/u);
    expect(readFileSync(store, 'latin1')).toBe(text);
  });

  it('is left alone when it is of another job, saying what differs', async () => {
    const store = file('other.rows');
    await runJob(job, { ...here, store });
    const before = readFileSync(store);
    const refusal = runJob({ ...mix(50, { seed: 2 }) }, { ...here, store, tool: 'test 2' });
    await expect(refusal).rejects.toThrow(BatchProblem);
    await expect(refusal).rejects.toThrow(
      'holds the rows of another job (payload.seed: 1 there, 2 here; rows: 8 there, 50 here; ' +
        'made by test 1, this is test 2). To go on with that one, put the old values back; ' +
        'to start anew, delete the file or choose another name',
    );
    await expect(runJob(job, { ...here, store, shard: { number: 1, count: 2 } })).rejects.toThrow(
      'part 1/1 there, 1/2 here',
    );
    expect(readFileSync(store).equals(before)).toBe(true);
  });

  it('is told when it cannot be written', async () => {
    await expect(runJob(job, { ...here, store: file('no/such/folder.rows') })).rejects.toThrow(
      /cannot write .*no such file or folder/u,
    );
  });
});

it('takes 12 bytes and 8 for each number in a row without a code', async () => {
  const store = file('size.rows');
  await runJob({ ...mix(2), columns: ['a', 'b', 'c', 'd'] }, { ...here, store });
  const header = readFileSync(store).indexOf('\n') + 1;
  const code = Buffer.byteLength('größer als 0');
  expect(statSync(store).size).toBe(header + 2 * (12 + 8 * 4) + code + 12);
});
