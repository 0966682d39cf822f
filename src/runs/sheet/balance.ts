/** A car held at a speed for an instant: which force the drive has, what the tyres take, what resists. */
import type { Car, Surroundings } from '../../model/car.ts';
import type { Limiter } from '../../model/forward/limiter.ts';
import { idlePower, packGives } from '../../model/forward/idle.ts';
import { atGrip, axleMode, GRIP, SPEED, withAxleMode } from '../../model/forward/state.ts';
import { plantParameters } from '../../model/forward/load.ts';
import { limiterOf } from '../../model/forward/limiter.ts';
import { plantFor } from '../../model/forward/plant.ts';
import type { Plant } from '../../model/forward/plant.ts';
import { whyStarved } from '../starved.ts';
import { withoutSpin } from '../variant.ts';

/** Forces in N at one speed, at the charge of the start and without polarisation. */
export interface Balance {
  /** m/s */
  readonly speed: number;
  /** What the drive could put to the contact patch if the tyres took it: at the motor speed of the tyres' best slip. */
  readonly drive: number;
  /** What the driven tyres can take, load transfer included. */
  readonly grip: number;
  /** What the car really gets. */
  readonly used: number;
  /** Drag, slope and the rolling resistance of the undriven axle. */
  readonly resistance: number;
  /** m/s2 */
  readonly acceleration: number;
  readonly limiter: Limiter;
  /** Why the pack can not even carry what is drawn without any torque; '' where it does. */
  readonly starved: string;
}

/** The balance of one car over speed. */
export function balanceOf(car: Car, surroundings: Surroundings): (speed: number) => Balance {
  // Wheels that spin have no balance at a speed: looked at with their slip held.
  const real = plantFor(plantParameters(withoutSpin(car), surroundings));
  const y = real.initial(0);
  const out = new Float64Array(real.states + real.quadratures);
  return speed => {
    y[SPEED] = speed;
    const mode = real.modeAt(y);
    real.rates(gripped(mode), y, out);
    const grip = drivenForce(real);
    const spare = real.spareForce();
    real.rates(mode, y, out);
    const used = drivenForce(real);
    const acceleration = real.now.acceleration;
    return {
      speed,
      drive: atGrip(mode) ? grip + spare : used,
      grip,
      used,
      resistance: used - real.inertialMass() * acceleration,
      acceleration,
      limiter: limiterOf(mode, real.powerTabled()),
      starved: whyStarved(packGives(real.moving), idlePower(real.moving)),
    };
  };
}

/** The mode with every driven axle at its grip limit. */
function gripped(mode: number): number {
  let all = mode;
  for (const axle of [0, 1]) {
    const m = axleMode(mode, axle);
    if (m !== 0) all = withAxleMode(all, axle, m | GRIP);
  }
  return all;
}

/** N at the contact patches of all driven axles. */
function drivenForce(plant: Plant): number {
  return plant.driven.reduce((sum, at) => sum + at.force, 0);
}
