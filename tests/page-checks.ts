/** What a reader's browser makes of a page: what is cut, and what axe-core finds, by day, by night and on paper. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from './chromium.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const opened = "document.querySelectorAll('details').forEach(each => { each.open = true; })";

/** Elements wider than the room that they have, with all that opens open. Of a drawing the frame alone counts. */
const CUT = `[...document.querySelectorAll('body, body *')].flatMap(each => {
  if (each.closest('svg, .unseen') !== null || getComputedStyle(each).display === 'inline') return [];
  const { scrollWidth, clientWidth } = each;
  if (clientWidth === 0 || scrollWidth <= clientWidth + 1) return [];
  const where = each.closest('section.cell')?.dataset.name ?? '';
  return [where + ': ' + each.tagName + '.' + each.className + ' ' + scrollWidth + ' > ' + clientWidth];
})`;

/** CSS px of a phone, of a window, of A4 within its margins. */
const WIDTHS = [
  [400, 'screen'],
  [1280, 'screen'],
  [695, 'print'],
] as const;

/** @returns what is cut, by the width at which it is. */
export async function cutOf(browser: Browser, address: string): Promise<readonly string[]> {
  const found: string[] = [];
  for (const [width, media] of WIDTHS) {
    const page = await ready(browser, address, width);
    await page.send('Emulation.setEmulatedMedia', { media });
    await page.evaluate(opened);
    found.push(...(await cutIn(page)).map(each => `${width} px, ${media}: ${each}`));
    await page.close();
  }
  return found;
}

/** What is cut in a page as it is. */
export async function cutIn(page: Page): Promise<readonly string[]> {
  return (await page.evaluate(CUT)) as readonly string[];
}

/** @returns what axe-core finds by day and by night, with all that opens open. */
export async function violationsOf(browser: Browser, address: string): Promise<readonly string[]> {
  const found: string[] = [];
  for (const scheme of ['light', 'dark']) {
    const page = await ready(browser, address, 1280);
    await page.send('Emulation.setEmulatedMedia', { features: [{ name: 'prefers-color-scheme', value: scheme }] });
    await page.evaluate(opened);
    found.push(...(await axeOf(page)).map(each => `${scheme}: ${each}`));
    await page.close();
  }
  return found;
}

/** What axe-core finds in a page as it is. */
export async function axeOf(page: Page): Promise<readonly string[]> {
  await page.evaluate(`${axe};0`);
  return (await page.evaluate(`axe.run(document, { resultTypes: ['violations'] }).then(({ violations }) =>
    violations.map(({ id, nodes }) => id + ': ' + nodes.slice(0, 5).map(({ html }) => html.slice(0, 120)).join(' ')))`)) as readonly string[];
}

async function ready(browser: Browser, address: string, width: number): Promise<Page> {
  const page = await browser.open(address, width);
  await page.until("document.readyState === 'complete'", 60);
  return page;
}
