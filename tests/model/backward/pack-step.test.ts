import { describe, expect, it } from 'vitest';
import type { Car, Pack } from '../../../src/model/car.ts';
import { curveIntegral } from '../../../src/model/tables/curve.ts';
import { DrivenPack, drivenPackAt, packRates, respond, respondAtLimit } from '../../../src/model/backward/pack-step.ts';
import { followParameters } from '../../../src/model/backward/load.ts';
import { testCar, testDay, withPackHeat } from '../../cars.ts';

const car = withPackHeat(testCar);

interface State {
  readonly charge?: number;
  readonly polarisation?: number;
  readonly temperature?: number;
}

function packOf(of: Car, { charge = 0.6, polarisation = 2, temperature = 285 }: State = {}) {
  const { pack } = followParameters(of, testDay);
  const k = new DrivenPack();
  k.air = testDay.temperature;
  k.charge = charge;
  k.pair1 = polarisation;
  k.temperature = temperature;
  drivenPackAt(pack, k);
  /** Under a power that goes straight from one value to another, in equal steps. */
  const under = (from: number, to: number, seconds: number, steps: number): DrivenPack => {
    const h = seconds / steps;
    for (let i = 0; i < steps; i++) {
      const at = (s: number): number => from + ((to - from) * (i + s)) / steps;
      k.span = h;
      k.first = at(0.5 - Math.sqrt(3) / 6);
      k.second = at(0.5 + Math.sqrt(3) / 6);
      respond(pack, k);
      drivenPackAt(pack, k);
    }
    return k;
  };
  return { pack, k, under };
}

const with_ = (change: Partial<Pack>): Car => ({ ...car, pack: { ...car.pack, ...change } });

describe('a pack under a prescribed power', () => {
  it('comes nearer by the fourth order of the step, in every state', () => {
    const run = (steps: number): DrivenPack => packOf(car).under(-20_000, 60_000, 40, steps);
    const reference = run(640);
    for (const state of ['charge', 'pair1', 'temperature', 'heat'] as const) {
      const [coarse, fine] = [10, 20].map(steps => Math.abs(run(steps)[state] - reference[state]));
      const order = Math.log2(coarse! / fine!);
      expect(order, `state ${state}`).toBeGreaterThan(3.7);
      expect(order, `state ${state}`).toBeLessThan(4.4);
    }
  });

  it('is the closed form of a cell with one voltage and one resistance', () => {
    const cell = { ...testCar.pack.cell, ocv: { charge: [0, 1], voltage: [3.7, 3.7] }, pairs: [] };
    const plain = with_({ cell: { ...cell, resistance: { charge: [0, 1], ohm: [0.02, 0.02] } }, wiringResistance: 0 });
    const cold = { ...plain, pack: { ...plain.pack, heat: { ...car.pack.heat!, resistanceActivation: 0 } } };
    const { under, pack } = packOf(cold, { polarisation: 0 });
    const [E, R] = [96 * 3.7, (96 * 0.02) / 12];
    const power = 50_000;
    const I = (E - Math.sqrt(E * E - 4 * R * power)) / (2 * R);
    const k = under(power, power, 30, 30);
    expect(0.6 - k.charge).toBeCloseTo((I * 30) / pack.capacity, 14);
    expect(k.heat / (R * I * I * 30)).toBeCloseTo(1, 12);
  });

  const still: Car = ((): Car => {
    const cell = { ...testCar.pack.cell, ocv: { charge: [0, 1], voltage: [3.7, 3.7] }, pairs: [] };
    const plain = with_({ cell: { ...cell, resistance: { charge: [0, 1], ohm: [0.02, 0.02] } }, wiringResistance: 0 });
    return { ...plain, pack: { ...plain.pack, heat: { ...car.pack.heat!, resistanceActivation: 0 } } };
  })();

  it('is the closed form of such a cell in one step from no power to three tenths of the most that it gives', () => {
    const { under, pack } = packOf(still, { polarisation: 0 });
    const [E, R] = [96 * 3.7, (96 * 0.02) / 12];
    const most = (0.3 * E * E) / (4 * R);
    // The integral of (E - sqrt(E^2 - 4 R P)) / 2 R over P.
    const primitive = (power: number): number => (E * power) / (2 * R) + (E * E - 4 * R * power) ** 1.5 / (12 * R * R);
    const charge = (primitive(most) - primitive(0)) / most;
    const k = under(0, most, 1, 1);
    // By the rule of order four alone it was 6.0e-5.
    expect(Math.abs(((0.6 - k.charge) * pack.capacity) / charge - 1)).toBeLessThan(2e-6);
    expect(Math.abs(k.heat / (E * charge - most / 2) - 1)).toBeLessThan(3e-5);
  });

  it('loses its share of what is charged all along a step whose power bends to nothing at its end', () => {
    const lossy = { ...still, pack: { ...still.pack, cell: { ...still.pack.cell, coulombicEfficiency: 0.9 } } };
    const { k, pack } = packOf(lossy, { polarisation: 0 });
    const power = (s: number): number => -2000 * (1 - s) ** 2;
    k.span = 0.5;
    k.first = power(0.5 - Math.sqrt(3) / 6);
    k.second = power(0.5 + Math.sqrt(3) / 6);
    respond(pack, k);
    // So little that nothing but its power has a say.
    const charged = (k.charge - 0.6) * pack.capacity;
    expect(charged).toBeGreaterThan(0);
    const [E, R] = [96 * 3.7, (96 * 0.02) / 12];
    let exact = 0;
    const steps = 1000;
    for (let i = 0; i < steps; i++)
      exact += (E - Math.sqrt(E * E - 4 * R * power((i + 0.5) / steps))) / (2 * R) / steps;
    expect(Math.abs(charged / (-0.9 * 0.5 * exact) - 1)).toBeLessThan(1e-4);
  });

  it('keeps its energy: what the cells gave is what left them, what warmed them and what polarised them', () => {
    const { pack, under, k } = packOf(car);
    const polarised = (volts: number): number => 0.5 * pack.farad1 * volts ** 2;
    const before = polarised(k.pair1);
    under(-20_000, 60_000, 40, 400);
    const cells = pack.capacity * pack.series * curveIntegral(pack.ocv, k.charge, 0.6);
    expect(Math.abs(cells - 20_000 * 40 - k.heat - (polarised(k.pair1) - before)) / cells).toBeLessThan(1e-10);
  });

  it('takes a step that is longer than a pair is quick in parts, the same as many short ones do, at its limit too', () => {
    const cell = { ...testCar.pack.cell, pairs: [{ resistance: 0.012, timeConstant: 0.2 }] };
    const quick = with_({ cell });
    const [coarse, fine] = [2, 2000].map(steps => packOf(quick).under(-20_000, 60_000, 4, steps));
    for (const state of ['charge', 'pair1', 'temperature', 'heat'] as const)
      expect(Math.abs(coarse![state] / fine![state] - 1), state).toBeLessThan(2e-5);
    const [once, often] = [1, 500].map(steps => {
      const { k, pack } = packOf(quick, { charge: 0.95 });
      for (let i = 0; i < steps; i++) {
        k.span = 2 / steps;
        respondAtLimit(pack, k);
      }
      return k;
    });
    for (const state of ['charge', 'pair1', 'limit'] as const)
      expect(Math.abs(once![state] / often![state] - 1), state).toBeLessThan(1e-6);
    expect(once!.span).toBe(2);
  });

  it('has the rates that another method asks for', () => {
    const { pack, k, under } = packOf(car);
    const rates = new Float64Array(4);
    packRates(pack, k, 30_000, rates);
    const before = Object.assign(new DrivenPack(), k);
    under(30_000, 30_000, 1e-3, 1);
    for (const [i, state] of (['charge', 'pair1', 'pair2', 'temperature'] as const).entries()) {
      const change = (k[state] - before[state]) / 1e-3;
      expect(Math.abs(change - rates[i]!)).toBeLessThan(1e-4 * Math.abs(rates[i]!) + 1e-12);
    }
  });
});

describe('what a pack takes', () => {
  const limit = (of: Car, state: State = {}): { watts: number; amperes: number; volts: number } => {
    const { k } = packOf(of, { polarisation: 0, temperature: 300, ...state });
    const [E, R] = [k.emf, k.resistance];
    const amperes = (-E + Math.sqrt(E * E + 4 * R * k.limit)) / (2 * R);
    return { watts: k.limit, amperes, volts: E + R * amperes };
  };

  it('is its charge current in the middle, and what its voltage leaves near the top', () => {
    expect(limit(car, { charge: 0.3 }).amperes).toBeCloseTo(120, 9);
    const high = limit(car, { charge: 0.97 });
    expect(high.volts).toBeCloseTo(403, 9);
    expect(high.amperes).toBeLessThan(120);
    expect(limit(with_({ maxVoltage: 390 }), { charge: 0.97 }).watts).toBe(0);
    expect(limit(car, { charge: 1 }).watts).toBe(0);
  });

  it('grows with the warmth between the coldest at which it takes anything and the warmth at which it takes all', () => {
    const at = (temperature: number): number => limit(car, { charge: 0.3, temperature }).amperes;
    expect(at(265)).toBe(0);
    expect(at(268.15)).toBe(0);
    expect(at(278.15)).toBeCloseTo(60, 9);
    expect(at(288.15)).toBeCloseTo(120, 9);
    expect(at(310)).toBeCloseTo(120, 9);
  });

  it('falls again where the pack is derated for its heat, as that of the charger does', () => {
    const { derateAt, derateRange } = car.pack.heat!;
    const at = (temperature: number): number => limit(car, { charge: 0.3, temperature }).amperes;
    expect(at(derateAt + 0.25 * derateRange)).toBeCloseTo(0.75 * 120, 9);
    expect(at(derateAt + derateRange)).toBe(0);
    expect(at(derateAt + 2 * derateRange)).toBe(0);
  });
});
