/** What is possible but seldom meant is questioned, never passed over in silence. */
import { describe, expect, it } from 'vitest';
import { runNotebook } from '../../src/notebook/run.ts';
import { cell, complaints, fence } from './fake.ts';

const car = (mass: string, name = 'coupe'): string =>
  fence(
    `yaml car ${name}`,
    `mass: ${mass}
tyres: { radius: 290 mm }
drive: { axle: rear, ratio: 8.5, unit: { peak_torque: 250 N m, peak_power: 110 kW } }
pack: { cell: cell_nmc_21700, series: 96, parallel: 24 }`,
  );
const dash = fence('yaml launch dash', 'car: coupe');
const run = (text: string) => runNotebook(text, { file: 'a.md' });
const warnings = (mass: string): string => (cell(run(car(mass) + dash), 'dash').result?.warnings ?? []).join('\n');

describe('odd values', () => {
  it('are questioned where the car is run', () => {
    expect(warnings('1090 kg')).not.toMatch(/unusual|spread right/);
    expect(warnings('10900 kg')).toMatch(
      /coupe\.mass: 10900 kg is unusual, 300 kg to 3500 kg is what cars have: is a digit or the unit wrong\?/,
    );
    expect(warnings('1010 kg ± 1500 kg')).toMatch(/coupe\.mass: a standard uncertainty of 149 % of 1010 kg/);
    expect(warnings('1010 kg ± 15 kg')).not.toMatch(/spread right/);
  });

  it('are questioned on the scales too', () => {
    const scales = (front: string): string =>
      fence('yaml weigh scales', `scales: { front: ${front}, rear: 480 kg }\nwheelbase: 2.4 m`);
    const told = (front: string): string => (cell(run(scales(front)), 'scales').result?.warnings ?? []).join();
    expect(told('530 kg')).not.toMatch(/unusual/);
    expect(told('5300 kg')).toMatch(/scales\.scales\.front: 5300 kg is unusual/);
  });

  it.each(['6.900', '[6.900, 7.200]', '6.900, 7.200'])('as prices: %s may be thousands', prices => {
    const compare = `of: dash\ncars: [coupe, other]\noutputs: time\nprices: ${prices}`;
    const text = car('1010 kg') + car('1100 kg', 'other') + dash;
    expect(complaints(run(text + fence('yaml compare both', compare))).join()).toMatch(/6\.900 may be 6\.9 or 6900/);
    const fine = complaints(run(text + fence('yaml compare both', compare.replace(prices, '[6900, 7200.50]'))));
    expect(fine).toEqual([]);
  });

  it.each(['It takes `= dash.time to get there.', 'It takes = dash.time` to get there.'])(
    '%s is a quoted result with one backtick',
    prose => {
      const text = `${car('1010 kg')}${dash}\n${prose}\n`;
      expect(complaints(run(text)).join()).toMatch(/this quoted result has one backtick only/);
      expect(complaints(run(text.replace(prose, 'It takes `= dash.time` of a == b, `a = b`.'))).join()).not.toMatch(
        /backtick/,
      );
    },
  );
});
