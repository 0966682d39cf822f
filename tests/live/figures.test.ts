/** The engine in a page against the command line: the same figures for the same settings. Needs `npm run build` and Chromium. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { runInThisContext } from 'node:vm';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Browser, hasBrowser, type Page, startBrowser } from '../chromium.ts';
import { command } from '../command.ts';

const folder = fileURLToPath(new URL('../../scenarios/', import.meta.url));
const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter(name => statSync(folder + name).isFile())
  .map(name => [name.replaceAll('\\', '/'), readFileSync(folder + name, 'utf8')] as const);
const beside = files.filter(([name]) => !name.endsWith('.md'));

/**
 * A page and the command work with the same elementary functions (`src/elementary.ts`), so that not only the same engine in the same process
 * gives the same bits: what a reader's browser says is what the command says. There is a floor for differences of two figures.
 */
const SAME = 1e-12;
const FLOOR = 1e-6;

const engine = readFileSync(new URL('../../dist/cli/live-engine.txt', import.meta.url), 'utf8');

let browser: Browser;
let page: Page;

beforeAll(async () => {
  if (!hasBrowser) return;
  browser = await startBrowser();
  page = await browser.open('about:blank');
  await page.evaluate(`(async () => {
    const bytes = Uint8Array.from(atob(${JSON.stringify(engine)}), c => c.charCodeAt(0));
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
    window.engine = URL.createObjectURL(await new Response(stream, { headers: { 'content-type': 'text/javascript' } }).blob());
    window.ask = (data, settings) => new Promise((resolve, reject) => {
      const worker = new Worker(window.engine);
      worker.onerror = event => reject(new Error(event.message));
      worker.onmessage = ({ data: answer }) => {
        if (answer.kind === 'failed') reject(new Error(answer.message));
        else if (answer.kind === 'figures') { worker.terminate(); resolve(answer); }
      };
      worker.postMessage({ kind: 'open', data, rehearsal: null });
      worker.postMessage({ kind: 'figures', settings });
    });
  })()`);
}, 60_000);

afterAll(() => (hasBrowser ? browser.close() : undefined));

interface Answer {
  readonly figures: readonly (readonly [string, Readonly<Record<string, number | string | null>>])[];
  readonly lines: string;
}

interface Setting {
  readonly path: string;
  readonly text: string;
}

function dataOf(file: string, text: string): object {
  return { text, file, samples: 0, files: beside, kept: [], cells: [] };
}

async function inPage(notebook: string, text: string, settings: readonly Setting[]): Promise<Answer> {
  return (await page.evaluate(`ask(${JSON.stringify(dataOf(notebook, text))}, ${JSON.stringify(settings)})`)) as Answer;
}

/** The engine of a page, with the library of this process. */
function inNode(notebook: string, text: string, settings: readonly Setting[]): Promise<Answer> {
  return new Promise((resolve, reject) => {
    let hear = (_event: { readonly data: object }): void => {};
    const answer = (message: { readonly kind: string }): void => {
      if (message.kind === 'figures') resolve(message as unknown as Answer);
      if (message.kind === 'failed') reject(new Error(JSON.stringify(message)));
    };
    const code = gunzipSync(Buffer.from(engine, 'base64')).toString('utf8');
    const begin = runInThisContext(`(function (addEventListener, postMessage) {${code}\n})`) as (
      on: (type: string, listener: typeof hear) => void,
      post: typeof answer,
    ) => void;
    begin((_, listener) => void (hear = listener), answer);
    hear({ data: { kind: 'open', data: dataOf(notebook, text), rehearsal: null } });
    hear({ data: { kind: 'figures', settings } });
  });
}

/** The notebook with the cells that the page says in the place of its own. */
function rewritten(text: string, lines: string): string {
  let found = text;
  for (const cell of lines.split(/(?<=^```\n)\n?/mu)) {
    const [head = ''] = cell.split('\n');
    if (head === '') continue;
    const start = found.indexOf(`${head}\n`);
    expect(start, head).toBeGreaterThanOrEqual(0);
    const end = found.indexOf('\n```', start) + '\n```'.length;
    found = found.slice(0, start) + cell.trimEnd() + found.slice(end);
  }
  return found;
}

/** One setting or two for each example: numbers, parts, the day; another driver where nothing is said. */
const SETTINGS: Readonly<Record<string, readonly Setting[]>> = {
  'guesthouse.md': [
    { path: 'pass_estate.tyres.dry_peak', text: '0.83' },
    { path: 'as_it_is.temperature', text: '-5 °C' },
  ],
  'heavy-foot.md': [{ path: 'direct.mass', text: '1130 kg' }],
  'measured-unit.md': [{ path: 'bench.drive.ratio', text: '7.9' }],
  'weights.md': [
    { path: 'first_estate.drag_coefficient', text: '0.41' },
    { path: 'second_launch.altitude', text: '500 m' },
  ],
  'which-battery.md': [
    { path: 'medium.tyres', text: 'tyre_sport' },
    { path: 'january.temperature', text: '4 °C' },
  ],
  'winter-week.md': [{ path: 'saloon.pack.parallel', text: '3' }],
  'at-the-counter.md': [
    { path: 'roadster.tyres', text: 'tyre_sport' },
    { path: 'sunday.temperature', text: '-3 °C' },
  ],
};

/** Studies ask the same runs again and again, by the same entry: here they would only take time. */
const STUDIES = /^```yaml (?:compare|sweep|spread|rank|seek|check)\b[\s\S]*?^```\n/gmu;

it.skipIf(!hasBrowser).each(files.filter(([name]) => name.endsWith('.md')))(
  '%s gives in a page what the command gives',
  async (notebook, whole) => {
    const text = whole.replace(STUDIES, '');
    const [car = ''] = /(?<=^```yaml car )\w+/mu.exec(text) ?? [];
    const settings = SETTINGS[notebook] ?? [{ path: `${car}.driver`, text: '93 kg' }];
    const { figures, lines } = await inPage(notebook, text, settings);
    expect(figures.length).toBeGreaterThan(0);
    for (const { text: said } of settings) expect(lines).toContain(said);
    const called = command(
      Object.fromEntries([[notebook, rewritten(text, lines)], ...beside]),
      ['run', notebook, '--samples', '0'],
      200,
    );
    const alike = await inNode(notebook, text, settings);
    expect(alike.lines).toBe(lines);
    for (const [cell, summary] of alike.figures) expect(summary, cell).toEqual(called.values(cell, notebook));
    const apart: [number, string][] = [];
    for (const [cell, summary] of figures) {
      const other = called.values(cell, notebook);
      expect(Object.keys(summary), cell).toEqual(Object.keys(other));
      for (const [key, value] of Object.entries(summary)) {
        const expected = other[key];
        if (typeof value !== 'number' || typeof expected !== 'number') expect(value, `${cell}.${key}`).toBe(expected);
        else {
          apart.push([Math.abs(value - expected) / Math.max(Math.abs(expected), FLOOR), `${cell}.${key}`]);
        }
      }
    }
    const worst = apart.toSorted(([a], [b]) => b - a)[0] ?? [0, ''];
    expect(worst[0], worst[1]).toBeLessThanOrEqual(SAME);
    expect(page.complaints).toEqual([]);
  },
  240_000,
);
