/** A page with knobs, as its reader turns it. Needs `npm run build` and Chromium. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Browser, hasBrowser, type Page, startBrowser } from '../chromium.ts';
import { type Called, command } from '../command.ts';
import { axeOf } from '../page-checks.ts';

const ATTACK = `<img src=x onerror="window.hit=1"></script><script>window.hit=2</script>`;

const notebook = (friction: string, more = ''): string => `---
title: 'Turned ${ATTACK}'
samples: 32
---

The coupe takes \`= dash.time\`, twice that is \`= twice\`.

${ATTACK} [here](javascript:window.hit=3) ![there](http://nowhere.invalid/p.png) <a href="javascript:window.hit=4">x</a>

\`\`\`yaml car coupe
mass: 1010 kg ± 15 kg # as weighed
tyres: tyre_touring${friction}
drive: { axle: rear, ratio: 8.2, unit: unit_100kw }
pack: { cell: cell_pouch_27ah, series: 96, parallel: 4 }
\`\`\`

\`\`\`yaml car heavy
from: coupe
mass: 1250 kg
\`\`\`

\`\`\`yaml launch dash
car: coupe
\`\`\`

\`\`\`yaml range valley
car: coupe
trip:
  - { speed: 60 km/h, distance: 5 km }
temperatures: [0 degC, 20 degC]
\`\`\`

\`\`\`calc sums
twice = 2 * dash.time
\`\`\`

\`\`\`yaml compare both
of: dash
cars: coupe, heavy
outputs: dash.time
\`\`\`

\`\`\`yaml check
- dash.time < 7 s
\`\`\`

\`\`\`yaml knobs
over:
  - { path: coupe.tyres.dry_peak, from: 0.5, to: 1.2, step: 0.05, label: 'Grip ${ATTACK}' }
  - { path: dash.slope, from: 0 %, to: 60 %, step: 10 %, label: Hill }
  - { path: coupe.tyres, choices: tyre_sport, label: Tyres }
\`\`\`
${more}`;

const RUN = ['run', 'k.md'];
const QUIET = "document.querySelector('#knobs .state').textContent === ''";
const text = (selector: string): string =>
  `document.querySelector(${JSON.stringify(selector)}).textContent.replace(/\\s+/g, ' ').trim()`;

let browser: Browser;
let folder: string;
let called: Called;
let page: Page;
let first: unknown;

beforeAll(async () => {
  if (!hasBrowser) return;
  browser = await startBrowser();
  folder = mkdtempSync(join(tmpdir(), 'axlewatt-live-'));
  called = command({ 'k.md': notebook('') }, RUN, 100);
  writeFileSync(join(folder, 'k.html'), called.read('out/k.html'));
  page = await browser.open(`file://${join(folder, 'k.html')}`);
  await page.until(`!document.getElementById('knobs').hidden && ${QUIET}`, 60);
  first = await page.evaluate(
    "document.querySelector('.answer').outerHTML + document.querySelector('.workings').outerHTML",
  );
}, 120_000);

afterAll(async () => {
  if (!hasBrowser) return;
  await browser.close();
  rmSync(folder, { recursive: true });
});

/** Turns a knob as a finger does, or takes another choice. */
async function turn(knob: number, value: string): Promise<void> {
  await page.evaluate(`(() => {
    const input = document.getElementById('knob-${knob}');
    input.value = ${JSON.stringify(value)};
    input.dispatchEvent(new Event('input', { bubbles: true }));
  })()`);
}

/** Waits for all of the answer; every knob was turned before. */
async function rested(): Promise<void> {
  await page.until("document.querySelector('#knobs .state').textContent !== ''", 20);
  await page.until(QUIET, 60);
}

/** Without what depends on the last digits of a number, and on how many lines stand above. */
function alike(words: unknown): string {
  return String(words)
    .replaceAll(/1 part in [\d\s]+/gu, '')
    .replaceAll(/k\.md:\d+/gu, '');
}

async function reset(): Promise<void> {
  await page.evaluate("document.querySelector('#knobs .reset').click()");
}

describe.skipIf(!hasBrowser)('a page with knobs', () => {
  it('is one file of less than 1.5 MB, which asks nobody for anything and runs nothing but itself', async () => {
    expect(called.err).toBe('');
    const html = called.read('out/k.html');
    expect(html.length).toBeLessThan(1.5e6);
    expect(html).toContain("default-src 'none'; script-src 'sha256-");
    expect(html).not.toContain('unsafe-eval');
    expect(page.requests.filter(url => !url.startsWith(`file://${folder}`) && !url.startsWith('blob:'))).toEqual([]);
    expect(await page.evaluate('window.hit')).toBeUndefined();
    const armed = 'a[href^="javascript:"],img[src^="http"],[onerror],iframe,object';
    expect(await page.evaluate(`document.querySelectorAll(${JSON.stringify(armed)}).length`)).toBe(0);
    // What stands in the page is no way in: its policy lets neither a new script nor a request through.
    const tried = `(async () => {
      const script = document.createElement('script');
      script.textContent = 'window.hit = 5';
      document.body.append(script);
      document.body.insertAdjacentHTML('beforeend', '<img src=x onerror="window.hit=6">');
      const asked = await fetch('data:text/plain,x').then(() => 'through', () => 'refused');
      script.remove();
      document.querySelector('body > img').remove();
      return asked + String(window.hit);
    })()`;
    const other = await browser.open(`file://${join(folder, 'k.html')}`);
    await other.until("document.readyState === 'complete'", 30);
    expect(await other.evaluate(tried)).toBe('refusedundefined');
    await other.close();
    expect(page.complaints).toEqual([]);
  });

  it('answers what the command answers for the lines that it gives to copy', async () => {
    await turn(1, '0.7');
    await rested();
    const lines = String(await page.evaluate("document.querySelector('#knobs .lines').value"));
    expect(lines).toContain('tyres:\n  from: tyre_touring\n  dry_peak: 0.7\n');
    expect(lines).toContain('mass: 1010 kg ± 15 kg # as weighed');
    const other = command({ 'k.md': notebook('').replace(/```yaml car coupe[\s\S]*?```\n/u, () => lines) }, RUN, 100);
    writeFileSync(join(folder, 'other.html'), other.read('out/k.html'));
    const beside = await browser.open(`file://${join(folder, 'other.html')}`);
    await beside.until("document.readyState === 'complete' && document.getElementById('cell-8') !== null", 30);
    for (const cell of ['3', '4', '5', '6', '7']) {
      const own = alike(await page.evaluate(text(`#cell-${cell}`)));
      expect(own).toBe(alike(await beside.evaluate(text(`#cell-${cell}`))));
    }
    expect(
      await page.evaluate("[...document.querySelectorAll('.prose output')].map(each => each.textContent)"),
    ).toEqual(await beside.evaluate("[...document.querySelectorAll('.prose output')].map(each => each.textContent)"));
    // What the car is stands in the answer too.
    expect(await page.evaluate(text('#cars'))).toBe(await beside.evaluate(text('#cars')));
    // The drawings come from the same renderer; only where an end of a digit rounds otherwise may a coordinate differ.
    expect(await page.evaluate("document.querySelectorAll('#cell-3 svg').length")).toBe(
      await beside.evaluate("document.querySelectorAll('#cell-3 svg').length"),
    );
    await beside.close();
  }, 200_000);

  it('says what the notebook says, beside the figure and on paper, and which checks no longer hold', async () => {
    expect(await page.evaluate(text('#cell-3-card .was'))).toMatch(/^\+\d\.\d+ s · notebook \d\.\d+ s$/u);
    expect(await page.evaluate(text('#settings'))).toContain('0.70 (notebook: 0.95)');
    expect(await page.evaluate(text('#cell-7'))).toContain('✗ fails');
    expect(await page.evaluate(text('#knobs [role=status]'))).toMatch(/dash: \d\.\d+ s 0 to 100 km\/h/u);
    await page.send('Emulation.setEmulatedMedia', { media: 'print' });
    const shown = (id: string): string => `getComputedStyle(document.getElementById('${id}')).display`;
    expect(await page.evaluate(shown('knobs'))).toBe('none');
    expect(await page.evaluate(shown('settings'))).toBe('block');
    await page.send('Emulation.setEmulatedMedia', { media: '' });
  });

  it('carries its settings behind the # of its address', async () => {
    const address = String(await page.evaluate('location.href'));
    expect(address).toMatch(/#set\/coupe\.tyres\.dry_peak=0\.70$/u);
    const again = await browser.open(address);
    const figure = text('#cell-3-card .quick b');
    await again.until(`${figure} === ${JSON.stringify(await page.evaluate(figure))}`, 60);
    await again.close();
  }, 100_000);

  it('is as it was after a reset', async () => {
    await reset();
    expect(
      await page.evaluate(
        "document.querySelector('.answer').outerHTML + document.querySelector('.workings').outerHTML",
      ),
    ).toBe(first);
    expect(await page.evaluate("location.href.includes('#')")).toBe(false);
  });

  it('is turned by keys alone', async () => {
    await page.evaluate("document.getElementById('knob-1').focus()");
    for (const type of ['keyDown', 'keyUp'])
      await page.send('Input.dispatchKeyEvent', {
        type,
        key: 'ArrowLeft',
        code: 'ArrowLeft',
        windowsVirtualKeyCode: 37,
      });
    await rested();
    expect(await page.evaluate(text('.knob .now'))).toBe('0.90');
    expect(await page.evaluate('document.activeElement.id')).toBe('knob-1');
    await reset();
  }, 60_000);

  it('tells in place why there is no answer', async () => {
    await turn(2, '60');
    await rested();
    expect(await page.evaluate(text('#cell-3-card'))).toMatch(/–.*grip|–.*slope|–.*hill|–.*move/u);
    await reset();
  }, 60_000);

  it('takes another part', async () => {
    await turn(3, 'tyre_sport');
    await rested();
    expect(await page.evaluate("document.querySelector('#knobs .lines').value")).toContain('tyres: tyre_sport');
    expect(await page.evaluate(text('#cell-3-card .was'))).toMatch(/^−/u);
    await reset();
    expect(page.complaints).toEqual([]);
  }, 60_000);

  it('is whole without a script', async () => {
    const still = await browser.open('about:blank');
    await still.send('Emulation.setScriptExecutionDisabled', { value: true });
    await still.send('Page.navigate', { url: `file://${join(folder, 'k.html')}` });
    await still.until("document.querySelector('#cell-8 table') !== null", 20);
    expect(await still.evaluate("getComputedStyle(document.getElementById('knobs')).display")).toBe('none');
    expect(await still.evaluate(text('#cell-8 table'))).toContain('0.50 to 1.20 in steps of 0.05');
    await still.close();
  }, 60_000);
});

describe.skipIf(!hasBrowser)('axe-core', () => {
  it.each([1280, 400])(
    'finds nothing at %i px, turned and with all that opens open',
    async width => {
      const reached = await browser.open(`file://${join(folder, 'k.html')}#set/coupe.tyres.dry_peak=0.70`, width);
      await reached.until(`document.getElementById('knobs')?.hidden === false && ${QUIET}`, 60);
      await reached.until("document.querySelector('#knobs [role=status]').textContent !== ''", 60);
      await reached.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })");
      expect(await axeOf(reached)).toEqual([]);
      await reached.close();
    },
    100_000,
  );
});
