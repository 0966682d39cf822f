// A page with knobs in Chromium: from the move of a control to the pictures drawn, and what of it the page's own thread does.
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { bundled } from '../../build/bundled.mjs';
import { median } from '../contest.mjs';
import { secondsOf } from '../seconds-of.mjs';

export const title = 'A page with knobs (scenarios/at-the-counter.md), 1280 px';
export const keys = ['live_page_bytes', 'live_first_paint_ms', 'live_launch_ms', 'live_range_ms'];

const MOVES = 60;
const AT = "document.querySelector('#knobs .state').textContent === ''";

/** In the page: moves a knob again and again; each time until all that follows is in the page and a frame has passed. */
const MOVED = (knob, moves) => `(async () => {
  const input = document.getElementById('${knob}');
  const frame = () => new Promise(resolve => requestAnimationFrame(resolve));
  let changed = () => {};
  new MutationObserver(() => changed()).observe(document.querySelector('.answer'), { childList: true, subtree: true });
  const times = [];
  for (let k = 0; k < ${moves}; k++) {
    input.value = String(Number(input.min) + Number(input.step) * (3 + (k % 20)));
    const began = performance.now();
    const put = new Promise(resolve => { changed = resolve; setTimeout(resolve, 3000); });
    input.dispatchEvent(new Event('input', { bubbles: true }));
    await put;
    await frame();
    times.push(performance.now() - began);
  }
  return times;
})()`;

/** @param {import('../bench.mjs').Setting} setting */
export async function measure({ root, temp }) {
  const program = join(root, 'dist/cli/axlewatt.js');
  if (!existsSync(program)) throw new Error('dist/ is not built: npm run build');
  const out = join(temp, 'live');
  secondsOf([program, 'run', join(root, 'scenarios/at-the-counter.md'), '--quiet', '--out', out]);
  const file = join(out, 'at-the-counter.html');
  const { startBrowser } = await bundled('tests/chromium.ts');
  const browser = await startBrowser();
  try {
    const page = await browser.open('about:blank');
    await page.send('Page.navigate', { url: `file://${file}` });
    await page.until(`document.getElementById('knobs')?.hidden === false && ${AT}`, 120);
    const paint = await page.evaluate("performance.getEntriesByType('paint')[0].startTime");
    await page.send('Performance.enable', { timeDomain: 'threadTicks' });
    const busy = async () => {
      const { metrics } = await page.send('Performance.getMetrics');
      return 1000 * metrics.find(({ name }) => name === 'ScriptDuration').value;
    };
    const rows = [];
    for (const [name, knob, cell] of [
      ['launch', 'knob-2', 'cell-2'],
      ['range', 'knob-4', 'cell-3'],
    ]) {
      await page.evaluate(`document.getElementById('${cell}').scrollIntoView()`);
      await new Promise(resolve => setTimeout(resolve, 1000));
      const before = await busy();
      const times = await page.evaluate(MOVED(knob, MOVES));
      const script = (await busy()) - before;
      rows.push({ name, first: times[0], times: times.toSorted((a, b) => a - b), script: script / MOVES });
    }
    return {
      values: {
        live_page_bytes: statSync(file).size,
        live_first_paint_ms: paint,
        live_launch_ms: median(rows[0].times),
        live_range_ms: median(rows[1].times),
      },
      head: ['', 'first move, ms', 'best', 'median', 'script of the page, ms a move'],
      lines: rows.map(({ name, first, times, script }) => [
        name,
        ...[first, times[0], median(times), script].map(ms => ms.toFixed(1)),
      ]),
    };
  } finally {
    await browser.close();
  }
}
