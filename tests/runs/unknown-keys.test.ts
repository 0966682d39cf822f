/** Misspelled names in what the library is given: errors, with the nearest right name. */
import { describe, expect, it } from 'vitest';
import {
  charge,
  completeCar,
  completeSurroundings,
  drive,
  launch,
  range,
  repeat,
  sheet,
  shippedPart,
  SpecError,
  steady,
} from '../../src/index.ts';
import type { CarSpec } from '../../src/index.ts';

const spec = {
  mass: 1010,
  tyres: { size: '165/80 R 13' },
  drive: { axle: 'front' as const, unit: { peakTorque: 200, peakPower: 80e3 }, ratio: 8 },
  pack: { cell: shippedPart('cell', 'cell_nmc_60ah')!.values, series: 96, parallel: 2 },
} satisfies CarSpec;

/** Options with one more, which the compiler would not let through. */
function and<T extends object>(options: T, more: object): T {
  return { ...options, ...more };
}

function complaint(work: () => unknown): readonly [path: string, message: string, nearest: string] {
  try {
    work();
  } catch (error) {
    if (error instanceof SpecError) return [error.path, error.message, error.nearest];
    throw error;
  }
  throw new Error('was taken');
}

describe('a car', () => {
  it.each([
    [{ ...spec, masss: 1 }, 'a.masss', 'masss', 'mass'],
    [{ ...spec, drag_area: 1 }, 'a.dragArea', 'drag_area', 'dragArea'],
    [{ ...spec, tyres: { ...spec.tyres, dryPeek: 1 } }, 'a.tyres.dryPeek', 'dryPeek', 'dryPeak'],
    [{ ...spec, pack: { ...spec.pack, serie: 96 } }, 'a.pack.serie', 'serie', 'series'],
    [{ ...spec, auxiliaries: { powr: 1 } }, 'a.auxiliaries.powr', 'powr', 'power'],
    [{ ...spec, roadLoad: { f9: 1 } }, 'a.roadLoad.f9', 'f9', ''],
  ])('%#: its fields', (wrong, path, key, meant) => {
    const message = `${path}: unknown key "${key}"${meant === '' ? '' : `; did you mean "${meant}"?`}`;
    const expected = meant === '' ? expect.stringContaining(`${message}; expected one of f0`) : message;
    expect(complaint(() => completeCar(wrong as CarSpec, 'a'))).toEqual([path, expected, meant]);
  });

  it('its surroundings', () => {
    const wrong: object = { temprature: 280 };
    expect(complaint(() => completeSurroundings(wrong))[2]).toBe('temperature');
  });
});

describe('a run', () => {
  const { car } = completeCar(spec);
  const { surroundings } = completeSurroundings({});
  const trip = { title: '', parts: [] };

  it.each([
    ['launch', () => launch(car, and({ surroundings }, { stopp: 'x' })), 'stop'],
    ['repeat', () => repeat(car, and({ surroundings, times: 2, pause: 1 }, { paus: 1 })), 'pause'],
    ['drive', () => drive(car, trip, and({ surroundings }, { chrge: 1 })), 'charge'],
    ['range', () => range(car, trip, and({ surroundings }, { reserv: 1 })), 'reserve'],
    ['steady', () => steady(car, and({ surroundings, speed: 20, speeds: [20] }, { charg: 1 })), 'charge'],
    ['sheet', () => sheet(car, and({ surroundings }, { grosMass: 1 })), 'grossMass'],
    ['charge', () => charge(car, and({ temperature: 290, supply: {} as never }, { form: 0.1 })), 'from'],
  ])('its options: %s', (_name, work, meant) => {
    const [, message, nearest] = complaint(work);
    expect(message).toMatch(/^\S+: unknown key ".*"; did you mean/u);
    expect(nearest).toBe(meant);
  });
});
