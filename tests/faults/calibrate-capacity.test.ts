/** The capacity that is left without a gauge: by voltages at rest, and by the log of the pack between two rests. */
import { describe, expect, it } from 'vitest';
import type { CellBlock } from '../../src/notebook/document/outcome.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { command } from '../command.ts';
import { normals } from '../fit/coast-logs.ts';
import { charging, driving, packCar, packCsv, packRows, type PackWay } from '../fit/pack-logs.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;
const COUPE = fence(
  'car coupe',
  'mass: 1155 kg',
  'drive: { axle: rear, unit: unit_60kw, ratio: 8 }',
  'tyres: { radius: 290 mm }',
  'pack: { cell: cell_nmc_60ah, series: 90, parallel: 2 }',
);
const car = packCar();
const normal = normals(5);
const log = (
  way: Partial<PackWay>,
  change: (rows: [number, number, number][]) => void = () => {},
  header?: string,
): string => {
  const rows = packRows(
    car,
    { health: 0.88, from: 0.15, current: charging(40, 7200), step: 5, rest: 3600, noise: [0.2, 0.1], ...way },
    normal,
  ).map(([t, v, a]): [number, number, number] => [t, v, a]);
  change(rows);
  return packCsv(rows, header);
};

const year = (...rows: string[]): string =>
  fence('calibrate year', 'car: coupe', 'charges:', ...rows.map(row => `  - { ${row} }`));

function cellOf(text: string, files: { readonly [file: string]: string } = {}): CellBlock {
  const { blocks } = runNotebook(COUPE + text, { file: 'a.md', readFile: path => files[path] ?? '' });
  const found = blocks.find((block): block is CellBlock => block.kind === 'cell' && block.name === 'year');
  if (found === undefined) throw new Error('no cell');
  return found;
}

function healthOf({ result }: CellBlock): { readonly low: number; readonly high: number } {
  return result?.intervals?.of['health'] ?? { low: Number.NaN, high: Number.NaN };
}

const holds = (cell: CellBlock, truth: number, widest: number): void => {
  expect(cell.problem?.message ?? '').toBe('');
  const { low, high } = healthOf(cell);
  expect([low < truth, truth < high, high - low < widest]).toEqual([true, true, true]);
};

describe('the capacity that is left', () => {
  it('comes from the log of a charge between two rests, through the command, and goes into a car', () => {
    const files = { 'c.csv': log({}) };
    const text =
      COUPE +
      year('log: c.csv, wall: 33 kWh') +
      fence('car aged', 'from: year') +
      fence('steady s', 'car: aged', 'speed: 80 km/h');
    const called = command({ 'a.md': text, ...files }, ['run', 'a.md', '--samples', '0']);
    expect(called.code).toBe(0);
    expect(Math.abs((called.values('year')['health'] ?? 0) - 0.88)).toBeLessThan(0.03);
    expect(called.values('year')['charger_efficiency']).toBeGreaterThan(0.7);
    expect(called.read('out/a.html')).toMatch(/health: 8\d\.\d+ % ± \d/u);
    holds(cellOf(year('log: c.csv'), files), 0.88, 0.5);
  });

  it('comes from the log of a drive, whichever sign its current has', () => {
    const way = { from: 0.9, current: driving(6000), step: 1 };
    holds(cellOf(year('log: d.csv'), { 'd.csv': log(way) }), 0.88, 0.5);
    const turned = log(way, rows => rows.forEach(row => (row[2] = -row[2])));
    holds(cellOf(year('log: d.csv'), { 'd.csv': turned }), 0.88, 0.5);
  });

  it('comes from two voltages at rest and a counter, by the curve of the cells', () => {
    const rest = (charge: number): string => {
      const [row] = packRows(car, { health: 1, from: charge, current: () => null, step: 1, rest: 1 }, normal);
      return (row?.[1] ?? 0).toFixed(2);
    };
    holds(
      cellOf(
        year(`rest_before: ${rest(0.1)} V, rest_after: ${rest(1)} V, counted: ${(0.9 * 0.88 * 120).toFixed(2)} A h`),
      ),
      0.88,
      0.14,
    );
  });

  it('is surer with a better voltmeter', () => {
    const width = (pm: string): number => {
      const { low, high } = healthOf(cellOf(year(`rest_before: 315 V${pm}, rest_after: 376 V${pm}, counted: 95 A h`)));
      return high - low;
    };
    expect(width(' ± 0.1 V')).toBeLessThan(0.95 * width(''));
    expect(width(' ± 1.6 V')).toBeGreaterThan(1.3 * width(''));
  });

  it.each([
    ['no rest before', {}, 'the pack rests for', (rows: [number, number, number][]) => void rows.splice(0, 700)],
    ['no rest after', {}, 'the pack rests for', (rows: [number, number, number][]) => void rows.splice(-600)],
    ['a gap', {}, 'the clock goes on by', (rows: [number, number, number][]) => void rows.splice(1000, 200)],
    ['a current in mA', {}, 'beyond the', (rows: [number, number, number][]) => rows.forEach(row => (row[2] *= 1000))],
    [
      'one reading that is none',
      {},
      'beyond the',
      (rows: [number, number, number][]) => rows.forEach((row, i) => i === 900 && (row[2] = 6553.5)),
    ],
    [
      'the voltage of a cell',
      {},
      'is no voltage of a pack',
      (rows: [number, number, number][]) => rows.forEach(row => (row[1] /= 90)),
    ],
    [
      'a rest that is none',
      { rest: 1900 },
      'still moves by',
      (rows: [number, number, number][]) => rows.forEach((row, i) => (row[1] += Math.max(0, i - 1800) * 0.03)),
    ],
    [
      'rows a minute apart of a drive',
      { from: 0.9, current: driving(6000), step: 15 },
      'every second row tells',
      () => {},
    ],
  ])('is refused with %s', (_, way, wanted, change) => {
    const { problem } = cellOf(year('log: c.csv'), { 'c.csv': log(way, change) });
    expect(problem?.message ?? '').toContain(wanted);
  });

  it('is refused where the current of a drive lost its sign', () => {
    const unsigned = log({ from: 0.9, current: driving(6000), step: 1 }, rows =>
      rows.forEach(row => (row[2] = Math.abs(row[2]))),
    );
    expect(cellOf(year('log: d.csv'), { 'd.csv': unsigned }).problem?.message).toContain(
      'against what the voltage says',
    );
  });

  it.each([
    ['a current three times too great', (rows: [number, number, number][]) => rows.forEach(row => (row[2] *= 3))],
    ['a clock in another unit', (rows: [number, number, number][]) => rows.forEach(row => (row[0] *= 3.6))],
  ])('is no figure with %s', (_, change) => {
    const { result, problem } = cellOf(year('log: c.csv'), { 'c.csv': log({}, change) });
    expect(problem).toBeNull();
    expect(result?.summary['health']).toBeNull();
    expect(result?.reasons['capacity']).toContain('which no pack has');
  });

  it('is wider where the current reads something at rest, and says so', () => {
    const { result, problem } = cellOf(year('log: c.csv'), { 'c.csv': log({ offset: 1.5 }) });
    expect(problem).toBeNull();
    expect(result?.warnings.join(' ')).toContain('at rest');
    const found = result?.intervals?.of['health'];
    expect(found !== undefined && found.low < 0.88 && found.high > 0.88).toBe(true);
  });

  it.each([
    ['rest_before: 330 V, counted: 60 A h', 'has no rest_after beside the other'],
    ['from: 20 %, to: 80 %, rest_before: 330 V, counted: 60 A h', 'has a gauge and a voltage at rest'],
    ['from: 20 %, counted: 60 A h', 'needs the state of charge before and after'],
  ])('refuses %s', (row, wanted) => {
    expect(cellOf(year(row)).problem?.message).toContain(wanted);
  });
});
