/** The car at one instant: what the plant says of forces, loads and powers at a speed. */
import type { Car, Surroundings } from '../../src/model/car.ts';
import { plantFor } from '../../src/model/forward/plant.ts';
import { QUADRATURES, SPEED } from '../../src/model/forward/state.ts';
import { plantParameters } from '../../src/model/forward/load.ts';

export interface Instant {
  /** m/s2. */
  readonly acceleration: number;
  /** N. */
  readonly frontLoad: number;
  readonly rearLoad: number;
  readonly drag: number;
  /** N at the contact patches of the driven axle, forwards. */
  readonly traction: number;
  /** rad/s. */
  readonly motorSpeed: number;
  /** A, V, W at the pack. */
  readonly current: number;
  readonly voltage: number;
  readonly busPower: number;
  /** W that flow into each account of the ledger. */
  readonly power: { readonly [account in (typeof QUADRATURES)[number]]: number };
}

/** @param pedal 1 is full, 0 lets the car roll. */
export function instant(car: Car, surroundings: Surroundings, speed: number, pedal = 1): Instant {
  const plant = plantFor(plantParameters(car, surroundings, pedal));
  const y = plant.initial(speed);
  const out = new Float64Array(plant.states + plant.quadratures);
  plant.rates(plant.modeAt(y), y, out);
  const { now, atFront, atRear } = plant;
  const driven = plant.driven[0] ?? atFront;
  const power = Object.fromEntries(QUADRATURES.map((name, i) => [name, out[plant.states + i]]));
  return {
    acceleration: out[SPEED] ?? Number.NaN,
    frontLoad: atFront.load,
    rearLoad: atRear.load,
    drag: now.drag,
    traction: driven.force,
    motorSpeed: driven.motorSpeed,
    current: now.current,
    voltage: now.voltage,
    busPower: now.busPower,
    power: power as Instant['power'],
  };
}

/** Steepest slope, rise over run, on which the car still holds its speed, m/s: where the acceleration is nothing. */
export function steepestSlope(car: Car, surroundings: Surroundings, speed: number): number {
  let low = 0;
  let high = 2;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (instant(car, { ...surroundings, slope: middle }, speed).acceleration > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
