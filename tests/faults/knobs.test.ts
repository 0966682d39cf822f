/** Knobs: what they name, how far they go, and what is wrong with them, through the built command. Needs `npm run build`. */
import { expect, it } from 'vitest';
import { command } from '../command.ts';

const notebook = (rows: string): string => `# Knobs

\`\`\`yaml car coupe
mass: 1010 kg ± 15 kg
tyres: { from: tyre_touring, dry_peak: 0.95 }
drive: { axle: rear, ratio: 8.2, unit: unit_100kw }
pack: { cell: cell_pouch_27ah, series: 96, parallel: 4 }
\`\`\`

\`\`\`yaml launch dash
car: coupe
\`\`\`

\`\`\`yaml knobs
over:
${rows}
\`\`\`
`;

interface Exported {
  readonly blocks: readonly { readonly knobs?: readonly object[] }[];
}

it('numbers, parts and words are told with their bounds, and stand in a table without a script', () => {
  const rows = [
    '  - { path: coupe.tyres.dry_peak, from: 0.6, to: 1.2, step: 0.02, label: Grip of the tyres }',
    '  - path: coupe.mass',
    '  - path: coupe.pack.parallel',
    '  - { path: coupe.tyres, choices: "tyre_sport, tyre_economy" }',
    '  - path: dash.surface',
    '  - { path: dash.temperature, from: -10 degC, to: 30 degC, step: 2 degC }',
  ].join('\n');
  const called = command({ 'k.md': notebook(rows) }, ['run', 'k.md', '--samples', '0']);
  expect(called.err).toBe('');
  expect(called.code).toBe(0);
  const { blocks } = JSON.parse(called.read('out/k.json')) as Exported;
  expect(blocks.flatMap(({ knobs = [] }) => knobs)).toEqual([
    {
      path: 'coupe.tyres.dry_peak',
      label: 'Grip of the tyres',
      kind: 'number',
      own: 0.95,
      unit: '',
      from: 0.6,
      to: 1.2,
      step: 0.02,
    },
    // 30 % on either side: more than three times 15 kg.
    { path: 'coupe.mass', label: 'coupe: mass', kind: 'number', own: 1010, unit: 'kg', from: 700, to: 1320, step: 10 },
    {
      path: 'coupe.pack.parallel',
      label: 'coupe: pack, parallel',
      kind: 'number',
      own: 4,
      unit: '',
      from: 2,
      to: 6,
      step: 1,
    },
    {
      path: 'coupe.tyres',
      label: 'coupe: tyres',
      kind: 'choice',
      own: 'tyre_touring',
      choices: ['tyre_touring', 'tyre_sport', 'tyre_economy'],
    },
    {
      path: 'dash.surface',
      label: 'dash: surface',
      kind: 'choice',
      own: 'dry',
      choices: ['dry', 'wet', 'snow', 'ice'],
    },
    {
      path: 'dash.temperature',
      label: 'dash: temperature',
      kind: 'number',
      own: 20,
      unit: '°C',
      from: -10,
      to: 30,
      step: 2,
    },
  ]);
  const page = called.read('out/k.html');
  expect(page).toContain('Grip of the tyres');
  expect(page).toContain('0.60 to 1.20 in steps of 0.02');
});

it.each([
  ['  - path: coup.mass', 'k.md:16:11: knobs 1.over[1].path: "coup" is no car', 'did you mean "coupe"'],
  ['  - path: coupe.drive.ratoi', 'is no input of coupe', 'coupe.drive.ratio'],
  ['  - { path: coupe.mass, from: 1000 kg, to: 900 kg }', 'knobs 1.over[1].to: is not above from', ''],
  [
    '  - { path: coupe.mass, from: 1100 kg, to: 1200 kg }',
    'over[1].from: is above the value of the notebook, 1010',
    '',
  ],
  ['  - { path: coupe.mass, from: 900 kg, to: 1200 kg, step: 5 V }', 'over[1].step', ''],
  ['  - { path: coupe.mass, from: 900, to: 1200 kg }', 'over[1].from', '1010 kg'],
  ['  - { path: coupe.pack.parallel, from: 2, to: 6, step: 0.5 }', 'over[1].step: is no whole number', ''],
  ['  - { path: coupe.tyres }', 'has no choices', 'tyre_'],
  ['  - { path: coupe.tyres, choices: tyre_spotr }', '"tyre_spotr" can not stand there', 'tyre_sport'],
  ['  - path: coupe.mass\n  - path: coupe.mass', 'over[2].path: stands there twice', ''],
])('%s is told with its place', (row, message, cure) => {
  const called = command({ 'k.md': notebook(row) }, ['check', 'k.md']);
  expect(called.code).toBe(1);
  expect(called.err + called.out).toContain(message);
  expect(called.err + called.out).toContain(cure);
});

it('says on the page that other cells bring no mass along', () => {
  const text = `\`\`\`yaml car van
mass: 1350 kg
tyres: { size: 175/80 R 14 }
drive: { axle: rear, ratio: 9.1, unit: unit_60kw }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 1 }
\`\`\`
\`\`\`yaml launch dash
car: van
\`\`\`
\`\`\`yaml knobs turn
over:
  - { path: van.pack.parallel, from: 1, to: 3 }
  - { path: van.drive.ratio, from: 6, to: 12 }
\`\`\`
`;
  const called = command({ 'a.md': text }, ['run', 'a.md', '--samples', '0']);
  // In the table of knobs and beside the control, of one of the two.
  expect(called.read('out/a.html').split('Other cells bring no mass along').length - 1).toBeGreaterThanOrEqual(2);
});
