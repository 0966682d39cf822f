/** Words on the printed sheet that a workshop asked for, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const NOTEBOOK = `# Words

\`\`\`yaml weigh plan
scales: { front: 545 kg, rear: 385 kg }
wheelbase: 2.46 m
cg_height: 0.53 m
in:
  - { name: box, mass: 100 kg, x: 1 m, height: 0.5 m }
driver: { mass: 75 kg, x: 1.3 m, height: 0.6 m }
load:
  - { name: guests, count: 2, mass: 75 kg, x: 1.85 m, height: 0.65 m }
permitted: { front: 750 kg, rear: 720 kg, gross: 1260 kg }
\`\`\`

\`\`\`yaml car van
mass: 1150 kg
tyres: tyre_touring
drive: { axle: front, ratio: 8, unit: { peak_torque: 260 N m, peak_power: 100 kW } }
pack: { cell: cell_pouch_27ah, series: 90, parallel: 2 }
charger: { greatest_voltage: 400 V }
\`\`\`

\`\`\`yaml launch start
car: van
\`\`\`

\`\`\`yaml drive shift
car: van
trip:
  - { speed: 50 km/h, distance: 2 km }
  - { speed: 60 km/h, distance: 1 km }
  - { speed: 50 km/h, distance: 2 km }
  - { speed: 60 km/h, distance: 1 km }
  - { speed: 30 km/h, distance: 1 km }
\`\`\`

\`\`\`yaml drive logged
car: van
log: logs/over-the_hill.csv
\`\`\`

\`\`\`yaml seek gearing
of: start
vary:
  - { path: van.drive.ratio, from: 6, to: 10 }
find: largest
where:
  - start.top_speed >= 120 km/h
\`\`\`
`;

const LOG = ['time (s),speed (km/h)', ...Array.from({ length: 60 }, (_, k) => `${k},${Math.min(30, k, 59 - k)}`)].join(
  '\n',
);

describe('the printed sheet', () => {
  const called = command({ 'w.md': NOTEBOOK, 'logs/over-the_hill.csv': `${LOG}\n` }, [
    'run',
    'w.md',
    '--samples',
    '0',
    '--brief',
  ]);
  const sheet = called.read('out/w.brief.html').replaceAll(/[\u00a0\u202f]/gu, ' ');
  const card = (name: string): string =>
    (sheet.match(new RegExp(`<article class="card" data-name="${name}"[^]*?</article>`, 'u'))?.[0] ?? '').replaceAll(
      /<[^>]*>/gu,
      '',
    );

  it('says who and what is aboard a car that is fully loaded, and what is tightest', () => {
    expect(called.err).toBe('');
    // 930 + 100 + 75 + 150 = 1255 of 1260 kg.
    expect(card('plan')).toContain('Fully loaded is with driver 75 kg, 2 guests 150 kg.');
    expect(card('plan')).toContain('Tightest: 5 kg to the permitted gross mass, scales and parts taken as exact.');
  });

  it('calls ways by what they are, not by rows or files', () => {
    expect(card('shift')).toContain('trip in 5 stages');
    expect(card('logged')).toContain('recorded drive “over the hill”');
    expect(sheet).not.toContain('logs/over');
  });

  it('says what was asked of what is sought beside what was found', () => {
    expect(card('gearing')).toContain('Asked was: top speed (start) at least 120 km/h.');
  });

  it('offers no pack that the charger can not fill', () => {
    // 90 cells of 4.2 V have 378 V, 99 have 416 V.
    expect(card('start')).not.toContain('99 cells in series');
    const told =
      /99 cells in series[^]*?the greatest voltage of the charger is 400 V, and 99 cells in series have 416 V/u;
    expect(told.test(called.read('out/w.html').replaceAll('\u00a0', ' '))).toBe(true);
  });
});
