// A page with knobs in Chromium: from the move of a control to the pictures drawn, and what of it the page's own thread does.
// All that is asked of such a page: `npm run bench:page`.
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { bundled } from '../../build/bundled.mjs';
import { timeFirst, timeMoves } from '../page/turning.mjs';
import { secondsOf } from '../seconds-of.mjs';

export const title = 'A page with knobs (scenarios/at-the-counter.md), 1280 px';
export const keys = ['live_page_bytes', 'live_first_paint_ms', 'live_launch_ms', 'live_range_ms'];

/** @param {import('../bench.mjs').Setting} setting */
export async function measure({ root, temp }) {
  const program = join(root, 'dist/cli/axlewatt.js');
  if (!existsSync(program)) throw new Error('dist/ is not built: npm run build');
  const out = join(temp, 'live');
  secondsOf([program, 'run', join(root, 'scenarios/at-the-counter.md'), '--quiet', '--out', out]);
  const file = join(out, 'at-the-counter.html');
  const { startBrowser } = await bundled('tests/chromium.ts');
  const { picture } = await timeFirst(startBrowser, file, 'knob-2', 'cell-2');
  const rows = [];
  for (const [name, knob, cell] of [
    ['launch', 'knob-2', 'cell-2'],
    ['range', 'knob-4', 'cell-3'],
  ])
    rows.push({ name, ...(await timeMoves(startBrowser, file, knob, cell)) });
  return {
    values: {
      live_page_bytes: statSync(file).size,
      live_first_paint_ms: picture,
      live_launch_ms: rows[0].wall,
      live_range_ms: rows[1].wall,
    },
    head: ['', 'median, ms', 'worker, ms of CPU a move', 'page itself, ms of CPU a move'],
    lines: rows.map(({ name, wall, worker, main }) => [name, ...[wall, worker, main].map(ms => ms.toFixed(1))]),
  };
}
