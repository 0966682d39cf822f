/** A season of drives and charges of a car that is known, through the notebook and the built command. */
import { describe, expect, it } from 'vitest';
import type { CellBlock } from '../../src/notebook/document/outcome.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { command } from '../command.ts';
import { normals } from '../fit/coast-logs.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;

const car = (name: string, ...more: string[]): string =>
  fence(
    `car ${name}`,
    'mass: 1155 kg ± 8 kg',
    'drive: { axle: rear, unit: unit_60kw, ratio: 8 }',
    'pack: { cell: cell_nmc_60ah, series: 90, parallel: 2, charge: 95 % }',
    ...more,
  );
const ASSUMED = [
  'tyres: { radius: 290 mm, rolling_resistance: 0.011 }',
  'drag_area: 0.70 m^2 .. 0.9 m^2',
  'auxiliaries: { power: 250 W }',
];
const TRUE = [
  'tyres: { radius: 290 mm, rolling_resistance: 0.0125 }',
  'drag_area: 0.72 m^2',
  'auxiliaries: { power: 420 W }',
];

const WAYS = [
  'speed: 110 km/h, distance: 60 km, temperature: 20 degC',
  'speed: 20 km/h, time: 90 min, temperature: 20 degC',
  'schedule: wltc, temperature: 15 degC',
  'speed: 70 km/h, distance: 50 km, temperature: 10 degC',
  'speed: 120 km/h, distance: 40 km, temperature: 20 degC',
  'speed: 10 km/h, time: 60 min, temperature: 20 degC',
  'speed: 50 km/h, distance: 40 km, temperature: 12 degC',
];

/** kWh out of the pack of the car as it is. */
function energies(): readonly number[] {
  const text =
    car('truth', ...TRUE) + WAYS.map((way, i) => fence(`drive d${i}`, 'car: truth', ...way.split(', '))).join('');
  const { blocks, problems } = runNotebook(text, { file: 'truth.md' });
  expect(problems).toEqual([]);
  return blocks.flatMap(block =>
    block.kind === 'cell' && block.cell === 'drive' ? [Number(block.result?.summary['energy']) / 3.6e6] : [],
  );
}

const CHARGES = [
  'charges:',
  '  - { from: 20 %, to: 90 %, counted: 76 A h, wall: 29.1 kWh, into: 26.0 kWh }',
  '  - { from: 30 %, to: 100 %, counted: 75.2 A h }',
  '  - { from: 10 %, to: 80 %, counted: 75.6 A h, wall: 28.9 kWh, into: 25.7 kWh }',
];

function season(exact: readonly number[], ways: readonly string[] = WAYS, more: readonly string[] = CHARGES): string {
  const normal = normals(11);
  const rows = ways.map(
    (way, i) =>
      `  - { ${way}, energy: ${((exact[i] ?? 1) * (1 + 0.01 * normal())).toFixed(4)} kWh ± ${(0.01 * (exact[i] ?? 1)).toFixed(4)} kWh }`,
  );
  return fence('calibrate year', 'car: coupe', 'drives:', ...rows, ...more);
}

function cellOf(text: string): CellBlock {
  const found = runNotebook(text, { file: 'a.md' }).blocks.find(
    (block): block is CellBlock => block.kind === 'cell' && block.name === 'year',
  );
  if (found === undefined) throw new Error('no cell');
  return found;
}

describe('a season', () => {
  const exact = energies();

  it('gives consumers, drag and rolling resistance with intervals that hold the truth', () => {
    const { result, problem } = cellOf(car('coupe', ...ASSUMED) + season(exact));
    expect(problem).toBeNull();
    const within = (key: string, truth: number): void => {
      const { low = 0, high = 0 } = result?.intervals?.of[key] ?? {};
      expect([key, low < truth && truth < high, (high - low) / truth < 0.6]).toEqual([key, true, true]);
    };
    within('auxiliaries', 420);
    within('drag_area', 0.72);
    within('rolling_resistance', 0.0125);
    // 76 A h over 70 % and the like, of 120 A h when new; 26 of 29.1 kWh.
    within('capacity', 108 * 3600);
    within('health', 0.9);
    within('charger_efficiency', 0.891);
  });

  it('gives a car that consumes what was metered, through the command', () => {
    const after = fence('car now', 'from: year') + fence('drive again', 'car: now', ...(WAYS[0] ?? '').split(', '));
    const called = command({ 'a.md': car('coupe', ...ASSUMED) + season(exact) + after }, [
      'run',
      'a.md',
      '--samples',
      '0',
    ]);
    expect(called.code).toBe(0);
    const energy = (called.values('again')['energy'] ?? 0) / 3.6e6;
    expect(Math.abs(energy / (exact[0] ?? 1) - 1)).toBeLessThan(0.02);
    expect(called.read('out/a.html')).toContain('Copy these lines');
  });

  it('of drives that are all alike parts nothing, and says what would', () => {
    const alike = Array.from({ length: 6 }, () => 'speed: 70 km/h, distance: 50 km, temperature: 10 degC');
    const { result } = cellOf(
      car('coupe', ...ASSUMED) +
        season(
          alike.map(() => exact[3] ?? 1),
          alike,
          [],
        ),
    );
    expect(result?.summary['drag_area']).toBeNull();
    expect(result?.reasons['drag_area']).toMatch(/can not be told apart: the drives are too much alike.*slow drives/u);
  });

  it('without a count says that the capacity needs one, and without two meters the charger', () => {
    const { result } = cellOf(
      car('coupe', ...ASSUMED) +
        season([], [], ['charges: [{ from: 20 %, to: 90 %, wall: 29 kWh }]']).replace('drives:\n', ''),
    );
    expect(result?.reasons['capacity']).toContain('needs the charge in A h that was counted');
    expect(result?.reasons['charger_efficiency']).toContain('from the wall and into the pack');
  });

  it.each([
    [['charges: [{ from: 90 %, to: 20 %, counted: 70 A h }]'], /is not above from/u],
    [['fit: [drag, colour]', ...CHARGES], /"colour" is nothing that drives give/u],
    [['launch: [{ log: a.csv }]'], /stands beside/u],
  ])('refuses what can not be: %s', (lines, wanted) => {
    const { problem } = cellOf(car('coupe', ...ASSUMED) + season(exact, WAYS, lines));
    expect(problem?.message).toMatch(wanted);
    expect(problem?.line).toBeGreaterThan(1);
  });
});
