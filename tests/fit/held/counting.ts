/**
 * How often the interval of a calibration holds the truth of a log that was made up, and where that is kept: `counts.json` has the hits of
 * every 25 repeats. `AXLEWATT_COUNT="coast, 10 rows a second" npx vitest run tests/fit/held/counts` counts what is missing there, block by
 * block, and may be ended at any time.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { item, nth } from '../../../src/columns.ts';
import { type Spread, standardOf } from '../../../src/fit/linear.ts';
import { TWO_SIDED } from '../../../src/fit/result.ts';

/** Repeats in one block. */
const BLOCK = 25;

/** Whether the interval of each figure held its truth; null where the fit gave no figure. */
export type Hits = readonly boolean[] | null;

export interface Counting {
  readonly name: string;
  readonly figures: readonly string[];
  /** Repeats that are to be kept. */
  readonly repeats: number;
  readonly hits: (seed: number) => Hits;
}

/** Of a block: fits with figures, and of each figure the hits. */
export type Counted = readonly number[];

const FILE = new URL('counts.json', import.meta.url);

export function keptCounts(): { readonly [name: string]: readonly Counted[] } {
  return JSON.parse(readFileSync(FILE, 'utf8')) as { [name: string]: Counted[] };
}

export function countedBlock({ figures, hits }: Counting, block: number): Counted {
  const counted = [0, ...figures.map(() => 0)];
  for (let seed = block * BLOCK + 1; seed <= (block + 1) * BLOCK; seed++) {
    const found = hits(seed);
    if (found === null) continue;
    for (const [k, hit] of [true, ...found].entries()) counted[k] = nth(counted, k) + (hit ? 1 : 0);
  }
  return counted;
}

/** Goes on where the file ends. */
export function countOn(counting: Counting): void {
  for (;;) {
    const kept = keptCounts();
    const own = kept[counting.name] ?? [];
    if (own.length * BLOCK >= counting.repeats) return;
    const all = { ...kept, [counting.name]: [...own, countedBlock(counting, own.length)] };
    const lines = Object.entries(all).map(
      ([name, blocks]) =>
        `  ${JSON.stringify(name)}: [\n${blocks.map(each => `    ${JSON.stringify(each)}`).join(',\n')}\n  ]`,
    );
    writeFileSync(FILE, `{\n${lines.join(',\n')}\n}\n`);
  }
}

/** Fits with figures, and of each figure the share of them whose interval held the truth. */
export function sharesOf(blocks: readonly Counted[]): { readonly fits: number; readonly shares: readonly number[] } {
  const sum = (k: number): number => blocks.reduce((all, block) => all + nth(block, k), 0);
  const fits = sum(0);
  return {
    fits,
    shares: item(blocks, 0)
      .slice(1)
      .map((_, k) => sum(k + 1) / fits),
  };
}

export function holds(off: number, standard: number): boolean {
  return Math.abs(off) <= TWO_SIDED * standard;
}

/** Whether sums of parameters by these weights lie in their intervals. */
export function holdsAll(
  off: readonly number[],
  spread: Spread,
  weights: readonly (readonly number[])[],
): readonly boolean[] {
  return weights.map(each =>
    holds(
      each.reduce((all, weight, k) => all + weight * nth(off, k), 0),
      standardOf(each, spread),
    ),
  );
}
