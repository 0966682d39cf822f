/** The road test that ships: its logs are those of their program, and the notebook finds in them what the program knew. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { folderReader } from '../../src/notebook/files/folder.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import type { Result } from '../../src/runs/result.ts';
import { roadTestLogs, TRUTH } from './road-test-logs.ts';

const file = fileURLToPath(new URL('../../scenarios/road-test.md', import.meta.url));
const folder = fileURLToPath(new URL('../../scenarios/logs/road-test/', import.meta.url));
const text = readFileSync(file, 'utf8');

it('has the logs that its program makes', () => {
  for (const [name, made] of roadTestLogs(text)) {
    if (process.env['AXLEWATT_WRITE'] === '1') writeFileSync(folder + name, made);
    const numbersOf = (each: string): number[] => (each.match(/-?\d+\.\d+/gu) ?? []).map(Number);
    const [kept, anew] = [numbersOf(readFileSync(folder + name, 'utf8')), numbersOf(made)];
    expect(kept.length).toBe(anew.length);
    // The last digit that is written may fall either way on another machine.
    expect(Math.max(...kept.map((value, i) => Math.abs(value - (anew[i] ?? 0))))).toBeLessThan(0.015);
  }
});

it('finds what the program knew, within the intervals', () => {
  // The other cells run in the tests of all examples.
  const needed = /```yaml (?:weigh plan|part its_tyres|car saloon|calibrate \w+|car measured)\n[\s\S]*?\n```\n/gu;
  const cells = (text.match(needed) ?? []).join('\n');
  const { blocks, problems } = runNotebook(cells, { file: 'road-test.md', readFile: folderReader(file) });
  expect(problems).toEqual([]);
  const resultOf = (name: string): Result | undefined =>
    blocks.flatMap(block =>
      block.kind === 'cell' && block.name === name && block.result !== null ? [block.result] : [],
    )[0];
  const within = (name: string, key: string, truth: number): void => {
    const { low = 0, high = 0 } = resultOf(name)?.intervals?.of[key] ?? {};
    expect([key, low, truth, high, low < truth && truth < high]).toEqual([key, low, truth, high, true]);
  };
  const [f0, f1, f2] = TRUTH.terms;
  within('coasting', 'force_50_km_h', f0 + (f1 * 50) / 3.6 + f2 * (50 / 3.6) ** 2);
  within('coasting', 'force_80_km_h', f0 + (f1 * 80) / 3.6 + f2 * (80 / 3.6) ** 2);
  within('pulling', 'power', TRUTH.power);
  within('pulling', 'torque', TRUTH.torque);
});
