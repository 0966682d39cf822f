/** The cards of an answer in Chromium: they read across, line by line, as the notebook has them. Needs `npm run build`. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { hasBrowser, startBrowser } from '../chromium.ts';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;
const car = fence(
  'car van',
  'mass: 1240 kg',
  'tyres: { size: 165/80 R 13 }',
  'drive: { axle: rear, unit: unit_150kw, ratio: 8.6 }',
  'pack: { cell: cell_nmc_60ah, series: 96, parallel: 2 }',
);
const launches = (surfaces: readonly string[]): string =>
  surfaces.map(surface => fence(`launch on_${surface}`, 'car: van', `surface: ${surface}`)).join('');
const steady = (speeds: readonly number[]): string =>
  speeds.map(speed => fence(`steady at_${speed}`, 'car: van', `speed: ${speed} km/h`)).join('');

/** Names of the cards by their places: line by line, from left to right. */
const PLACES = `[...document.querySelectorAll('.answer .card')].map((card, k) => {
  const { top, left } = card.getBoundingClientRect();
  return [Math.round(top), Math.round(left), k];
}).toSorted((a, b) => a[0] - b[0] || a[1] - b[1]).map(([, , k]) => k)`;

test.skipIf(!hasBrowser)(
  'stand in the order of the notebook, four launches and a launch among others',
  async () => {
    const browser = await startBrowser();
    const folder = mkdtempSync(join(tmpdir(), 'axlewatt-cards-'));
    try {
      for (const cells of [
        launches(['dry', 'wet', 'snow', 'ice']),
        steady([30, 50]) + launches(['wet']) + steady([70, 90, 110, 120]),
      ]) {
        const file = join(folder, 'a.html');
        writeFileSync(file, command({ 'a.md': car + cells }, ['run', 'a.md', '--samples', '0']).read('out/a.html'));
        const page = await browser.open(`file://${file}`);
        await page.until("document.readyState === 'complete'", 60);
        const places = (await page.evaluate(PLACES)) as readonly number[];
        expect(places.length).toBeGreaterThan(3);
        expect(places).toEqual(places.map((_, k) => k));
        await page.close();
      }
    } finally {
      await browser.close();
      rmSync(folder, { recursive: true });
    }
  },
  90_000,
);
