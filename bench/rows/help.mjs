// How long the command line takes to say what it can do, against Node doing nothing.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { median } from '../contest.mjs';
import { secondsOf } from '../seconds-of.mjs';

export const title = '`axlewatt --help` against `node -e 0`';
export const keys = ['help_ratio'];

const RUNS = 15;

/** @param {import('../bench.mjs').Setting} setting */
export function measure({ root }) {
  const program = join(root, 'dist/cli/axlewatt.js');
  if (!existsSync(program)) throw new Error('dist/ is not built: npm run build');
  const help = [];
  const nothing = [];
  for (let run = 0; run < RUNS; run++) {
    help.push(secondsOf([program, '--help']));
    nothing.push(secondsOf(['-e', '0']));
  }
  const middle = list => median(list.toSorted((a, b) => a - b));
  return {
    values: { help_ratio: middle(help) / middle(nothing) },
    head: ['', 'median ms'],
    lines: [
      ['axlewatt --help', (1000 * middle(help)).toFixed(1)],
      ['node -e 0', (1000 * middle(nothing)).toFixed(1)],
    ],
  };
}
