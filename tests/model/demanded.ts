/** What a speed and an acceleration ask of a car, by the backward model. */
import type { Car, Surroundings } from '../../src/model/car.ts';
import { demand } from '../../src/model/backward/demand.ts';
import { DECIDE, Following, KIND, kindOf, sideBits } from '../../src/model/backward/state.ts';
import type { Powers, Side } from '../../src/model/backward/state.ts';
import { followParameters, takeFigures } from '../../src/model/backward/load.ts';

type Kind = keyof typeof KIND;

export interface Demanded {
  /** W. */
  readonly power: Readonly<Powers>;
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

/** @param limit W that the pack takes at most. @param gear 0 for the first. */
export function demanded(
  car: Car,
  day: Surroundings,
  speed: number,
  acceleration: number,
  limit = Infinity,
  gear = 0,
): Demanded {
  const f = new Following();
  takeFigures(f, followParameters(car, day));
  for (const { axle, at } of [f.front, f.rear]) at.gear = axle.gears[gear] ?? at.gear;
  f.speed = speed;
  f.acceleration = acceleration;
  f.limit = limit;
  f.powers.auxiliaries = f.moving.car.auxiliaryPower;
  const bits = demand(f, DECIDE);
  return {
    power: f.powers,
    force: f.force,
    axles: [f.front, f.rear].flatMap((side, axle) => (side.axle.driven ? [axleOf(side, sideBits(bits, axle))] : [])),
    inertialMass: f.moving.car.inertialMass,
  };
}

function axleOf({ at, roll, moment }: Side, bits: number): AxleDemand {
  const kind = kindOf(bits);
  return {
    torque: at.torque,
    motorSpeed: at.motorSpeed,
    load: at.load,
    roll,
    force: at.force,
    grip: at.grip,
    power: at.power,
    moment,
    kind: (Object.keys(KIND) as Kind[]).find(name => KIND[name] === kind)!,
  };
}
