/** A page with knobs by keys alone: all that can be reached is, in the order in which it stands, and is seen to be. Needs `npm run build` and Chromium. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Browser, hasBrowser, type Page, startBrowser } from '../chromium.ts';
import { command } from '../command.ts';

const NOTEBOOK = `# Keys

\`\`\`yaml car coupe
mass: 1010 kg
tyres: tyre_touring
drive: { axle: rear, ratio: 8, unit: unit_100kw }
pack: { cell: cell_pouch_27ah, series: 96, parallel: 4 }
\`\`\`

\`\`\`yaml launch dash
car: coupe
\`\`\`

\`\`\`yaml knobs
over:
  - { path: coupe.mass, from: 900 kg, to: 1200 kg, step: 10 kg, label: Mass }
  - { path: coupe.tyres, choices: [tyre_sport, tyre_touring], label: Tyres }
\`\`\`
`;

const CODES = { Tab: 9, Enter: 13, Escape: 27, ' ': 32, ArrowRight: 39, ArrowDown: 40 } as const;

/** What can be reached by keys in a page as it is shown. */
const REACHABLE = `[...document.querySelectorAll('a[href],button,input,select,textarea,summary,[tabindex="0"]')].filter(each =>
  !each.disabled && each.checkVisibility({ visibilityProperty: true }))`;

describe.runIf(hasBrowser)('a page with knobs, by keys alone', () => {
  const folder = mkdtempSync(join(tmpdir(), 'axlewatt-keys-'));
  let browser: Browser;
  let page: Page;
  const press = async (key: keyof typeof CODES): Promise<void> => {
    const text = key === 'Enter' ? { text: '\r' } : key === ' ' ? { text: ' ' } : {};
    for (const type of ['keyDown', 'keyUp'])
      await page.send('Input.dispatchKeyEvent', {
        type,
        key,
        code: key === ' ' ? 'Space' : key,
        windowsVirtualKeyCode: CODES[key],
        ...(type === 'keyDown' && text),
      });
  };
  beforeAll(async () => {
    const called = command({ 'keys.md': NOTEBOOK }, ['run', 'keys.md', '--samples', '0']);
    writeFileSync(join(folder, 'keys.html'), called.read('out/keys.html'));
    browser = await startBrowser();
    page = await browser.open(`file://${join(folder, 'keys.html')}`);
    await page.until(
      "document.getElementById('knobs')?.hidden === false && document.querySelector('#knobs .state').textContent === ''",
      60,
    );
  }, 120_000);
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  it('reaches all that can be reached, in the order in which it stands, and shows where it is', async () => {
    const count = Number(await page.evaluate(`(window.all = ${REACHABLE}).length`));
    expect(count).toBeGreaterThan(20);
    await page.evaluate('document.body.focus()');
    const places: number[] = [];
    const unseen: unknown[] = [];
    for (let k = 0; k < count; k++) {
      await press('Tab');
      const [place, shown, what] = (await page.evaluate(`(() => {
        const at = document.activeElement;
        const { outlineStyle, outlineWidth } = getComputedStyle(at);
        const { top, bottom } = at.getBoundingClientRect();
        const seen = outlineStyle !== 'none' && parseFloat(outlineWidth) >= 1 && bottom > 0 && top < innerHeight;
        return [window.all.indexOf(at), seen, at.outerHTML.slice(0, 90)];
      })()`)) as [number, boolean, string];
      places.push(place);
      if (!shown) unseen.push(what);
    }
    const missed = `window.all.filter((_, k) => !${JSON.stringify(places)}.includes(k)).map(each => each.outerHTML.slice(0, 90))`;
    expect(await page.evaluate(missed)).toEqual([]);
    expect(unseen).toEqual([]);
    expect(places).toEqual(Array.from({ length: count }, (_, k) => k));
  }, 120_000);

  it('says below a control where it ends and where the notebook stands, each beside the other', async () => {
    const over = `[...document.querySelectorAll('.knob .ends')].flatMap(each => {
      const [a, b, c] = [...each.children].map(word => word.getBoundingClientRect());
      return a.right < b.left && b.right < c.left ? [] : [each.textContent];
    })`;
    expect(await page.evaluate("document.querySelectorAll('.knob .ends').length")).toBe(1);
    expect(await page.evaluate(over)).toEqual([]);
  });

  it('opens and closes what folds, turns what turns, chooses what is chosen', async () => {
    const fold = "document.querySelector('details.numbers')";
    await page.evaluate(`${fold}.querySelector('summary').focus()`);
    const open = Boolean(await page.evaluate(`${fold}.open`));
    await press('Enter');
    expect(await page.evaluate(`${fold}.open`)).toBe(!open);
    await press(' ');
    expect(await page.evaluate(`${fold}.open`)).toBe(open);
    const value = (id: string): string => `document.getElementById('${id}').value`;
    await page.evaluate("document.getElementById('knob-1').focus()");
    const before = Number(await page.evaluate(value('knob-1')));
    await press('ArrowRight');
    expect(Number(await page.evaluate(value('knob-1')))).toBe(before + 10);
    await page.evaluate("document.querySelector('#knobs .reset').focus()");
    await press('Enter');
    expect(Number(await page.evaluate(value('knob-1')))).toBe(before);
  }, 60_000);

  it('moves nothing by itself where a reader wants no motion', async () => {
    await page.send('Emulation.setEmulatedMedia', { features: [{ name: 'prefers-reduced-motion', value: 'reduce' }] });
    const moving = `[document.documentElement, ...document.querySelectorAll('body *')].flatMap(each => {
      const { animationName, transitionDuration, scrollBehavior } = getComputedStyle(each);
      const still = animationName === 'none' && /^(0s(, )?)+$/.test(transitionDuration) && scrollBehavior === 'auto';
      return still ? [] : [each.outerHTML.slice(0, 90)];
    })`;
    expect(await page.evaluate(moving)).toEqual([]);
    await page.send('Emulation.setEmulatedMedia', { features: [] });
    expect(page.complaints).toEqual([]);
  }, 60_000);
});
