// What a page with knobs costs whoever turns it, in Chromium without a window: `npm run bench:page [-- --moves N]`.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { bundled, root } from '../build/bundled.mjs';
import { writeNotebooks } from './page/notebooks.mjs';
import { countMoves, timeFirst, timeMoves, weighHeap } from './page/turning.mjs';

/** Moves after which the heap must be what it was after a tenth of them. */
const { values } = parseArgs({ options: { moves: { type: 'string', default: '10000' }, only: { type: 'string' } } });

const temp = mkdtempSync(join(tmpdir(), 'axlewatt-page-'));
const { startBrowser } = await bundled('tests/chromium.ts');
/** @type {[what: string, asked: string, found: string][]} */
const lines = [];
const say = (/** @type {string} */ what, /** @type {string} */ asked, /** @type {string} */ found) => {
  lines.push([what, asked, found]);
  console.log(`${what.padEnd(58)} ${asked.padStart(14)}  ${found}`);
};
const ms = (/** @type {number} */ value) => `${value.toFixed(1)} ms`;

say('what', 'asked', 'found');
try {
  const pages = writeNotebooks(root, temp);
  for (const { name, file, knob, cell, asked, bytes } of pages) {
    if (values.only !== undefined && !name.includes(values.only)) continue;
    say(`${name}: bytes of the page`, '1.5 MB', `${(bytes / 1e6).toFixed(3)} MB`);
    const first = await timeFirst(startBrowser, file, knob, cell);
    say(`${name}: opened until the first picture`, '1 s', ms(first.picture));
    say(`${name}: opened until it can be turned`, '', ms(first.ready));
    say(`${name}: first move after opening`, '300 ms', ms(first.move));
    const drawn = await countMoves(startBrowser, file, knob, cell);
    say(`${name}: pictures seen that a move redraws`, '4', String(drawn));
    const { wall, worker, main } = await timeMoves(startBrowser, file, knob, cell);
    say(`${name}: move to pictures and a frame, median`, asked, `${ms(wall)}; CPU of the worker ${ms(worker)}`);
    say(`${name}: main thread, CPU a move`, '8 ms', ms(main));
  }
  const [page] = pages;
  if (values.only === undefined && page !== undefined && Number(values.moves) > 0) {
    const { early, late, moves, asked } = await weighHeap(startBrowser, page, Number(values.moves));
    const pair = (/** @type {'page' | 'worker' | 'nodes'} */ key, /** @type {number} */ unit) =>
      `${(early[key] / unit).toFixed(2)} and ${(late[key] / unit).toFixed(2)}`;
    say(`heap of the page after a tenth of ${moves} moves and after all`, 'flat', `${pair('page', 1e6)} MB`);
    say('heap of its worker', 'flat', `${pair('worker', 1e6)} MB`);
    say('nodes of the page', 'flat', pair('nodes', 1));
    say('requests that left the page', '0', String(asked));
  }
} finally {
  rmSync(temp, { recursive: true, force: true });
}
