/** Every example that ships, through the built command: it runs to its end, with the samples that the command takes. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Coverage } from '../../src/runs/result.ts';
import { type Browser, hasBrowser, startBrowser } from '../chromium.ts';
import { command } from '../command.ts';
import { cutOf, violationsOf } from '../page-checks.ts';
import { faults } from '../report/well-formed.ts';
import { sheetsOf } from './printed.ts';

const folder = fileURLToPath(new URL('../../scenarios/', import.meta.url));
const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(name =>
  statSync(folder + name).isFile(),
);
const texts = new Map(names.map(name => [name.replaceAll('\\', '/'), readFileSync(folder + name, 'utf8')]));

/** The notebook first, then what it may read. */
function withItsFiles(notebook: string): Record<string, string> {
  const beside = [...texts].filter(([name]) => !name.endsWith('.md'));
  return Object.fromEntries([[notebook, texts.get(notebook) ?? ''], ...beside]);
}

interface Exported {
  readonly blocks: readonly {
    readonly name?: string;
    readonly result?: {
      readonly kind: string;
      readonly summary: { readonly [key: string]: number | string | null };
      readonly intervals?: { readonly samples: number; readonly of: { readonly [key: string]: Coverage } };
    };
  }[];
}

/** The others run long enough with samples that say which figures lie well inside: each kind of run and study makes its jobs all the same. */
const WITH_ALL = 'measured-unit.md';

/** An interval narrower than this share of its figure is the round-off of runs that always give the same. */
const NOTHING = 1e-4;

/** The figures of a result that lie outside the middle half of their samples. */
function asideOf({ name, result }: Exported['blocks'][number]): readonly string[] {
  const { samples = 1 } = result?.intervals ?? {};
  // What a share of a quarter may be off in so few samples (two standard deviations of the binomial).
  const slack = 2 * Math.sqrt(0.1875 / samples);
  return Object.entries(result?.intervals?.of ?? {}).flatMap(([key, { low, high, below }]) => {
    const aside =
      below !== null && (below < 0.25 - slack || below > 0.75 + slack) && high - low > NOTHING * Math.abs(high);
    return aside ? [`${name ?? ''}.${key}: ${String(below)}`] : [];
  });
}

/** Figures of one result, or of a run and a spread of it, that are the same number with other intervals. */
function toldTwice(blocks: Exported['blocks']): readonly string[] {
  const ends = new Map<string, string>();
  const differing: string[] = [];
  for (const { name = '', result } of blocks) {
    for (const [key, { low, high, error }] of Object.entries(result?.intervals?.of ?? {})) {
      const value = result?.summary[key] ?? null;
      if (typeof value !== 'number' || value === 0) continue;
      const run = blocks.find(other => result?.kind === 'spread' && key.startsWith(`${other.name ?? ''}_`))?.name;
      const figure = `${run ?? name}: ${value}`;
      const told = `${low} to ${high}, known to ${error}`;
      if ((ends.get(figure) ?? told) !== told) differing.push(`${figure} (${key}): ${told}, ${ends.get(figure) ?? ''}`);
      ends.set(figure, told);
    }
  }
  return differing;
}

/** Sheets that a whole report of four launches may take: half empty ones and a picture a sheet made 36 of them. */
const PRINTED: { readonly [notebook: string]: number } = { 'guesthouse.md': 22 };

/** Between them they have every kind of cell and a page that turns; axe-core takes its time. */
const SEEN_BY_AXE: readonly string[] = ['at-the-counter.md', 'which-battery.md', 'road-test.md'];

const place = mkdtempSync(join(tmpdir(), 'axlewatt-examples-'));
let browser: Browser | null = null;
beforeAll(async () => {
  if (hasBrowser) browser = await startBrowser();
});
afterAll(async () => {
  await browser?.close();
  rmSync(place, { recursive: true });
});

describe('the examples through the command', () => {
  it.each([...texts.keys()].filter(name => name.endsWith('.md')))(
    '%s ends well and leaves a report',
    async notebook => {
      const args = ['run', notebook, '--brief', ...(notebook === WITH_ALL ? [] : ['--samples', '48'])];
      const called = command(withItsFiles(notebook), args, 240);
      expect(called.err).toBe('');
      expect(called.code).toBe(0);
      const page = called.read(`out/${notebook.replace(/md$/u, 'html')}`);
      expect(page).toContain('</html>');
      if (browser !== null) {
        const file = join(place, 'page.html');
        writeFileSync(file, page);
        expect(await cutOf(browser, `file://${file}`)).toEqual([]);
        if (SEEN_BY_AXE.includes(notebook)) expect(await violationsOf(browser, `file://${file}`)).toEqual([]);
      }
      const sheet = called.read(`out/${notebook.replace(/md$/u, 'brief.html')}`);
      for (const words of ['SHA-256', 'class="card"', 'Assumed', 'can kill', 'signature'])
        expect(sheet).toContain(words);
      expect(faults(sheet)).toEqual([]);
      expect(sheetsOf(sheet)).toBe(1);
      const most = PRINTED[notebook];
      if (most !== undefined) expect(sheetsOf(page)).toBeLessThanOrEqual(most);
      const { blocks } = JSON.parse(called.read(`out/${notebook.replace(/md$/u, 'json')}`)) as Exported;
      expect(blocks.flatMap(asideOf)).toEqual([]);
      expect(toldTwice(blocks)).toEqual([]);
      // What was measured has its interval without samples.
      const counts = new Set(
        // A comparison and a sweep say by how many samples theirs are.
        blocks
          .filter(({ result }) => !['compare', 'sweep'].includes(result?.kind ?? ''))
          .flatMap(({ result }) => result?.intervals?.samples ?? [])
          .filter(count => count > 0),
      );
      expect(counts.size).toBeLessThanOrEqual(1);
      if (notebook !== WITH_ALL) return;
      expect(blocks.find(({ name }) => name === 'from_the_bench')?.result?.intervals?.samples).toBeGreaterThanOrEqual(
        64,
      );
    },
    300_000,
  );
});
