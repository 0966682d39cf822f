import { describe, expect, it } from 'vitest';
import { steadySchedule } from '../../src/cycles/steady.ts';
import { energy } from '../../src/plots/energy.ts';
import { simplify } from '../../src/plots/kit/simplify.ts';
import { envelope, packOverDistance } from '../../src/plots/pack-distance.ts';
import type { Picture } from '../../src/plots/kit/picture.ts';
import { powerBySpeed } from '../../src/plots/power-by-speed.ts';
import { rangeBySpeed } from '../../src/plots/range-by-speed.ts';
import { rangeByTemperature } from '../../src/plots/range-by-temperature.ts';
import { scheduleTrace } from '../../src/plots/schedule-trace.ts';
import { draw } from '../../src/report/page/render.ts';
import { drive } from '../../src/runs/trip/drive.ts';
import { range } from '../../src/runs/trip/range.ts';
import type { Result } from '../../src/runs/result.ts';
import { steady } from '../../src/runs/trip/steady.ts';
import { testCar, testDay, withPackHeat } from '../cars.ts';
import { beginning, profile, trip } from '../trips.ts';

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const car = withPackHeat(testCar);
const at = { surroundings: testDay };
const town = drive(car, trip(beginning('wltc', 589)), at);
/** Asks for more than any car can do, twice, with a steady stretch between. */
const rush = drive(
  car,
  trip(
    profile([
      [0, 0],
      [3, 30],
      [60, 30],
      [63, 0],
      [70, 0],
      [73, 30],
      [130, 30],
      [140, 0],
    ]),
  ),
  at,
);
const far = range(car, trip(beginning('wltc', 589)), { ...at, temperatures: [253.15, 273.15, 293.15] });
const even = steady(car, { ...at, speed: 25, speeds: [10, 20, 30, 80] });

describe('the picture of a schedule', () => {
  it('says that the car follows, and then has one line and no strip', () => {
    const picture = scheduleTrace(town, 'metric');
    const { caption, table } = picture;
    expect(caption).toContain('follows the schedule all the way');
    expect((picture.spec(720) as { vconcat: object[] }).vconcat).toHaveLength(1);
    expect(table.rows.every(row => row.at(-1) === '')).toBe(true);
  });

  it('colours only what the car could not follow, and adds it up', () => {
    const picture = scheduleTrace(rush, 'metric');
    const { caption, table } = picture;
    const [strip, speed] = (picture.spec(720) as { vconcat: { data: { values: { from: number; to: number }[] } }[] })
      .vconcat;
    const held = rush.bands.filter(({ limiter }) => limiter !== 'driver');
    const seconds = held.reduce((sum, { from, to }) => sum + to - from, 0);
    const drawn = strip!.data.values.reduce((sum, { from, to }) => sum + 60 * (to - from), 0);
    expect(drawn).toBeCloseTo(seconds, 6);
    expect(seconds).toBeLessThan(60);
    // The two stretches are told as their sum, not as the time from the first to the last.
    const told = [...plain(caption).matchAll(/, (\d+) s:/g)].reduce((sum, [, s]) => sum + Number(s), 0);
    expect(Math.abs(told - seconds)).toBeLessThan(3);
    expect(JSON.stringify(speed)).toContain('asked for');
    expect(table.columns.at(-1)).toBe('held back by');
  });

  it('is not drawn with more points than a page can bear', () => {
    const wild = Array.from({ length: 40_000 }, (_, x) => ({ x, y: Math.sin(x * x) }));
    const kept = simplify(wild);
    expect(kept.length).toBeLessThanOrEqual(1500);
    expect(kept[0]).toBe(wild[0]);
    expect(kept.at(-1)).toBe(wild.at(-1));
  });
});

describe('the picture of the pack over distance', () => {
  it('is drawn of a drive and of a depletion', () => {
    expect(plain(packOverDistance(town, 'metric').caption)).toMatch(/^From 90 % to \d\d % of charge/);
    expect(plain(packOverDistance(far, 'metric').caption)).toMatch(/^From 9\d % to \d+ % of charge/);
    expect(packOverDistance(far, 'imperial').table.columns[0]).toContain('mi');
  });

  it('gathers the voltage of each stretch', () => {
    const x = Float64Array.of(0, 1, 2, 3, 4);
    const y = Float64Array.of(5, 1, 9, 2, Number.NaN);
    expect(envelope(x, y, 2)).toEqual([
      { x: 0, low: 1, high: 5, mean: 3 },
      { x: 2, low: 2, high: 9, mean: 5.5 },
      { x: 4, low: 2, high: 9, mean: 5.5 },
    ]);
  });
});

describe('the picture of power by speed', () => {
  it('adds up to what left the pack and what came back', () => {
    const { table, caption } = powerBySpeed(town, 'metric');
    const [out, back] = [2, 3].map(k => table.rows.reduce((sum, row) => sum + Number(row[k]), 0));
    const factor = table.columns[2]!.includes('kWh') ? 3.6e6 : 3600;
    expect((out! - back!) * factor).toBeCloseTo(Number(town.summary.energy), -3.5);
    expect(caption).toContain('come back while slowing down');
  });
});

describe('the picture of steady speeds', () => {
  it('leaves out what the car does not hold, and says so', () => {
    const { caption, table } = rangeBySpeed(even, 'metric');
    expect(plain(caption)).toContain('From 288 km/h on the car does not hold');
    expect(table.rows.map(row => row[1] === 'not held')).toEqual([false, false, false, true]);
  });
});

describe('the picture of the seasons', () => {
  it('names the best and the worst', () => {
    const { caption, table } = rangeByTemperature(far, 'metric');
    expect(plain(caption)).toMatch(/^Farthest, \d+ km at 20 °C; least, \d+ km at −20 °C/);
    expect(table.rows.map(([at]) => at)).toEqual(['−20', '0', '20']);
  });

  it('has a number beside its point where the line of the cell would cross it', () => {
    type Layer = {
      readonly mark: { readonly type: string; readonly align?: string };
      readonly data: { readonly values: readonly { readonly x: number }[] };
    };
    const at = (temperature: number): readonly (readonly [string, readonly number[]])[] => {
      const there = { ...far, summary: { ...far.summary, air_temperature: temperature + 273.15 } };
      const { layer } = rangeByTemperature(there, 'metric').spec(720) as { readonly layer: readonly Layer[] };
      return layer
        .filter(({ mark, data }) => mark.type === 'text' && data.values.length > 0)
        .filter(({ data }) => data.values.every(value => !('text' in value && value.text === 'this cell')))
        .map(({ mark, data }) => [mark.align ?? 'above', data.values.map(({ x }) => Math.round(x))]);
    };
    expect(at(-10)).toEqual([['above', [-20, 0, 20]]]);
    expect(at(20)).toEqual([
      ['above', [-20, 0]],
      ['right', [20]],
    ]);
    expect(at(-20)).toEqual([
      ['above', [0, 20]],
      ['left', [-20]],
    ]);
  });
});

describe('the bars of the energy', () => {
  it('are in kWh where there is much, and reach beyond what went in where a hill gives some back', () => {
    expect(energy(far, 'metric').table.columns[2]).toBe('energy, kWh');
    expect(energy(town, 'metric').table.columns[2]).toBe('energy, Wh');
    // Hills that cancel: a rest of rounding is no bar `down the slope 0.00000000`.
    const { ledger } = town;
    const level = energy({ ...town, ledger: { ...ledger, out: { ...ledger.out, slope: -1e-7 } } }, 'metric');
    expect(JSON.stringify(level.spec(720))).not.toContain('down the slope');
    const downhill = drive(car, trip({ ...steadySchedule(15, 300), slope: Float64Array.of(-0.01) }), at);
    const text = JSON.stringify(energy(downhill, 'metric').spec(720));
    const most = Math.max(...[...text.matchAll(/"to":(-?[\d.e+-]+)/g)].map(([, to]) => Number(to)));
    const [, domain] = /"domain":\[[^,]*,([\d.]+)/.exec(text) ?? [];
    expect(Number(domain)).toBeCloseTo(most, 6);
  });
});

describe('all pictures of a trip', () => {
  const pictures: readonly (readonly [string, (result: Result) => Picture, Result])[] = [
    ['a schedule', result => scheduleTrace(result, 'metric'), town],
    ['a schedule that is missed', result => scheduleTrace(result, 'imperial'), rush],
    ['a pack', result => packOverDistance(result, 'metric'), far],
    ['power by speed', result => powerBySpeed(result, 'imperial'), town],
    ['steady speeds', result => rangeBySpeed(result, 'metric'), even],
    ['seasons', result => rangeByTemperature(result, 'imperial'), far],
  ];
  it.each(pictures.flatMap(each => [340, 720].map(width => [each[0], width, each[1], each[2]] as const)))(
    'can be drawn: %s, %i px wide',
    async (_, width, picture, result) => {
      const { svg, warnings } = await draw(picture(result).spec(width), 'p');
      expect(svg).not.toContain('NaN');
      expect(warnings).toEqual([]);
      expect(svg.length).toBeLessThan(90_000);
    },
  );
});
