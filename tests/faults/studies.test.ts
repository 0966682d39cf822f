/** A study and the cell it names are one question: what a cell says of a car as it stands, a study of it says too. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;

/** No cooling is given: a trip assumes one, a charge does not. */
const car = fence(
  'car van',
  'mass: 1300 kg',
  'front_share: 52 %',
  'drag_area: 0.9 m^2',
  'tyres: { from: tyre_touring, radius: 300 mm }',
  'drive: { axle: rear, ratio: 8.5, unit: unit_100kw }',
  'pack: { cell: cell_nmc_21700, series: 96, parallel: 16 }',
  'charger: { power: 6.6 kW }',
  'cabin: { heater: resistive }',
);

/** The car as it is in the first row, something lighter in the second. */
const again = (of: string, outputs: string): string =>
  fence(
    `sweep again_${of}`,
    `of: ${of}`,
    'over: [{ path: van.mass, values: [1300 kg, 1200 kg] }]',
    `outputs: ${outputs}`,
  ) +
  fence('car light', 'from: van', 'mass: 1200 kg').replace('light', `light_${of}`) +
  fence(`compare beside_${of}`, `of: ${of}`, `cars: van, light_${of}`, `outputs: ${outputs}`);

/** Fails where the sweep or the comparison gives the car as it stands another figure than its own cell. */
function agrees(cell: string, keys: readonly string[]): void {
  const run = fence(...(cell.split('\n') as [string, ...string[]]));
  const [, name = ''] = /^\w+ (\w+)/.exec(cell) ?? [];
  const notebook = car + run + again(name, keys.map(key => `${name}.${key}`).join(', '));
  const called = command({ 'a.md': notebook }, ['run', 'a.md', '--samples', '0']);
  expect(called.err).not.toMatch(/a fault of axlewatt itself/);
  const own = called.values(name);
  const beside = called.values(`beside_${name}`);
  const ends = called.values(`again_${name}`);
  for (const key of keys) {
    expect(own[key], key).toBeTypeOf('number');
    expect(beside[`van_${name}_${key}`], key).toBe(own[key]);
    // A sweep says the ends of its rows: the car as it stands is one of two.
    expect([ends[`${name}_${key}_lowest`], ends[`${name}_${key}_highest`]], key).toContain(own[key]);
  }
}

describe('a study says what the cell says', () => {
  it('of a charge, with a cold pack and without the heat of it', () => {
    agrees('charge night\ncar: van\nsupply: { current: 16 A }\ntemperature: 5 degC\npack_temperature: -2 degC', [
      'time',
      'energy_wall',
    ]);
  }, 60_000);

  it('of a range on a trip with a long steady leg', () => {
    agrees('range tour\ncar: van\nspeed: 90 km/h\ndistance: 200 km\ntemperature: -10 degC', ['range', 'consumption']);
  }, 60_000);

  it('of a drive of an hour', () => {
    agrees('drive trip\ncar: van\nspeed: 70 km/h\ntime: 60 min\ntemperature: 0 degC', ['consumption', 'charge_end']);
  }, 60_000);
});

it('a curve over temperature goes through the range of the day', () => {
  const range =
    'range tour\ncar: van\nspeed: 90 km/h\ndistance: 200 km\ntemperature: -10 degC\ntemperatures: [-10 degC]';
  const called = command({ 'a.md': car + fence(...(range.split('\n') as [string])) }, [
    'run',
    'a.md',
    '--samples',
    '0',
  ]);
  const { blocks } = JSON.parse(called.read('out/a.json')) as {
    blocks: { name?: string; result?: { series: { temperature: { range_m: { values: Record<string, number> } } } } }[];
  };
  const tour = blocks.find(({ name }) => name === 'tour');
  expect(Object.values(tour?.result?.series.temperature.range_m.values ?? {})[0]).toBe(called.values('tour')['range']);
}, 60_000);
