/** `axlewatt open` through the built command: what it serves and to whom, and what a browser shows while a notebook is edited. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Browser, hasBrowser, type Page, startBrowser } from '../chromium.ts';

const cli = fileURLToPath(new URL('../../dist/cli/axlewatt.js', import.meta.url));

const notebook = (mass: string, more = ''): string => `# A small van

Some words.

\`\`\`yaml car van
mass: ${mass}
tyres: tyre_touring
drive: { axle: rear, ratio: 8.2, unit: unit_100kw }
pack: { cell: cell_pouch_27ah, series: 96, parallel: 4 }
\`\`\`

\`\`\`yaml launch dash
car: van
\`\`\`

\`\`\`yaml launch uphill
car: van
slope: 8 %
\`\`\`
${more}`;

interface Opened {
  readonly folder: string;
  readonly address: string;
  readonly child: ChildProcess;
  /** Of the terminal. */
  said(): string;
}

const opened: Opened[] = [];

async function open(files: Readonly<Record<string, string>>, path: string): Promise<Opened> {
  const folder = mkdtempSync(join(tmpdir(), 'axlewatt-open-'));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  const child = spawn(process.execPath, [cli, 'open', path, '--port', '0', '--samples', '0', '--workers', '1'], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  child.stdout.on('data', (text: Buffer) => void (said += text.toString()));
  child.stderr.on('data', (text: Buffer) => void (said += text.toString()));
  const until = performance.now() + 30_000;
  while (!/http:\S+\/,/u.test(said)) {
    if (performance.now() > until || child.exitCode !== null) throw new Error(`not open: ${said}`);
    await new Promise(resolve => setTimeout(resolve, 20));
  }
  const found = { folder, child, address: /http:\S+\//u.exec(said)?.[0] ?? '', said: () => said };
  opened.push(found);
  return found;
}

async function ended({ child }: Opened): Promise<number | null> {
  if (child.exitCode !== null) return child.exitCode;
  const code = new Promise<number | null>(resolve => void child.once('exit', resolve));
  child.kill('SIGINT');
  return code;
}

afterAll(async () => {
  for (const each of opened) {
    await ended(each);
    rmSync(each.folder, { recursive: true });
  }
});

/** As sent, without what a client makes of an address. */
function asked(
  address: string,
  path: string,
  headers: Readonly<Record<string, string>> = {},
  method = 'GET',
): Promise<{ readonly code: number; readonly text: string; readonly headers: Readonly<Record<string, unknown>> }> {
  const { hostname, port } = new URL(address);
  return new Promise((resolve, reject) => {
    const call = request({ hostname, port, path, headers, method }, answer => {
      let text = '';
      answer.on('data', (piece: Buffer) => void (text += piece.toString()));
      answer.on('end', () => resolve({ code: answer.statusCode ?? 0, text, headers: answer.headers }));
    });
    call.on('error', reject);
    call.end();
  });
}

describe('a folder', () => {
  let served: Opened;
  beforeAll(async () => {
    served = await open(
      { 'van.md': notebook('1200 kg'), 'b.md': notebook('900 kg'), 'words.md': '# No cells', 'secret.csv': 'a,b\n' },
      '.',
    );
  });

  test('has a list of its notebooks, and a page of each', async () => {
    const list = await asked(served.address, '/');
    expect(list.code).toBe(200);
    expect([...list.text.matchAll(/<a href="(?<path>[^"]*)">/gu)].map(each => each.groups?.['path'])).toEqual([
      '/b.md',
      '/van.md',
    ]);
    const page = await asked(served.address, '/van.md');
    expect(page.code).toBe(200);
    expect(page.text).toContain('Read the <a href="#cautions">cautions</a>');
  }, 60_000);

  test('takes a new notebook into the list', async () => {
    writeFileSync(join(served.folder, 'new.md'), notebook('1000 kg'));
    const until = performance.now() + 10_000;
    while (!(await asked(served.address, '/')).text.includes('/new.md')) {
      if (performance.now() > until) throw new Error('not listed');
      await new Promise(resolve => setTimeout(resolve, 50));
    }
  });

  test('serves nothing else, whatever is asked', async () => {
    mkdirSync(join(served.folder, 'below'), { recursive: true });
    for (const path of [
      '/secret.csv',
      '/words.md',
      '/../etc/passwd',
      '/%2e%2e/%2e%2e/etc/passwd',
      '//etc/passwd',
      '/below/',
      '/out/.axlewatt',
      '/van.md/..',
      `http://127.0.0.1/van.md`,
    ]) {
      expect([path, (await asked(served.address, path)).code]).toEqual([path, 404]);
    }
  });

  test('answers to its own names only, and only shows', async () => {
    const { port } = new URL(served.address);
    for (const host of ['evil.example', `evil.example:${port}`, '127.0.0.1', `127.0.0.1:1`, `localhost.evil:${port}`])
      expect([host, (await asked(served.address, '/', { host })).code]).toEqual([host, 403]);
    expect((await asked(served.address, '/', { host: `localhost:${port}` })).code).toBe(200);
    for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS'])
      expect([method, (await asked(served.address, '/', {}, method)).code]).toEqual([method, 405]);
  });

  test('lets no other page frame it or read it', async () => {
    const { headers } = await asked(served.address, '/');
    expect(headers['content-security-policy']).toContain("frame-ancestors 'none'");
    expect(headers['cross-origin-resource-policy']).toBe('same-origin');
    expect(headers['access-control-allow-origin']).toBeUndefined();
  });

  test('writes nothing beside what it keeps', async () => {
    expect(readdirSync(served.folder).toSorted()).toEqual([
      'b.md',
      'below',
      'new.md',
      'out',
      'secret.csv',
      'van.md',
      'words.md',
    ]);
    expect(readdirSync(join(served.folder, 'out')).filter(name => name !== '.axlewatt')).toEqual([]);
    expect(await ended(served)).toBe(0);
  });
});

describe.runIf(hasBrowser)('a notebook that is edited', () => {
  let browser: Browser;
  let served: Opened;
  let page: Page;
  const save = (text: string): void => writeFileSync(join(served.folder, 'van.md'), text);
  const quick = "document.querySelector('.quick b').textContent";
  const quiet = "document.querySelector('#open-state').textContent === ''";

  beforeAll(async () => {
    browser = await startBrowser();
    served = await open({ 'van.md': notebook('1200 kg') }, 'van.md');
    page = await browser.open(served.address, 1280, 600);
    await page.until(`document.querySelector('.quick') !== null && ${quiet}`);
  }, 60_000);
  afterAll(() => browser.close());

  test('shows its new figures and pictures, and keeps the reader in place', async () => {
    await page.evaluate(`(() => {
      document.querySelector('section.cell.launch details.source').open = true;
      document.querySelector('#cell-3-h').scrollIntoView();
      window.kept = document.querySelector('.prose p');
      return 0;
    })()`);
    const before = String(await page.evaluate(quick));
    const line = String(await page.evaluate("document.querySelector('.picture svg').outerHTML"));
    save(notebook('1500 kg', '\nMore words.\n').replace('Some words.', 'Some words.\n\nAnd others before the place.'));
    await page.until(`${quick} !== '${before}' && ${quiet}`);
    expect(await page.evaluate("document.querySelector('.picture svg').outerHTML")).not.toBe(line);
    expect(await page.evaluate("document.querySelector('section.cell.launch details.source').open")).toBe(true);
    expect(
      Math.abs(Number(await page.evaluate("document.querySelector('#cell-3-h').getBoundingClientRect().top"))),
    ).toBeLessThan(2);
  }, 60_000);

  test('shows a problem where it is, and goes on when it is mended', async () => {
    save(notebook('1500 kgg'));
    await page.until(`document.querySelector('#cell-1 .problem') !== null && ${quiet}`);
    expect(await page.evaluate("document.querySelector('#cell-1 .problem').textContent")).toContain('kgg');
    save(notebook('1100 kg'));
    await page.until(`document.querySelector('.problem:not([hidden])') === null && ${quiet}`);
  }, 60_000);

  test('stands as it was while the file is not there or no text, and says why', async () => {
    const before = String(await page.evaluate(quick));
    writeFileSync(join(served.folder, 'van.md'), Buffer.from([0x89, 0x50, 0, 0, 0xff, 0xfe]));
    await page.until("!document.querySelector('#open-trouble').hidden");
    expect(await page.evaluate("document.querySelector('#open-trouble').textContent")).toContain('UTF-8');
    rmSync(join(served.folder, 'van.md'));
    await page.until("document.querySelector('#open-trouble').textContent.includes('no such file')");
    expect(await page.evaluate(quick)).toBe(before);
    save(notebook('1300 kg'));
    await page.until(`document.querySelector('#open-trouble').hidden && ${quick} !== '${before}' && ${quiet}`);
  }, 60_000);

  test('follows what a study finds after its figures', async () => {
    save(
      notebook(
        '1300 kg',
        '\n```yaml sweep masses\nof: dash\nover:\n  - { path: van.mass, from: 1100 kg, to: 1300 kg, steps: 3 }\n```\n',
      ),
    );
    await page.until(
      `document.querySelector('section.sweep .picture svg') !== null && ${quiet} && document.querySelector('[data-waits]') === null`,
    );
  }, 60_000);

  test('keeps what its controls were turned to', async () => {
    const knobs = '\n```yaml knobs\nover:\n  - { path: van.drive.ratio, from: 5, to: 12, step: 0.1 }\n```\n';
    save(notebook('1300 kg', knobs));
    await page.until("document.getElementById('knobs')?.hidden === false", 60);
    await page.evaluate(`(() => {
      const input = document.getElementById('knob-1');
      input.value = '10';
      input.dispatchEvent(new Event('input', { bubbles: true }));
    })()`);
    const was = "(document.querySelector('.card .was')?.textContent ?? '')";
    await page.until(`${was} !== '' && location.hash !== ''`, 60);
    const before = String(await page.evaluate(was));
    save(notebook('1450 kg', knobs));
    // The difference is now that to the notebook as it was saved.
    await page.until(`${was} !== '' && ${was} !== ${JSON.stringify(before)} && ${quiet}`, 60);
    expect(await page.evaluate("document.getElementById('knob-1').value")).toBe('10');
    expect(await page.evaluate('location.hash')).toContain('van.drive.ratio=10.0');
  }, 120_000);

  test('asks for nothing from elsewhere, and breaks no rule of its policy', () => {
    expect(page.requests.filter(each => !/^(?:data|blob):/u.test(each) && !each.startsWith(served.address))).toEqual(
      [],
    );
    expect(page.complaints).toEqual([]);
  });

  test('says when nobody makes it any more', async () => {
    expect(await ended(served)).toBe(0);
    await page.until("document.querySelector('#open-state').textContent.includes('ended')");
  });
});
