/** What parts must stand in a sheet, in a coast-down and in a standard test, through the built command. */
import { expect, it } from 'vitest';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;

const car = fence(
  'car coupe',
  'mass: 1100 kg',
  'drag_area: 0.7 m^2',
  'tyres: { from: tyre_touring, size: 175/70 R 13 }',
  'drive: { axle: rear, ratio: 8, unit: { from: unit_60kw, continuous_power: 25 kW } }',
  'pack: { cell: cell_nmc_60ah, series: 90, parallel: 1 }',
);

it('a sheet, a coast-down and a standard test are runs of a duty too', () => {
  const called = command(
    {
      'a.md':
        car +
        fence('sheet figures', 'car: coupe') +
        fence('launch dash', 'car: coupe', 'to: 100 km/h') +
        fence('coast down', 'car: coupe', 'in: gear', 'from: 90 km/h', 'to: 20 km/h') +
        fence('range sticker', 'car: coupe', 'standard: udds') +
        fence('range town', 'car: coupe', 'schedule: udds', 'temperature: 23 degC') +
        ['figures', 'down', 'sticker', 'town', 'dash'].map(name => fence(`duty of_${name}`, `of: ${name}`)).join('') +
        fence('duty of_all', 'of: [figures, down, sticker]'),
    },
    ['run', 'a.md', '--samples', '0'],
    240,
  );
  expect(called.err).toBe('');
  expect(called.code).toBe(0);
  const of = (name: string, key: string): number => called.values(name)[key] ?? Number.NaN;
  // From rest to 100 km/h it asks what a launch to there asks; half an hour at a speed less, but for longer.
  expect(of('of_figures', 'pack_current_1_s')).toBeCloseTo(of('dash', 'current_1_s'), 0);
  expect(of('of_figures', 'pack_current_1800_s')).toBeGreaterThan(1.5 * of('of_dash', 'pack_current_1800_s'));
  const power = of('figures', 'thirty_minute_speed');
  expect(power).toBeGreaterThan(20);
  // Of a coast-down in gear, what comes back.
  expect(of('of_down', 'pack_charge_current')).toBeLessThanOrEqual(1.0001 * of('down', 'peak_charge_current'));
  expect(of('of_down', 'pack_charge_current')).toBeGreaterThan(0.98 * of('down', 'peak_charge_current'));
  expect(of('of_down', 'shaft_torque')).toBeGreaterThan(0);
  // The same cycle over and over: on rollers and on the road by nearly the same currents.
  expect(of('of_sticker', 'pack_current_10_s') / of('of_town', 'pack_current_10_s')).toBeCloseTo(1, 1);
  // A coast-down in gear takes nothing out of the pack.
  const most = (key: string, names: readonly string[]): number => Math.max(...names.map(name => of(`of_${name}`, key)));
  expect(of('of_all', 'pack_current_10_s')).toBe(most('pack_current_10_s', ['figures', 'sticker']));
  expect(of('of_all', 'shaft_torque')).toBe(most('shaft_torque', ['figures', 'down', 'sticker']));
}, 300_000);
