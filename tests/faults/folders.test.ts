/** A folder in the place of a notebook, through the built command. */
import { expect, test } from 'vitest';
import { command } from '../command.ts';

const CAR =
  '```yaml car van\nmass: 1100 kg\ntyres: tyre_touring\ndrive: { axle: rear, ratio: 8.2, unit: unit_100kw }\npack: { cell: cell_pouch_27ah, series: 96, parallel: 4 }\n```\n\n```calc sums\ntwice = 2 * van.mass\n```\n';

test('run takes the notebooks of a folder, and no other file', () => {
  const called = command(
    { 'cars/a.md': CAR, 'cars/b.md': CAR, 'cars/words.md': '# Only words\n', 'cars/more/c.md': CAR },
    ['run', 'cars', '--samples', '0'],
  );
  expect(called.code).toBe(0);
  expect([...called.out.matchAll(/Report: (?<file>\S+)/gu)].map(found => found.groups?.['file'])).toEqual([
    'out/a.html',
    'out/b.html',
  ]);
  expect(called.has('out/words.html')).toBe(false);
});

test('a folder without a notebook is wrong usage, and says what one is', () => {
  const { code, err } = command({ 'cars/words.md': '# Only words\n' }, ['run', 'cars']);
  expect(code).toBe(2);
  expect(err).toContain('no notebook in the folder "cars": one is a file NAME.md with a cell in it');
});

test('check takes a folder too', () => {
  const { code, err } = command({ 'cars/a.md': CAR, 'cars/b.md': CAR.replace('kg', 'kgg') }, ['check', 'cars']);
  expect(code).toBe(1);
  expect(err).toContain('cars/b.md:2:');
});
