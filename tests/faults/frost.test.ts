/**
 * A range in frost through the built command, by the work that it is and not by the clock: samples that nobody asks for are as many as fit
 * into the work of a page, so that their number tells how much work one run is.
 */
import { expect, it } from 'vitest';
import { command } from '../command.ts';

const car = [
  '```yaml car mule',
  'mass: 1200 kg ± 60 kg',
  'tyres: { size: 185/60 R 14 }',
  'drive: { axle: rear, ratio: 8, unit: unit_60kw }',
  'pack: { cell: cell_nmc_60ah, series: 96, parallel: 1 }',
  '```',
  '',
].join('\n');

interface Exported {
  readonly blocks: readonly { readonly result: { readonly intervals?: { readonly samples: number } } | null }[];
}

/** Samples of each of a few equal ranges on one page; 0 where they are too much work for any. */
function samples(schedule: string, temperature: number): number {
  const ranges = [1, 2, 3].map(k =>
    [
      `\`\`\`yaml range far_${k}`,
      'car: mule',
      `schedule: ${schedule}`,
      `temperature: ${temperature} degC`,
      '```',
      '',
    ].join('\n'),
  );
  const { blocks } = JSON.parse(
    command({ 'a.md': car + ranges.join('\n') }, ['run', 'a.md'], 120).read('out/a.json'),
  ) as Exported;
  const counts = blocks.flatMap(({ result }) => (result === null ? [] : [result.intervals?.samples ?? 0]));
  return Math.min(...counts.slice(-3));
}

// A pack that takes nothing was stepped as if what it takes moved: four to eight times the work.
const WAIT = { timeout: 240_000 };

it.each(['wltc', 'udds'])('a range in frost on %s is at most 1.7 times the work of one above zero', WAIT, schedule => {
  const mild = samples(schedule, 20);
  // Where they fit whatever they are, they tell nothing.
  expect(mild).toBeGreaterThan(64);
  expect(mild).toBeLessThan(128);
  expect(mild / samples(schedule, -25)).toBeLessThan(1.7);
});
