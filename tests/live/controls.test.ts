/** Controls beside what they turn: their place on a curve, cards that stay, a telephone. Needs `npm run build` and Chromium. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Browser, hasBrowser, startBrowser } from '../chromium.ts';
import { command } from '../command.ts';

const NOTEBOOK = `# Sweep

\`\`\`yaml car coupe
mass: 1010 kg
tyres: tyre_touring
drive: { axle: rear, ratio: 8, unit: unit_100kw }
pack: { cell: cell_pouch_27ah, series: 96, parallel: 4 }
\`\`\`

\`\`\`yaml launch dash
car: coupe
\`\`\`

\`\`\`yaml launch uphill
car: coupe
slope: 8 %
\`\`\`

\`\`\`yaml launch laden
car: coupe
altitude: 900 m
\`\`\`

\`\`\`yaml sweep gearing
of: dash
over:
  - { path: coupe.drive.ratio, from: 5, to: 12, steps: 8 }
outputs: dash.time
\`\`\`

\`\`\`yaml knobs
over:
  - { path: coupe.drive.ratio, from: 5, to: 12, step: 0.1 }
  - { path: coupe.mass, from: 900 kg, to: 1200 kg, step: 10 kg }
\`\`\`
`;

describe.runIf(hasBrowser)('controls', () => {
  const folder = mkdtempSync(join(tmpdir(), 'axlewatt-controls-'));
  const file = `file://${join(folder, 'page.html')}`;
  let browser: Browser;
  beforeAll(async () => {
    writeFileSync(
      join(folder, 'page.html'),
      command({ 'cars.md': NOTEBOOK }, ['run', 'cars.md', '--samples', '0']).read('out/cars.html'),
    );
    browser = await startBrowser();
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });
  const turn = (k: number, value: string): string => `(() => {
    const input = document.getElementById('knob-${k}');
    input.value = '${value}';
    input.dispatchEvent(new Event('input', { bubbles: true }));
  })()`;
  const ready =
    "!document.getElementById('knobs').hidden && document.querySelector('#knobs .state').textContent === ''";

  test('stand on the curve of a sweep over the same input, and nowhere else', async () => {
    const page = await browser.open(file);
    await page.until(ready, 60);
    const place = (value: number): string => `(() => {
      const svg = document.querySelector('section.sweep .wide svg');
      const [, , , start, slope] = JSON.parse(svg.dataset.traces)[0];
      const matrix = svg.querySelector('[data-trace] path').getScreenCTM();
      return matrix.e + matrix.a * (${value} - start) / slope - document.querySelector('.here').getBoundingClientRect().left;
    })()`;
    expect(await page.evaluate("document.querySelectorAll('.here').length")).toBe(1);
    expect(Math.abs(Number(await page.evaluate(place(8))))).toBeLessThan(1);
    await page.evaluate(turn(1, '10'));
    expect(Math.abs(Number(await page.evaluate(place(10))))).toBeLessThan(1);
    await page.close();
  }, 90_000);

  test('leave the cards in their places', async () => {
    const page = await browser.open(file);
    await page.until(ready, 60);
    const columns = "[...document.querySelectorAll('.card')].map(card => card.getBoundingClientRect().left)";
    const before = await page.evaluate(columns);
    await page.evaluate(turn(2, '1200'));
    await page.until("document.querySelector('.card .was') !== null", 30);
    expect(await page.evaluate(columns)).toEqual(before);
    await page.until(ready, 60);
    expect(await page.evaluate(columns)).toEqual(before);
    await page.close();
  }, 90_000);

  test('are a bar on a telephone until somebody opens them', async () => {
    const page = await browser.open(file, 400, 800);
    await page.until("!document.getElementById('knobs').hidden", 60);
    const height = "document.getElementById('knobs').getBoundingClientRect().height";
    expect(Number(await page.evaluate(height))).toBeLessThan(80);
    await page.evaluate("document.querySelector('#knobs summary').click()");
    expect(Number(await page.evaluate(height))).toBeGreaterThan(120);
    await page.close();
  }, 90_000);
});
