import { describe, expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { completeCar } from '../../../src/model/complete.ts';
import { shippedPart } from '../../../src/model/parts/shipped.ts';
import type { DriveSpec } from '../../../src/model/drive/fields.ts';
import type { CarSpec } from '../../../src/model/spec.ts';
import { createLauncher } from '../../../src/runs/launch/run.ts';
import { inGear } from '../../../src/runs/variant.ts';
import { testDay } from '../../cars.ts';

const launch = createLauncher();
const timeTo = (car: Car, to: number): number =>
  launch(car, { surroundings: testDay, to, stop: 'to', tolerance: 1e-8 }).marks.get('to')?.time ?? Infinity;

const built = (drive: Omit<DriveSpec, 'axle'>, more: Partial<CarSpec> = {}): Car =>
  completeCar({
    mass: 1100,
    tyres: { size: '165/80 R 13' },
    drive: { axle: 'rear', ...drive },
    pack: { cell: shippedPart('cell', 'cell_nmc_60ah')?.values ?? {}, series: 96, parallel: 2 },
    ...more,
  }).car;

const CARS: readonly (readonly [string, Car])[] = [
  [
    'a strong motor that could stay in one gear',
    built({
      ratio: 4.1,
      unit: { peakTorque: 300, peakPower: 120_000, maxSpeed: 1200 },
      gearbox: { gears: [2.2, 1.3], shiftTime: 0.5 },
    }),
  ],
  [
    'a weak motor with three gears',
    built({ ratio: 4.1, unit: { peakTorque: 110, peakPower: 40_000 }, gearbox: { gears: [3.4, 1.9, 1.2] } }),
  ],
  [
    'a quick change on a hot pack that sags',
    built(
      {
        ratio: 3.9,
        unit: { peakTorque: 160, peakPower: 70_000, maxSpeed: 900 },
        gearbox: { gears: [3.6, 2, 1.3], shiftTime: 0.1 },
      },
      { pack: { cell: shippedPart('cell', 'cell_nmc_60ah')?.values ?? {}, series: 90, parallel: 1, charge: 0.4 } },
    ),
  ],
];

const withUpshifts = (car: Car, upshifts: readonly number[]): Car => ({
  ...car,
  drives: car.drives.map(drive => {
    if (drive.gearbox === undefined) return drive;
    const { best: _best, ...gearbox } = drive.gearbox;
    return {
      ...drive,
      gearbox: { ...gearbox, gears: gearbox.gears.map((gear, i) => ({ ...gear, upshift: upshifts[i] ?? Infinity })) },
    };
  }),
});

/** All ways to place `count` shifts on a grid of shares of the greatest motor speed. */
function gridOf(count: number): readonly (readonly number[])[] {
  const shares = Array.from(
    { length: count > 1 ? 14 : 40 },
    (_, i, all = count > 1 ? 14 : 40) => 0.25 + (0.73 * i) / (all - 1),
  );
  const rest = count > 1 ? gridOf(count - 1) : [[]];
  const inner = count > 1 ? rest.filter((_, i) => i % (count > 2 ? 2 : 1) === 0) : rest;
  return shares.flatMap(share => inner.map(others => [share, ...others]));
}

describe('shift: best', () => {
  it.each(CARS)('no other shift speeds of a fine grid are quicker: %s', (_, car) => {
    const [drive] = car.drives;
    const most = drive?.unit.maxSpeed ?? Number.NaN;
    const count = (drive?.gearbox?.gears.length ?? 1) - 1;
    for (const to of [50 / 3.6, 100 / 3.6]) {
      const best = timeTo(car, to);
      const quickest = Math.min(
        ...gridOf(count).map(shares =>
          timeTo(
            withUpshifts(
              car,
              shares.map(share => share * most),
            ),
            to,
          ),
        ),
      );
      expect(best, `to ${3.6 * to} km/h`).toBeLessThan(quickest * (1 + 2e-3));
      for (let i = 0; i <= count; i++) expect(best).toBeLessThan(timeTo(inGear(car, i), to) * (1 + 1e-5));
    }
  });

  it.each([2e-6, -2e-6, 3e-7])('is not decided by round-off: %f N m more', more => {
    const of = (peakTorque: number): Car =>
      built({ ratio: 4.1, unit: { peakTorque, peakPower: 90_000, maxSpeed: 1000 }, gearbox: { gears: [2.6, 1.5] } });
    const marks = (car: Car) => launch(car, { surroundings: testDay, stop: 'quarter_mile', tolerance: 1e-9 }).marks;
    const other = new Map([...marks(of(300 + more))].map(([mark, { time }]) => [mark, time]));
    for (const [mark, { time }] of marks(of(300))) {
      expect(Math.abs((other.get(mark) ?? Number.NaN) / time - 1), mark).toBeLessThan(1e-6);
    }
  });
});

describe('the best shift points', () => {
  const marks = ['60_ft', '50_km_h', '80_km_h', 'to'] as const;
  const timesOf = (car: Car): readonly (number | undefined)[] => {
    const run = launch(car, { surroundings: testDay, to: 90 / 3.6, tolerance: 1e-9 });
    return marks.map(mark => run.marks.get(mark)?.time);
  };

  /** All numbers of a car, each by its path. */
  const numbersOf = (value: unknown, path: readonly string[] = []): readonly (readonly string[])[] => {
    if (typeof value === 'number') return value === 0 || !Number.isFinite(value) ? [] : [path];
    if (value === null || typeof value !== 'object') return [];
    return Object.entries(value).flatMap(([key, inner]) => numbersOf(inner, [...path, key]));
  };

  const at = (value: unknown, path: readonly string[]): unknown =>
    path.reduce((inner, key) => (inner as { readonly [key: string]: unknown })[key], value);

  const moved = (value: unknown, [key, ...rest]: readonly string[], factor: number): unknown => {
    if (key === undefined) return typeof value === 'number' ? value * factor : value;
    if (Array.isArray(value)) return value.map((each, i) => (String(i) === key ? moved(each, rest, factor) : each));
    return Object.fromEntries(
      Object.entries(value as object).map(([name, each]) => [name, name === key ? moved(each, rest, factor) : each]),
    );
  };

  it.each(CARS)('move no mark by more than 1e-6 for 1e-9 of any number: %s', (_, car) => {
    const before = timesOf(car);
    for (const path of numbersOf(car)) {
      // What is a whole can only become less.
      const after = timesOf(moved(car, path, at(car, path) === 1 ? 1 - 1e-9 : 1 + 1e-9) as Car);
      before.forEach((time, i) => {
        const other = after[i];
        expect(other === undefined, `${path.join('.')} ${marks[i]}`).toBe(time === undefined);
        if (time === undefined || other === undefined) return;
        expect(Math.abs(other / time - 1), `${path.join('.')} ${marks[i]}`).toBeLessThan(1e-6);
      });
    }
  });
});
