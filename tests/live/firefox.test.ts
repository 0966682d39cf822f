/** A page with knobs in Firefox. Needs `npm run build`; where there is no Firefox its one test says so. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { command } from '../command.ts';
import { type Firefox, hasFirefox, startFirefox } from '../firefox.ts';

const NAME = 'at-the-counter.md';
const text = readFileSync(new URL(`../../scenarios/${NAME}`, import.meta.url), 'utf8');

const RESTED =
  "document.querySelector('#knobs [role=status]').textContent !== '' && document.querySelector('#knobs .state').textContent === ''";
const figure = "document.querySelector('.card .quick b').textContent";

describe.runIf(hasFirefox)('a page with knobs in Firefox', () => {
  const folder = mkdtempSync(join(tmpdir(), 'axlewatt-firefox-page-'));
  let firefox: Firefox;
  let first: unknown;
  beforeAll(async () => {
    const called = command({ [NAME]: text }, ['run', NAME, '--samples', '0'], 120);
    writeFileSync(join(folder, 'page.html'), called.read(`out/${NAME.replace(/md$/u, 'html')}`));
    firefox = await startFirefox();
    await firefox.go(`file://${join(folder, 'page.html')}`);
    await firefox.until("document.getElementById('knobs').hidden === false", 90);
    first = await firefox.evaluate(figure);
  }, 240_000);
  afterAll(async () => {
    await firefox.close();
    rmSync(folder, { recursive: true });
  });

  it('turns: figure, words, settings and address follow the control, and come back', async () => {
    const turn = (value: string): string => `(() => {
      const control = document.querySelector('#knobs input[type=range]');
      control.value = ${value};
      control.dispatchEvent(new Event('input', { bubbles: true }));
      control.dispatchEvent(new Event('change', { bubbles: true }));
    })()`;
    await firefox.evaluate(turn('control.min'));
    await firefox.until(RESTED, 120);
    const turned = await firefox.evaluate(figure);
    expect(turned).not.toBe(first);
    expect(await firefox.evaluate('location.hash')).toMatch(/^#set\/roadster\.drive\.ratio=/u);
    // What the command says for the lines that the page gives to copy.
    const lines = String(await firefox.evaluate("document.querySelector('#knobs .lines').value"));
    const said = command(
      { [NAME]: text.replace(/```yaml car roadster[\s\S]*?```\n/u, () => lines) },
      ['run', NAME, '--samples', '0'],
      120,
    );
    expect(said.read(`out/${NAME.replace(/md$/u, 'html')}`).replaceAll('\u00a0', ' ')).toContain(
      `<b>${String(turned).replaceAll('\u00a0', ' ')}</b>`,
    );
    await firefox.evaluate("document.querySelector('#knobs .reset').click()");
    await firefox.until(`${figure} === ${JSON.stringify(first)}`, 30);
  }, 300_000);
});

it.runIf(!hasFirefox)('no Firefox here: pages with knobs are not looked at in it', () => {
  console.warn('no firefox-esr and no firefox on this machine: its test of pages with knobs did not run');
});
