/** What the driven tyres cost: how much of the drive is held back, and what more friction or more power would bring. */
import { nth } from '../../columns.ts';
import type { Car } from '../../model/car.ts';
import { atGrip } from '../../model/forward/state.ts';
import { createLauncher } from './run.ts';
import type { LaunchOptions, LaunchRun } from './run.ts';
import { totalPower, withFriction, withoutSpin, withPower } from '../variant.ts';

/** All about reaching 100 km/h; null where there is no such number, with the reason beside it. */
export interface GripBill {
  /** s to 100 km/h with tyres that never slip away. */
  readonly timeUnlimited: number | null;
  /**
   * Peak friction at the reference load from which on grip never limits up to 100 km/h; null also where none is enough: load
   * transfer bounds what a front axle can put down, however high its friction.
   */
  readonly frictionEnough: number | null;
  /** s gained by 0.1 more peak friction. */
  readonly gainPerFriction: number | null;
  /**
   * W of all drive units together above which less than 0.01 s is gained. Null also with a torque table, and where wheels may spin:
   * more power then spins them longer, so that there is a best power and none from which on nothing changes.
   */
  readonly powerEnough: number | null;
}

const UNLIMITED = 1000;
const POWER_GAIN = 0.01;

/** Relative tolerance where it is only asked whether the wheels come to the grip limit: the friction from which on they do not moves by far less than it is told to. */
const LIMITED = 1e-5;

/** No tyre comes near it. */
const MOST_FRICTION = 20;

/** Runs the variations; some hundred short launches. */
export function gripBill(car: Car, options: LaunchOptions): GripBill {
  const launcher = createLauncher();
  const short = { ...options, stop: '100_km_h' } as const;
  const coarse = { ...short, tolerance: LIMITED };
  const time = (variant: Car): number => launcher(variant, short).marks.get('100_km_h')?.time ?? Infinity;
  const limited = (variant: Car): boolean => everAtGrip(launcher(variant, coarse));
  const peak = drivenPeak(car, options);
  const own = time(car);
  // Wheels that can not spin need no speed of their own, which would be stiff beyond measure.
  const unlimited = withoutSpin(withFriction(car, UNLIMITED));
  if (own === Infinity) {
    return {
      timeUnlimited: finite(time(unlimited)),
      frictionEnough: null,
      gainPerFriction: null,
      powerEnough: null,
    };
  }
  return {
    timeUnlimited: finite(time(unlimited)),
    frictionEnough: frictionEnough(car, peak, limited),
    gainPerFriction: own - time(withFriction(car, (peak + 0.1) / peak)),
    powerEnough: powerEnough(car, time),
  };
}

function finite(time: number): number | null {
  return time === Infinity ? null : time;
}

/** Peak friction of the driven tyres on this surface. */
function drivenPeak(car: Car, options: LaunchOptions): number {
  const axle = car.drives[0]?.axle ?? 'front';
  return car.tyres[axle][options.surroundings.surface]?.peak ?? Number.NaN;
}

function everAtGrip(run: LaunchRun): boolean {
  const { modes, nodes } = run.solution;
  for (let k = 0; k < nodes; k++) if (atGrip(nth(modes, k))) return true;
  return false;
}

/** Bisection on the friction: below it some part of the launch is at the grip limit, above it none. */
function frictionEnough(car: Car, peak: number, isLimited: (variant: Car) => boolean): number | null {
  const limited = (mu: number): boolean => isLimited(withFriction(car, mu / peak));
  let low = peak;
  let high = peak;
  while (limited(high)) {
    if (high > MOST_FRICTION) return null;
    low = high;
    high *= 1.5;
  }
  if (low === high) while (low > 1e-3 && !limited(low)) low *= 0.7;
  while (high - low > 1e-4) {
    const middle = 0.5 * (low + high);
    if (limited(middle)) low = middle;
    else high = middle;
  }
  return high;
}

/** Bisection on the power: the time falls with the power until grip or torque alone set it. */
function powerEnough(car: Car, time: (variant: Car) => number): number | null {
  if (car.drives.some(({ unit, traction }) => unit.table !== null || traction.policy === 'spin')) return null;
  const own = totalPower(car);
  const floor = time(withPower(car, 50 * own));
  const enough = (power: number): boolean => time(withPower(car, power)) - floor < POWER_GAIN;
  let low = own / 50;
  let high = 50 * own;
  // On a logarithmic scale: the bracket spans three decades.
  while (high - low > 1e-3 * high) {
    const middle = Math.sqrt(low * high);
    if (enough(middle)) high = middle;
    else low = middle;
  }
  return high;
}
