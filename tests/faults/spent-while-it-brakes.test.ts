/** A pack whose budget of charge current is spent while the car brakes: the follower braked on with a mean of the limits before and after. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { command } from '../command.ts';

it('is worked out alike by both methods', () => {
  const text = readFileSync(new URL('../explore/kept/spent-while-it-brakes.md', import.meta.url), 'utf8');
  const called = command({ 'a.md': text }, ['run', 'a.md', '--json']);
  // It differed by 1.7e-5, which fails the cell.
  expect(called.code).toBe(0);
  const blocks: readonly {
    readonly name?: string;
    readonly result: { readonly opinion: { readonly difference: number } };
  }[] = JSON.parse(called.read('out/a.json')).blocks;
  expect(blocks.find(({ name }) => name === 'l')?.result.opinion.difference).toBeLessThan(1e-6);
});
