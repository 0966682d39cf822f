// A whole notebook from a cold start to the written report.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { median } from '../contest.mjs';
import { secondsOf } from '../seconds-of.mjs';

export const title = '`axlewatt run --fresh scenarios/guesthouse.md`';
export const keys = ['example_s'];

const RUNS = 5;

/** @param {import('../bench.mjs').Setting} setting */
export function measure({ root, temp }) {
  const program = join(root, 'dist/cli/axlewatt.js');
  if (!existsSync(program)) throw new Error('dist/ is not built: npm run build');
  const args = [program, 'run', join(root, 'scenarios/guesthouse.md'), '--out', join(temp, 'reports'), '--fresh'];
  const seconds = Array.from({ length: RUNS }, () => secondsOf(args)).toSorted((a, b) => a - b);
  return {
    values: { example_s: median(seconds) },
    head: ['', 'best s', 'median s'],
    lines: [['guesthouse', seconds[0].toFixed(3), median(seconds).toFixed(3)]],
  };
}
