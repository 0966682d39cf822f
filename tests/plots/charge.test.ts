import { describe, expect, it } from 'vitest';
import { chargeTraces } from '../../src/plots/charge.ts';
import { duration } from '../../src/plots/kit/duration.ts';
import { draw } from '../../src/report/page/render.ts';
import { charge } from '../../src/runs/charge/charge.ts';
import { testCar } from '../cars.ts';

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const heat = { capacity: 80_000, cooling: 30, derateAt: 318, derateRange: 10, resistanceActivation: 2400 };
const strong = {
  ...testCar,
  pack: { ...testCar.pack, heat, window: { low: 0.05, high: 1 }, maxVoltage: 400 },
  charger: { ...testCar.charger, power: 22_000 },
};
const box = { voltage: 230, current: 100, phases: 1 };
const tapered = charge(strong, { from: 0.4, to: 0.95, supply: box, temperature: 290 });
const even = charge(testCar, { from: 0.3, to: 0.5, supply: { ...box, current: 10 }, temperature: 290 });

describe('the picture of a charge', () => {
  it('has a view for each of power, current, voltage, charge and a temperature that moves', () => {
    const views = (result: typeof even): unknown =>
      (chargeTraces(result, 'metric').spec(720) as { vconcat: { title: { text: string } }[] }).vconcat.map(view =>
        plain(view.title.text),
      );
    const four = ['Power, kW', 'Charge current, A', 'Pack voltage, V', 'State of charge, %'];
    expect(views(even)).toEqual(four);
    expect(views(tapered)).toEqual([...four, 'Pack temperature, °C']);
  });

  it('says when the taper begins, and marks it in every view', () => {
    const taper = duration(tapered.summary['taper_time'] as number);
    expect(chargeTraces(tapered, 'metric').caption).toContain(`highest voltage, after ${taper}:`);
    expect(chargeTraces(even, 'metric').caption).toContain('nothing tapers');
    const rules = (result: typeof even): number =>
      JSON.stringify(chargeTraces(result, 'metric').spec(720)).split('"rule"').length - 1;
    expect(rules(tapered)).toBe(5);
    expect(rules(even)).toBe(0);
  });

  it('has a table in display units with the pace of each row', () => {
    const { columns, rows } = chargeTraces(tapered, 'imperial').table;
    expect(columns.map(plain)).toEqual([
      'Time, h',
      'Power from the wall, kW',
      'Charge current, A',
      'Pack voltage, V',
      'State of charge, %',
      'paced by',
    ]);
    expect(rows[0]).toEqual(['0.00', '22.00', expect.any(String), expect.any(String), '40', 'charger']);
    expect(rows.at(-1)?.at(-1)).toBe('cell voltage');
  });

  it.each([340, 720])('can be drawn %i px wide', async width => {
    const { svg } = await draw(chargeTraces(tapered, 'metric').spec(width), 'p');
    expect(svg).toContain('time since plugging in, h');
    expect(svg).not.toContain('NaN');
  });
});

describe('a duration', () => {
  it.each([
    [12.4, '12 s'],
    [59.5, '1 min'],
    [3569, '59 min'],
    [3570, '1 h'],
    [7 * 3600 + 20 * 60 + 29, '7 h 20 min'],
    [57_600, '16 h'],
  ])('of %d s reads %s', (seconds, text) => expect(plain(duration(seconds))).toBe(text));
});
