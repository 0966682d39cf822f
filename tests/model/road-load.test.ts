import { describe, expect, it } from 'vitest';
import type { Car } from '../../src/model/car.ts';
import { completeRoadLoad } from '../../src/model/body/road-load.ts';
import type { Input } from '../../src/model/fields/input.ts';
import { idealCar } from '../cars.ts';
import { testDay } from '../cars.ts';
import { demanded } from './demanded.ts';

const POUND = 0.45359237;
const POUND_FORCE = POUND * 9.80665;
const MPH = 0.44704;

/** A record as test files have them: 3500 lb, A 27.8 lbf, B 0.382 lbf/mph, C 0.01474 lbf/mph2. */
const mass = 3500 * POUND;
const measured = {
  f0: 27.8 * POUND_FORCE,
  f1: (0.382 * POUND_FORCE) / MPH,
  f2: (0.01474 * POUND_FORCE) / MPH ** 2,
  temperature: 293.15,
  pressure: 101_325,
};

function coasted(load = 0, spec: object = measured): { readonly car: Car; readonly inputs: readonly Input[] } {
  const inputs: Input[] = [];
  const plain = idealCar({ mass, force: 1e5, power: 1e8, cgHeight: 0.5 });
  const car = { ...plain, body: { ...plain.body, load } };
  const { body, tyres } = completeRoadLoad('road_load', spec, { ...car.body, load: 0 }, car.tyres, inputs);
  return { car: { ...car, body: { ...body, load }, tyres }, inputs };
}

const day = { ...testDay, temperature: 293.15, altitude: 0, humidity: 0 };

describe('a measured road load', () => {
  it('is what the car meets on the day of the test, with the digits of the closed form', () => {
    const { force, power } = demanded(coasted().car, day, 60 * MPH, 0);
    expect(force / 461.654232118).toBeCloseTo(1, 11);
    expect(power.power / 12_382.6744756).toBeCloseTo(1, 11);
  });

  it('follows F0 + F1 v + F2 v² at every speed', () => {
    const { car } = coasted();
    for (const v of [0.1, 5, 13, 29, 47]) {
      const expected = measured.f0 + v * (measured.f1 + v * measured.f2);
      expect(demanded(car, day, v, 0).force / expected).toBeCloseTo(1, 12);
    }
  });

  it('grows with the load where it is rolling resistance, and not where it is drag', () => {
    const v = 20;
    const [light, heavy] = [0, 300].map(load => demanded(coasted(load).car, day, v, 0).force);
    const rolling = measured.f0 + measured.f1 * v;
    expect(heavy! - light!).toBeCloseTo((rolling * 300) / mass, 8);
  });

  it('follows the air of the day: colder air is thicker, and tyres roll harder in it', () => {
    const { car } = coasted();
    const cold = { ...day, temperature: 263.15, humidity: 0 };
    const warm = { ...day, humidity: 0 };
    // Drag at a speed where it is all: density goes with 1/T. Rolling resistance by 0.8 % per kelvin.
    const at = (v: number, on: typeof day): { drag: number; roll: number } => {
      const { power, force } = demanded(car, on, v, 0);
      return { drag: power.drag / v, roll: force - power.drag / v };
    };
    expect(at(40, cold).drag / at(40, warm).drag).toBeCloseTo(293.15 / 263.15, 3);
    expect(at(10, cold).roll / at(10, warm).roll).toBeCloseTo((1 + 0.008 * -5) / (1 + 0.008 * -35), 12);
  });

  it('refers to the air of its standard: dry, of 100 kPa unless it is said', () => {
    const { pressure: _pressure, ...plain } = measured;
    const v = 40;
    const drag = (spec: object): number => demanded(coasted(0, spec).car, day, v, 0).power.drag / v;
    // UN GTR 15: 1.189 kg/m3 at 100 kPa and 293 K; SAE J1263: 98.21 kPa (both from memory). Density goes with the pressure.
    expect(drag(plain) / (measured.f2 * v * v)).toBeCloseTo(101.325 / 100, 4);
    expect(drag({ ...plain, pressure: 98_210 }) / drag(plain)).toBeCloseTo(100 / 98.21, 4);
    const { body } = coasted(0, plain).car;
    expect((2 * measured.f2) / body.dragArea).toBeCloseTo(1.189, 3);
  });

  it('takes the mass of the test where it is given, and else says which one it took', () => {
    const { car } = coasted(0, { ...measured, testMass: 2 * mass });
    expect(demanded(car, day, 1e-6, 0).force).toBeCloseTo(measured.f0 / 2, 5);
    const { inputs } = coasted();
    expect(inputs.find(({ path }) => path.endsWith('test_mass'))?.value).toBeCloseTo(mass, 9);
  });

  it('leaves car and tyres alone where nothing was measured', () => {
    const { body, tyres } = idealCar({ mass, force: 1, power: 1 });
    expect(completeRoadLoad('road_load', undefined, body, tyres, [])).toEqual({ body, tyres });
  });
});
