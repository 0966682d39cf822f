import { describe, expect, it } from 'vitest';
import { cell, complaints, fence } from './fake.ts';
import { asked, base, dash, heavy, numbersOf, plain, quick, resultOf, run, textsOf, week } from './study-cells.ts';

const cars = base + quick + heavy;
const compare = (...lines: string[]): string =>
  cars + dash + week + fence('yaml compare which', ['of: dash, week', ...lines].join('\n'));
const all = compare('cars: base, quick, heavy', 'prices: 10000, 10400, 16000', 'gross_mass: 1400 kg');
const result = resultOf(all, 'which');
const dashOf = (car: string): string => cars + fence('yaml launch dash', `car: ${car}`);
const weekOf = (car: string): string =>
  cars + fence('yaml steady week', `car: ${car}\nspeed: 80 km/h\ntemperature: 0 degC`);

describe('a comparison', () => {
  it.each(['base', 'quick', 'heavy'])('gives %s what it does by itself', car => {
    expect(result.summary[`${car}_dash_time`]).toBe(asked(dashOf(car), 'dash')()['time']);
    const alone = asked(weekOf(car), 'week')();
    expect(result.summary[`${car}_week_range`]).toBe(alone['range']);
    expect(result.summary[`${car}_week_consumption`]).toBe(alone['consumption']);
    expect(result.summary[`${car}_mass`]).toBe({ base: 1150, quick: 1000, heavy: 1400 }[car]);
  });

  it('puts the same into its table, with the differences to the first car', () => {
    expect(textsOf(result, 'table', 'car')).toEqual(['base', 'quick', 'heavy']);
    const times = numbersOf(result, 'table', 'dash_time');
    expect(numbersOf(result, 'table', 'dash_time_change')).toEqual(times.map(time => time - times[0]!));
    expect(numbersOf(result, 'table', 'price')).toEqual([10000, 10400, 16000]);
  });

  it('says who is best at what, and does not call a heavier car better or worse', () => {
    const figures = textsOf(result, 'figures', 'figure');
    const best = textsOf(result, 'figures', 'best');
    expect(best[figures.indexOf('dash_time')]).toBe('quick');
    // The heavy one goes further, and breaks the permitted mass.
    expect(best[figures.indexOf('week_range')]).not.toBe('heavy');
    const [range] = result.verdicts!.filter(verdict => verdict.startsWith('Range (week)')).map(plain);
    expect(range).toMatch(/^Range \(week\): .*; struck out: \d+ km with heavy, which breaks the permitted mass$/);
    expect(textsOf(result, 'table', 'breaks')).toEqual(['', '', 'the permitted mass']);
    const free = resultOf(compare('cars: base, quick, heavy'), 'which');
    expect(textsOf(free, 'figures', 'best')[figures.indexOf('week_range')]).toBe('heavy');
    expect(free.series['table']!['breaks']).toBeUndefined();
    expect(best[figures.indexOf('base_mass')]).toBe('');
    expect(plain(result.verdicts![0]!)).toMatch(/^To 100 km\/h \(dash\): best is quick with \d\.\d\d s, against /);
  });

  it('calls none of two cars best that are as good, and none at all where every car breaks a limit', () => {
    const twin = fence('yaml car twin', 'from: quick');
    const tied = resultOf(twin + compare('cars: base, quick, twin'), 'which');
    expect(textsOf(tied, 'figures', 'best')[0]).toBe('');
    expect(plain(tied.verdicts![0]!)).toMatch(
      /: best are quick and twin alike, with \d\.\d\d s, against \d+\.\d\d s with base$/,
    );
    const none = resultOf(compare('cars: base, quick', 'gross_mass: 800 kg'), 'which');
    expect(none.verdicts![0]).toContain('no car keeps the limits; struck out: ');
    expect(none.verdicts!.join()).not.toContain('best is');
  });

  it('reckons kilometres per kilogram and per money', () => {
    const range = numbersOf(result, 'table', 'week_range');
    const gain = (range[2]! - range[0]!) / 1000;
    const line = result.verdicts!.find(verdict => verdict.startsWith('heavy against base'))!;
    const [, perKg, perMoney] = /\(([\d.]+) km for each kg\).*\(([\d.]+) km for each 1000/.exec(line)!;
    expect(Number(perKg)).toBeCloseTo(gain / 250, 2);
    expect(Number(perMoney)).toBeCloseTo(gain / 6, 0);
  });

  it('says where the next step stops paying', () => {
    // The second step of money buys a tenth of what the first one buys.
    const dear = compare('cars: base, quick, heavy', 'outputs: week.range', 'prices: 10000, 10100, 99000');
    expect(resultOf(dear, 'which').verdicts!.join()).toMatch(/the step from quick to heavy does not pay, it brings/);
    const free = compare('cars: base, heavy', 'outputs: week.range', 'prices: 10000, 16000');
    expect(resultOf(free, 'which').verdicts!.join()).toContain('every step up in price pays');
  });

  it('warns of the limit that a car breaks, and of no other', () => {
    // 1400 kg with a driver of 75 kg.
    expect(result.warnings).toEqual([
      'heavy breaks the permitted mass: 1475 kg with driver and load alone against 1400 kg',
    ]);
  });

  it('can be used in formulas', () => {
    const outcome = run(all + fence('yaml check c', '- which.quick_dash_time < which.base_dash_time'));
    expect(cell(outcome, 'c').checks[0]?.holds).toBe(true);
  });

  it.each([
    [['cars: base'], 'which.cars: are fewer than two'],
    [['cars: base, base'], '"base" stands there twice'],
    [['cars: base, quick', 'prices: 1, 2, 3'], 'which.prices: are 3 for 2 cars'],
    [['cars: base, quik'], 'quick'],
    [['cars: base, quick', 'outputs: dash.tiem'], 'did you mean "dash.time"'],
  ])('complains of %j', (lines, text) => {
    const cell = fence('yaml compare which', ['of: dash', ...lines].join('\n'));
    expect(complaints(run(cars + dash + cell)).join()).toContain(text);
  });
});
