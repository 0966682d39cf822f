import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { runJob } from '../../src/batch/run.ts';
import { partFile } from '../../src/batch/shard.ts';
import { gatherParts } from '../../src/cli/gather.ts';
import { here, mix } from '../batch/place.ts';

const root = mkdtempSync(join(tmpdir(), 'axlewatt-gather-'));
afterAll(() => rmSync(root, { recursive: true }));

/** Parts of one study in a folder. */
async function write(folder: string, name: string, seed: number, numbers: readonly number[]): Promise<void> {
  mkdirSync(join(root, folder), { recursive: true });
  for (const number of numbers) {
    const shard = { number, count: 3 };
    await runJob(mix(20, { seed }), { ...here, store: partFile(join(root, folder, `${name}.rows`), shard), shard });
  }
}

function gathered(parts: readonly string[], csv = false) {
  const lines: { out: string[]; err: string[] } = { out: [], err: [] };
  const terminal = {
    out: (text: string) => void lines.out.push(text.replaceAll(root, '')),
    err: (text: string) => void lines.err.push(text.replaceAll(root, '')),
    color: false,
    width: 80,
  };
  const code = gatherParts({ parts: parts.map(part => join(root, part)), out: join(root, 'out'), csv }, terminal);
  return { code, ...lines };
}

describe('axlewatt gather', () => {
  it('joins the parts of several studies from several folders', async () => {
    await write('a', 'tour.spread', 1, [1, 3]);
    await write('a', 'tour.sweep', 2, [1, 2, 3]);
    await write('b', 'tour.spread', 1, [2]);
    writeFileSync(join(root, 'a', 'tour.html'), 'a report');
    expect(gathered(['a', 'b/tour.spread.2-of-3.rows'], true)).toEqual({
      code: 0,
      out: ['Joined: /out/tour.spread.rows, 20 rows of 3 parts', 'Joined: /out/tour.sweep.rows, 20 rows of 3 parts'],
      err: [],
    });
    const whole = join(root, 'whole.rows');
    await runJob(mix(20), { ...here, store: whole });
    expect(readFileSync(join(root, 'out/tour.spread.rows')).equals(readFileSync(whole))).toBe(true);
    expect(readFileSync(join(root, 'out/tour.sweep.csv'), 'utf8')).toMatch(/^row,row number,a,b,code\r\n0,0,/u);
  });

  it('joins what fits, and tells what does not, with exit code 1', async () => {
    await write('c', 'trip.spread', 1, [1, 3]);
    await write('c', 'trip.sweep', 2, [1, 2, 3]);
    expect(gathered(['c'])).toEqual({
      code: 1,
      out: ['Joined: /out/trip.sweep.rows, 20 rows of 3 parts'],
      err: ['axlewatt: trip.spread.rows is not joined:', '  part 2/3 is missing; run with --shard 2/3'],
    });
  });

  it('tells a folder without parts, and one that is not there, with exit code 2', () => {
    mkdirSync(join(root, 'empty'));
    expect(gathered(['empty'])).toMatchObject({ code: 2, err: [expect.stringContaining('no parts there')] });
    expect(gathered(['nowhere'])).toMatchObject({ code: 2, err: [expect.stringContaining('cannot read /nowhere')] });
  });
});
