// Turns a control of a page as a finger does, and takes the time.
import { readdirSync, readFileSync } from 'node:fs';
import { median } from '../contest.mjs';

/** Moves of a median, and pages that are opened for one. */
const MOVES = 30;
const OPENED = 7;

/** Tall enough that all pictures of a question are seen at once. */
const [WIDTH, HEIGHT] = [1280, 2600];

const READY =
  "document.getElementById('knobs')?.hidden === false && document.querySelector('#knobs .state').textContent === ''";

/** When the first picture was laid out within the window and a frame had passed. */
const WATCH = `(() => {
  const look = () => {
    const seen = [...document.querySelectorAll('svg')].some(each => {
      const { top, height } = each.getBoundingClientRect();
      return height > 0 && top < innerHeight;
    });
    requestAnimationFrame(seen ? () => { window.firstPicture = performance.now(); } : look);
  };
  requestAnimationFrame(look);
})()`;

/** A finger that does not rest, however slow the machine: what follows at rest is no part of a move. */
const RESTLESS = `{
  const start = setTimeout;
  window.setTimeout = (what, after, ...more) => start(what, after === 150 ? 60_000 : after, ...more);
}`;

/** In the page: moves a knob again and again; each time until all that follows at once is in the page and a frame has passed. */
const moved = (/** @type {string} */ knob, /** @type {number} */ moves) => `(async () => {
  const input = document.getElementById('${knob}');
  const frame = () => new Promise(resolve => requestAnimationFrame(resolve));
  let changed = () => {};
  const watch = new MutationObserver(() => changed(true));
  watch.observe(document.querySelector('.answer'), { childList: true, subtree: true });
  const times = [];
  for (let k = 0; k < ${moves}; k++) {
    input.value = String(Number(input.min) + Number(input.step) * (1 + ((7 * k) % 20)));
    const began = performance.now();
    const put = new Promise(resolve => { changed = resolve; setTimeout(() => resolve(false), 5000); });
    input.dispatchEvent(new Event('input', { bubbles: true }));
    if (!(await put)) throw new Error('a move was not answered');
    await frame();
    times.push(performance.now() - began);
  }
  watch.disconnect();
  return times;
})()`;

/** Pictures within the window: their drawings as text. */
const DRAWN = `[...document.querySelectorAll('figure.picture')].flatMap(figure => {
  const { top, bottom } = figure.getBoundingClientRect();
  const drawing = [...figure.querySelectorAll('[role=img]')].find(each => each.offsetParent !== null);
  return bottom < 0 || top > innerHeight || drawing === undefined ? [] : [drawing.innerHTML];
})`;

/** @typedef {() => Promise<import('../../tests/chromium.ts').Browser>} Start */

async function opened(
  /** @type {import('../../tests/chromium.ts').Browser} */ browser,
  /** @type {string} */ file,
  script = WATCH,
) {
  const page = await browser.open('about:blank', WIDTH, HEIGHT);
  await page.watchWorkers();
  await page.send('Page.addScriptToEvaluateOnNewDocument', { source: script });
  await page.send('Page.navigate', { url: `file://${file}` });
  return page;
}

async function looking(/** @type {import('../../tests/chromium.ts').Page} */ page, /** @type {string} */ cell) {
  await page.until(READY, 120);
  await page.evaluate(`document.getElementById('${cell}').scrollIntoView()`);
  await new Promise(resolve => setTimeout(resolve, 1000));
}

/** Medians over pages that are opened anew, each in a browser of its own. @param {Start} start */
export async function timeFirst(
  start,
  /** @type {string} */ file,
  /** @type {string} */ knob,
  /** @type {string} */ cell,
) {
  const [picture, ready, move] = [[], [], []].map(() => /** @type {number[]} */ ([]));
  for (let k = 0; k < OPENED; k++) {
    const browser = await start();
    try {
      const page = await opened(browser, file);
      await page.until(READY, 120);
      ready?.push(Number(await page.evaluate('performance.now()')));
      picture?.push(Number(await page.evaluate('window.firstPicture')));
      await page.evaluate(`document.getElementById('${cell}').scrollIntoView()`);
      move?.push(.../** @type {number[]} */ (await page.evaluate(moved(knob, 1))));
    } finally {
      await browser.close();
    }
  }
  const middle = (/** @type {number[] | undefined} */ list = []) => median(list.toSorted((a, b) => a - b));
  return { picture: middle(picture), ready: middle(ready), move: middle(move) };
}

/** How many of the pictures within the window a move draws anew. @param {Start} start */
export async function countMoves(
  start,
  /** @type {string} */ file,
  /** @type {string} */ knob,
  /** @type {string} */ cell,
) {
  const browser = await start();
  try {
    const page = await opened(browser, file);
    await looking(page, cell);
    await page.evaluate(moved(knob, 3));
    const before = /** @type {string[]} */ (await page.evaluate(DRAWN));
    await page.evaluate(moved(knob, 2));
    const after = /** @type {string[]} */ (await page.evaluate(DRAWN));
    return after.filter((text, k) => text !== before[k]).length;
  } finally {
    await browser.close();
  }
}

/** @param {Start} start */
export async function timeMoves(
  start,
  /** @type {string} */ file,
  /** @type {string} */ knob,
  /** @type {string} */ cell,
) {
  const browser = await start();
  try {
    const page = await opened(browser, file, RESTLESS);
    await looking(page, cell);
    await page.evaluate(moved(knob, MOVES));
    await new Promise(resolve => setTimeout(resolve, 3000));
    await page.send('Performance.enable', { timeDomain: 'threadTicks' });
    const busy = async () => {
      const { metrics } = await page.send('Performance.getMetrics');
      return 1000 * /** @type {any[]} */ (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? Number.NaN);
    };
    const [main, worker] = [await busy(), workerTime()];
    const times = /** @type {number[]} */ (await page.evaluate(moved(knob, MOVES)));
    const [mainAfter, workerAfter] = [await busy(), workerTime()];
    return {
      wall: median(times.toSorted((a, b) => a - b)),
      main: (mainAfter - main) / MOVES,
      worker: (workerAfter - worker) / MOVES,
    };
  } finally {
    await browser.close();
  }
}

/** CPU of all workers of all pages, ms: Chromium runs each in a thread of that name. NaN where the system does not tell. */
function workerTime() {
  let spent = Number.NaN;
  for (const process of readdirSync('/proc').filter(name => /^\d+$/u.test(name)))
    try {
      for (const thread of readdirSync(`/proc/${process}/task`)) {
        const at = `/proc/${process}/task/${thread}`;
        if (!readFileSync(`${at}/comm`, 'utf8').startsWith('DedicatedWorker')) continue;
        const [nanoseconds] = readFileSync(`${at}/schedstat`, 'utf8').split(' ');
        spent = (Number.isNaN(spent) ? 0 : spent) + Number(nanoseconds) / 1e6;
      }
    } catch {
      // A process that ended while it was looked at.
    }
  return spent;
}

/** @param {Start} start @param {import('./notebooks.mjs').Turned} turned */
export async function weighHeap(start, { file, knob, cell }, /** @type {number} */ moves) {
  const browser = await start();
  try {
    const page = await opened(browser, file);
    await looking(page, cell);
    const part = Math.max(1, Math.round(moves / 10));
    const weighed = async () => {
      await new Promise(resolve => setTimeout(resolve, 3000));
      await page.send('HeapProfiler.collectGarbage');
      const { usedSize } = await page.send('Runtime.getHeapUsage');
      const { nodes } = await page.send('Memory.getDOMCounters');
      const [worker] = page.workers;
      if (worker === undefined) throw new Error('the page has no worker');
      await worker('HeapProfiler.collectGarbage');
      const held = await worker('Runtime.getHeapUsage');
      return { page: Number(usedSize), nodes: Number(nodes), worker: Number(held['usedSize']) };
    };
    await page.evaluate(moved(knob, part));
    const early = await weighed();
    for (let done = part; done < moves; done += part) await page.evaluate(moved(knob, Math.min(part, moves - done)));
    const late = await weighed();
    const asked = page.requests.filter(
      url => !url.startsWith('file:') && !url.startsWith('blob:') && url !== 'about:blank',
    );
    return { early, late, moves, asked: asked.length };
  } finally {
    await browser.close();
  }
}
