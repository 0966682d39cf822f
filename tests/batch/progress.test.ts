import { describe, expect, it } from 'vitest';
import { createProgress, duration } from '../../src/batch/progress.ts';

/** Does 1000 rows a second for so many seconds, told ten times a second. */
function watch(bar: boolean, seconds: number, before = 0, width = 80): string[] {
  const written: string[] = [];
  let clock = 100;
  const progress = createProgress('spread', { write: text => void written.push(text), bar, width, now: () => clock });
  const total = before + 1000 * seconds;
  for (let tenth = 0; tenth <= 10 * seconds; tenth++, clock += 0.1) progress.update(before + 100 * tenth, total);
  progress.end();
  return written;
}

describe('on a terminal', () => {
  it('is a bar with the time left, written over itself and gone at the end', () => {
    const written = watch(true, 100);
    expect(written.length).toBeGreaterThan(400);
    expect(written).toContain('\rspread [######------------------] 25 %, 75 s left\u001B[K');
    expect(written.at(-1)).toBe('\r\u001B[K');
    expect(written.join('')).not.toContain('\n');
  });

  it('does not appear for what is soon done', () => {
    expect(watch(true, 0.4)).toEqual([]);
  });

  it('fits the line', () => {
    for (const text of watch(true, 3, 0, 30)) expect(text.length).toBeLessThanOrEqual(30 + 4);
  });

  it('does not count what was there before as quick work', () => {
    // 100 s are left at the start, which is said as 2 min, whatever stood in the file.
    expect(watch(true, 100, 500_000)[3]).toMatch(/ 83 %, 2 min left/u);
  });
});

describe('elsewhere', () => {
  it('is a line now and then, less often as time goes by', () => {
    const written = watch(false, 600);
    expect(written[0]).toMatch(/^spread: 5\d00 of 600000 rows, 0 %, 10 min left\n$/u);
    expect(written[1]).toMatch(/^spread: 15\d00 of 600000 rows, 2 %, 10 min left\n$/u);
    expect(written).toHaveLength(7);
  });

  it('is nothing for what is soon done', () => {
    expect(watch(false, 4)).toEqual([]);
  });
});

it('says times as people do', () => {
  expect([0.2, 40, 89.2, 91, 720, 5400, 12_000, 14_300, 14_400, Number.NaN].map(duration)).toEqual([
    '1 s',
    '40 s',
    '90 s',
    '2 min',
    '12 min',
    '1 h 30 min',
    '3 h 20 min',
    '4 h',
    '4 h',
    '',
  ]);
});
