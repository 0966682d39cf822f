/** Short ways of writing that are none: each is told with its place and with what to write instead. Needs `npm run build`. */
import { expect, it } from 'vitest';
import { command } from '../command.ts';

const notebook = (replaced: string, by: string): string =>
  `
\`\`\`yaml car a
mass: 1100 kg
tyres: { from: tyre_narrow, radius: 0.29 m }
drive:
  axle: front
  unit: unit_200kw
  ratio: 8.4
  regeneration: { kind: none }
pack:
  cell: cell_nmc_60ah
  series: 96
  parallel: 2
  charge: 90 %
  health: 80 %
\`\`\`

\`\`\`yaml launch dash
car: a
slope: 1/4
\`\`\`

\`\`\`yaml charge night
car: a
supply: { current: 10 A }
\`\`\`
`.replace(replaced, by);

it.each([
  [
    'regeneration: { kind: none }',
    'regeneration: none',
    'a.md:9:17: a.drive.regeneration: is not a group',
    '{ kind: none }',
  ],
  ['supply: { current: 10 A }', 'supply: 10 A', 'a.md:25:9: night.supply: is not a group', '{ current: 10 A }'],
  ['slope: 1/4', 'slope: 1:4', 'a.md:20:8: dash.slope: a colon divides nothing here', '1/4'],
  ['charge: 90 %', 'charge: 90', 'a.md:14:11: a.pack.charge: 90 is too large', '90 %'],
  ['health: 80 %', 'health: 80', 'a.md:15:11: a.pack.health: 80 is too large', '80 %'],
])('%s, and not %s', (right, wrong, said, cure) => {
  const { code, err } = command({ 'a.md': notebook(right, wrong) }, ['check', 'a.md']);
  expect(code).toBe(1);
  expect(err).toContain(said);
  expect(err).toContain(`did you mean "${cure}"?`);
  expect(notebook(right, wrong).replace(wrong, wrong.replace(/:.*/u, `: ${cure}`))).toBe(notebook('', ''));
});

it('written in full nothing is wrong with it', () => {
  expect(command({ 'a.md': notebook('', '') }, ['check', 'a.md'])).toMatchObject({ code: 0, err: '' });
});

it('a value that several fields of a group could take has no cure', () => {
  const { err } = command({ 'a.md': notebook('regeneration: { kind: none }', 'regeneration: 10 km/h') }, [
    'check',
    'a.md',
  ]);
  expect(err).toContain('is not a group');
  expect(err).not.toContain('did you mean');
});

it('a notebook without cells is no success', () => {
  const files = { 'a.md': '# A car\n\nIt is quick.\n' };
  const checked = command(files, ['check', 'a.md']);
  expect(checked.code).toBe(1);
  expect(checked.err).toContain('a.md:1:1: has no cell, so nothing is asked');
  const run = command(files, ['run', 'a.md']);
  expect(run.code).toBe(1);
  expect(run.out.replaceAll(/\n {2,}/gu, ' ')).toContain('has no cell, so nothing is asked');
});

it('tells the numbers of a part that ships: value, spread and source', () => {
  const { code, out } = command({}, ['cells', 'tyre_narrow']);
  expect(code).toBe(0);
  for (const said of [/dry_peak +0\.85 \(0\.75 \.\. 0\.95\)/u, /size +145\/80 R 13/u, /Source: .*Regulation/u])
    expect(out).toMatch(said);
  const pack = command({}, ['cells', 'pack_nmc_96s1p_60ah']).out;
  expect(pack).toMatch(/series +96/u);
  expect(pack).toMatch(/cell\.capacity +60 Ah/u);
  expect(command({}, ['cells', 'part.tyre']).out).toContain('axlewatt cells tyre_economy');
});
