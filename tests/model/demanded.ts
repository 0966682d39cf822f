/** What a speed and an acceleration ask of a car, by the backward model. */
import type { Car, Surroundings } from '../../src/model/car.ts';
import { DECIDE, demand } from '../../src/model/backward/demand.ts';
import {
  D,
  D_COUNT,
  DA,
  DA_SIZE,
  FOLLOW_BITS,
  FOLLOW_SHIFT,
  KIND,
  KIND_SHIFT,
} from '../../src/model/backward/state.ts';
import { packFollow } from '../../src/model/backward/load.ts';
import { A, AXLE_SIZE, P } from '../../src/model/backward/blocks.ts';

type Kind = keyof typeof KIND;

export interface Demanded {
  /** W, as `D` has them. */
  readonly power: {
    readonly [name in
      | 'power'
      | 'unitHeat'
      | 'gearHeat'
      | 'spinUp'
      | 'slip'
      | 'rolling'
      | 'drag'
      | 'grade'
      | 'brakes']: number;
  };
  /** N that move the car, rolling resistance included. */
  readonly force: number;
  /** Of each driven axle, front first. */
  readonly axles: readonly AxleDemand[];
  /** kg with undriven wheels. */
  readonly inertialMass: number;
}

export interface AxleDemand {
  readonly torque: number;
  readonly motorSpeed: number;
  readonly load: number;
  readonly roll: number;
  readonly force: number;
  readonly grip: number;
  readonly power: number;
  readonly moment: number;
  /** What limits the force. */
  readonly kind: Kind;
}

/** @param limit W that the pack takes at most. */
export function demanded(car: Car, day: Surroundings, speed: number, acceleration: number, limit = Infinity): Demanded {
  const { block, follow, loss } = packFollow(car, day);
  const d = new Float64Array(D_COUNT);
  d[D.speed] = speed;
  d[D.acceleration] = acceleration;
  d[D.auxiliaries] = block[P.auxiliaryPower]!;
  d[D.limit] = limit;
  for (let axle = 0; axle < 2; axle++) d[D.axle0 + axle * DA_SIZE + DA.anchorLoad] = Number.NaN;
  const bits = demand(block, follow, d, loss, DECIDE);
  const { power, unitHeat, gearHeat, spinUp, slip, rolling, drag, grade, brakes } = D;
  const places = { power, unitHeat, gearHeat, spinUp, slip, rolling, drag, grade, brakes };
  return {
    power: Object.fromEntries(Object.entries(places).map(([name, at]) => [name, d[at]!])) as Demanded['power'],
    force: d[D.force]!,
    axles: [0, 1].filter(axle => block[P.axle0 + axle * AXLE_SIZE + A.driven] === 1).map(axle => axleOf(d, axle, bits)),
    inertialMass: block[P.inertialMass]!,
  };
}

function axleOf(d: Float64Array, axle: number, bits: number): AxleDemand {
  const e = D.axle0 + axle * DA_SIZE;
  const kind = (((bits >> (axle * FOLLOW_SHIFT)) & FOLLOW_BITS) >> KIND_SHIFT) & 7;
  return {
    torque: d[e + DA.torque]!,
    motorSpeed: d[e + DA.motorSpeed]!,
    load: d[e + DA.load]!,
    roll: d[e + DA.roll]!,
    force: d[e + DA.force]!,
    grip: d[e + DA.grip]!,
    power: d[e + DA.power]!,
    moment: d[e + DA.moment]!,
    kind: (Object.keys(KIND) as Kind[]).find(name => KIND[name] === kind)!,
  };
}
