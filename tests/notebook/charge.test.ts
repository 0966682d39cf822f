import { describe, expect, it } from 'vitest';
import { csvTables } from '../../src/notebook/document/export.ts';
import { pathReference } from '../../src/notebook/fields/reference.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { cell, complaints, fence } from './fake.ts';

const run = (text: string) => runNotebook(text, { file: 'a.md' });
const car = fence(
  'yaml car coupe',
  [
    'mass: 1000 kg',
    'tyres: { radius: 290 mm }',
    'drive: { axle: rear, ratio: 8.5, unit: { peak_torque: 250 N m, peak_power: 110 kW } }',
    'pack: { cell: cell_nmc_21700, series: 96, parallel: 24 }',
    'charger: { power: 6.6 kW }',
  ].join('\n'),
);
const charge = (...lines: string[]) => car + fence('yaml charge night', ['car: coupe', ...lines].join('\n'));
const summary = (outcome: ReturnType<typeof run>): Record<string, unknown> => cell(outcome, 'night').result!.summary;

describe('a charge cell', () => {
  it('takes the supply, the states of charge and the weather', () => {
    const outcome = run(
      charge('from: 20 %', 'to: 90 %', 'supply: { current: 16 A }', 'temperature: 5 degC') +
        fence('calc s', 'took = night.time to h\nmean = night.energy_wall / night.time to kW'),
    );
    expect(complaints(outcome)).toEqual([]);
    expect(summary(outcome)).toMatchObject({ from: 0.2, to: 0.9, paced_by: 'supply' });
    const [took, mean] = cell(outcome, 's').values;
    expect(took?.value).toBe(summary(outcome)['time']);
    expect(mean?.value).toBeCloseTo(3680, 6);
    expect(csvTables(outcome).map(({ name }) => name)).toEqual(['night.time', 'night.steps']);
  });

  it('lists all that it works with', () => {
    const outcome = run(charge());
    const paths = outcome.inputs.map(({ path }) => path).filter(path => path.startsWith('night.'));
    expect(paths.toSorted()).toEqual([
      'night.car',
      'night.from',
      'night.pack_temperature',
      'night.supply.current',
      'night.supply.phases',
      'night.supply.voltage',
      'night.temperature',
      'night.to',
    ]);
    expect(summary(outcome)).toMatchObject({ from: 0.05, to: 0.97 });
    expect(summary(outcome)['peak_power']).toBeCloseTo(2300, 6);
  });

  it('takes a pilot, a price and a consumption from a formula', () => {
    const lines = ['supply: { pilot: 50 % }', 'price: 0.32 1/kWh', 'consumption: = van.use'];
    const outcome = run(charge(...lines, 'consumption_at: pack') + fence('calc van', 'use = 16 kWh / 100 km'));
    expect(complaints(outcome)).toEqual([]);
    const found = summary(outcome) as Record<string, number>;
    // 50 % is 30 A, more than the 6.6 kW of the charger.
    expect(found['peak_phase_current']).toBeCloseTo(6600 / 230, 9);
    expect(found['cost']).toBeCloseTo((0.32 * found['energy_wall']!) / 3.6e6, 9);
    expect(found['range_gained']).toBeCloseTo(found['energy_stored']! / 576, 6);
  });

  it('takes the temperature of the pack apart from that of the air', () => {
    expect(summary(run(charge('temperature: -15 degC')))['time']).toBeNull();
    // A pack that comes warm from the road is full before it has become too cold; left on the socket all night it is not.
    const warm = summary(run(charge('temperature: -15 degC', 'pack_temperature: 20 degC', 'from: 80 %', 'to: 90 %')));
    expect(warm['time']).toBeGreaterThan(1800);
  });

  it.each([
    [['from: 60 %', 'to: 50 %'], '11:5: night.to: is not above from'],
    [['from: 98 %'], 'night.to: is not above from'],
    [['supply: { pilot: 5 % }'], '10:18: night.supply.pilot: allows no charging by itself'],
    [['supply: { phases: 1.5 }'], '10:19: night.supply.phases: 1.5 is not a whole number'],
    [['supply: { current: 16 V }'], '10:23: night.supply.current: '],
    [['supply: { volts: 230 V }'], '10:11: night.supply.volts: unknown key'],
    [
      ['current: 16 A'],
      '10:1: night.current: unknown key "current"; expected it below supply: supply: { current: 16 A }',
    ],
    [['peak_power: 90 kW'], 'expected it below drive, unit: drive: { unit: { peak_power: 90 kW } }, in the car cell'],
    [['supply.current: 16 A'], 'unknown key "supply.current"; expected it below supply: supply: { current: 16 A }'],
    [['cabin: heat_pump'], '10:1: night.cabin: unknown key "cabin"; expected it as a line of the car cell'],
    [['price: 0.3 EUR/kWh'], 'money is written without its currency'],
    [['slope: 3 %'], '10:1: night.slope: '],
  ])('with %j tells it at its place', (lines, expected) => {
    expect(complaints(run(charge(...lines)))[0]).toContain(expected);
  });

  it('is in the reference', () => {
    expect(pathReference('charge', 80)).toMatch(/pack_temperature +°C or °F/);
    expect(pathReference('charge.supply', 80)).toMatch(/pilot +%/);
  });
});
