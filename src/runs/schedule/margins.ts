/** What decides the bits of a car that follows a schedule, as numbers that pass zero where a bit changes. */
import type { Side } from '../../model/backward/state.ts';
import { continuousChargePower, continuousPower, NOTHING } from './instant.ts';
import type { Journey } from './journey.ts';

/** Of the car, and of each of its axles. */
const OF_CAR = 7;
const OF_AXLE = 9;

/** A number that is not known, or decides nothing, is not finite. */
export class Margins {
  readonly values = new Float64Array(OF_CAR + 2 * OF_AXLE).fill(Number.NaN);
}

/** At the point at hand, right after `bitsAt`. */
export function marginsAt(car: Journey, { values }: Margins): void {
  const { following: f, fastest } = car;
  const { power } = f.powers;
  values[0] = f.force;
  values[1] = f.over;
  values[2] = power + NOTHING;
  values[3] = power - continuousPower(car);
  values[4] = power + continuousChargePower(car);
  values[5] = f.room;
  values[6] = f.speed - fastest;
  ofAxle(f.front, f.speed, values, OF_CAR);
  ofAxle(f.rear, f.speed, values, OF_CAR + OF_AXLE);
}

function ofAxle(side: Side, speed: number, values: Float64Array, place: number): void {
  const { axle, at, braking } = side;
  if (!axle.driven) {
    // What the axle of another car was at decides nothing here.
    values.fill(Number.NaN, place, place + OF_AXLE);
    return;
  }
  values[place] = side.moment;
  values[place + 1] = side.both;
  values[place + 2] = side.spare;
  values[place + 3] = aboveGrip(side);
  values[place + 4] = speed - braking.fadeFrom;
  values[place + 5] = speed - braking.fadeTo;
  values[place + 6] = at.motorSpeed * braking.torque - braking.power;
  values[place + 7] = at.gear.ratio * speed - braking.cornerSpeed * axle.radius;
  values[place + 8] = side.asked - side.coasting;
}

/** N that are asked of an axle above the hardest that it may brake with for its grip. */
export function aboveGrip({ at, asked, roll, braking }: Side): number {
  return asked - roll + braking.gripShare * at.grip;
}

/** Share of the way from one point to another at which the first of the numbers passes zero, on straight lines; one half where none does. */
export function firstRoot({ values: from }: Margins, { values: to }: Margins): number {
  let first = 1;
  for (let i = 0; i < from.length; i++) {
    const a = from[i] ?? Number.NaN;
    const b = to[i] ?? Number.NaN;
    if (a < 0 === b < 0 || !(Math.abs(a - b) < Infinity)) continue;
    first = Math.min(first, a / (a - b));
  }
  return first < 1 ? first : 0.5;
}
