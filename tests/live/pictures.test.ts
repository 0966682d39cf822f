/** A page without knobs in Chromium: contents, folds, pictures that are saved and that say their values, by day and by night. Needs `npm run build`. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Browser, hasBrowser, type Page, startBrowser } from '../chromium.ts';
import { command } from '../command.ts';
import { axeOf, cutIn } from '../page-checks.ts';

const NOTEBOOK = `# Two coupes

## The cars

\`\`\`yaml car coupe
mass: 1010 kg
tyres: tyre_touring
drive: { axle: rear, ratio: 8.2, unit: unit_100kw }
pack: { cell: cell_pouch_27ah, series: 96, parallel: 4 }
\`\`\`

\`\`\`yaml car heavy
from: coupe
mass: 1250 kg
\`\`\`

## The launches

\`\`\`yaml launch dash
car: coupe
\`\`\`

\`\`\`yaml launch laden
car: heavy
\`\`\`

\`\`\`yaml charge night
car: coupe
from: 20 %
to: 80 %
supply: { kind: ac, power: 7 kW }
\`\`\`
`;

describe.runIf(hasBrowser)('a page', () => {
  const folder = mkdtempSync(join(tmpdir(), 'axlewatt-page-'));
  const file = join(folder, 'page.html');
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    const called = command({ 'cars.md': NOTEBOOK }, ['run', 'cars.md', '--samples', '0']);
    writeFileSync(file, called.read('out/cars.html'));
    browser = await startBrowser();
    page = await browser.open(`file://${file}`);
    await page.until('document.querySelector(".saves button") !== null');
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  test('leads from its list of contents to every part', async () => {
    const lost = `[...document.querySelectorAll('.contents a')].filter(a => document.querySelector(a.getAttribute('href')) === null).length`;
    expect(await page.evaluate(lost)).toBe(0);
    expect(await page.evaluate(`[...document.querySelectorAll('.contents a')].map(a => a.textContent)`)).toEqual([
      'The answer',
      'The notebook',
      'The cars',
      'coupe car',
      'heavy car',
      'The launches',
      'dash launch',
      'laden launch',
      'night charge',
      'Inputs',
      'Cautions',
    ]);
  });

  test('folds by a click and by the keyboard, and is whole at first', async () => {
    expect(await page.evaluate("document.querySelectorAll('details.fold:not([open])').length")).toBe(0);
    await page.evaluate("document.querySelector('#cell-3 > .fold > summary').click()");
    expect(await page.evaluate("document.querySelector('#cell-3 .picture').checkVisibility()")).toBe(false);
    await page.evaluate("document.querySelector('#cell-3 > .fold > summary').click()");
    expect(await page.evaluate("document.querySelector('#cell-3 .picture').checkVisibility()")).toBe(true);
  });

  test('says the values where a reader points, in all pictures over the same', async () => {
    const said = await page.evaluate(`(async () => {
      const picture = document.querySelector('#cell-3 .picture');
      picture.scrollIntoView();
      const svg = picture.querySelector('.wide svg');
      const box = svg.querySelector('[data-trace] path').getBoundingClientRect();
      svg.dispatchEvent(new PointerEvent('pointermove', { bubbles: true, clientX: box.left + box.width / 2, clientY: box.top }));
      await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
      return [picture.querySelector('.readout').textContent, document.querySelectorAll('.cursor').length, svg.dataset.traces];
    })()`);
    const [words, cursors, traces] = said as [string, number, string];
    // The middle of the time axis, worked out from the ends of the line as they are written in the page.
    expect(words).toMatch(
      /^time since the pedal went down \d+\.\d+ s: Speed \d+\.?\d* km\/h · Acceleration \d+\.\d+ m\/s²$/u,
    );
    expect(cursors).toBeGreaterThanOrEqual(1);
    expect(JSON.parse(traces)).toHaveLength(2);
  });

  test('says the speed that the table of numbers has at that time', async () => {
    const told = await page.evaluate(`(async () => {
      const picture = document.querySelector('#cell-3 .picture');
      const row = picture.querySelectorAll('.numbers tbody tr')[8];
      const [time, , speed] = [...row.cells].map(cell => Number(cell.textContent));
      const svg = picture.querySelector('.wide svg');
      const [, , , x0, slope] = JSON.parse(svg.dataset.traces)[0];
      const path = svg.querySelector('[data-trace] path');
      const matrix = path.getScreenCTM();
      svg.dispatchEvent(new PointerEvent('pointermove', { bubbles: true, clientX: matrix.e + (matrix.a * (time - x0)) / slope, clientY: 100 }));
      await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
      return [speed, Number(/Speed ([\\d.]+)/.exec(picture.querySelector('.readout').textContent)[1])];
    })()`);
    const [inTable, pointed] = told as [number, number];
    expect(Math.abs(inTable - pointed)).toBeLessThan(1);
  });

  test('hands out pictures as SVG and PNG and numbers as CSV, without asking for anything', async () => {
    const files = await page.evaluate(`(async () => {
      const kept = [];
      const make = URL.createObjectURL;
      URL.createObjectURL = blob => (kept.push(blob), make.call(URL, blob));
      HTMLAnchorElement.prototype.click = function () { kept.at(-1).name = this.download; };
      for (const button of document.querySelector('#cell-3 .picture .saves').children) button.click();
      while (kept.length < 3) await new Promise(done => setTimeout(done, 20));
      await new Promise(done => setTimeout(done, 100));
      return Promise.all(kept.map(async blob => [blob.name, blob.type, blob.size, await blob.slice(0, 4000).text()]));
    })()`);
    const found = new Map(
      (files as [string, string, number, string][]).map(([name, ...rest]) => [name.split('.')[1], rest]),
    );
    expect(found.get('svg')?.[2]).toMatch(/^<svg[^>]*><title>Speed, acceleration/u);
    expect(found.get('png')?.[0]).toBe('image/png');
    expect(found.get('png')?.[1]).toBeGreaterThan(5000);
    expect(found.get('csv')?.[2]).toMatch(/^"?time, s"?,/u);
    expect(found.get('csv')?.[2]?.split('\r\n').length).toBeGreaterThan(10);
    expect(page.complaints).toEqual([]);
    expect(page.requests.filter(each => !each.startsWith('file:') && !each.startsWith('data:'))).toEqual([]);
  });

  test.each([
    [1280, 'light'],
    [1280, 'dark'],
    [400, 'light'],
    [400, 'dark'],
  ])(
    'at %d px, %s, nothing is cut and no rule of accessibility broken',
    async (width, colours) => {
      const seen = await browser.open(`file://${file}`, width);
      await seen.send('Emulation.setEmulatedMedia', { features: [{ name: 'prefers-color-scheme', value: colours }] });
      await seen.until('document.querySelector(".saves button") !== null');
      expect(await axeOf(seen)).toEqual([]);
      expect(await cutIn(seen)).toEqual([]);
      await seen.close();
    },
    60_000,
  );

  test('by night its paper is dark, in print it is not', async () => {
    const seen = await browser.open(`file://${file}`);
    const paper = "getComputedStyle(document.querySelector('.picture svg rect')).fill";
    await seen.send('Emulation.setEmulatedMedia', { features: [{ name: 'prefers-color-scheme', value: 'dark' }] });
    await seen.until(`${paper} !== 'rgb(255, 255, 255)'`);
    // A limit has one colour in card and picture: motor torque by night is #5f6ab0.
    const torque = `getComputedStyle(document.querySelector('.strip [style*="background:#363f6d"]')).backgroundColor`;
    expect(await seen.evaluate(torque)).toBe('rgb(95, 106, 176)');
    await seen.send('Emulation.setEmulatedMedia', {
      media: 'print',
      features: [{ name: 'prefers-color-scheme', value: 'dark' }],
    });
    await seen.until(`${paper} === 'rgb(255, 255, 255)'`);
    await seen.close();
  });

  test('without a script it is whole, and has no button that does nothing', async () => {
    const seen = await browser.open('about:blank');
    await seen.send('Emulation.setScriptExecutionDisabled', { value: true });
    await seen.send('Page.navigate', { url: `file://${file}` });
    await seen.until("document.querySelectorAll('.picture svg').length > 6");
    expect(await seen.evaluate("document.querySelectorAll('.saves, button').length")).toBe(0);
    await seen.close();
  });
});
