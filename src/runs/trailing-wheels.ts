/**
 * Wheels that trail: of two drives that keep a share of the torque one may get less than it takes to speed up its own rotor, and the road
 * pulls its tyres along, the harder the faster the car speeds up. Slip that follows the forces at once then answers the wrong way where the
 * torque of that motor falls with its speed: less torque slows the car, so its wheels trail less and turn faster, for still less torque. At
 * the top speed of the motor no such balance is stable. What happens takes as long as the tyre takes to follow, so that the speed of these
 * wheels is a state of its own, as that of free wheels is.
 */
import { item, nth } from '../columns.ts';
import type { Car, Drive } from '../model/car.ts';
import { gearsOf } from '../model/forward/load.ts';
import { SHORTEST_BREAK } from '../model/forward/modes.ts';
import { towed } from '../model/body/trailer.ts';
import { loadedMass } from '../model/body/loaded-mass.ts';

/** What is said of such a motor, behind what it does; and what leads out of it. */
export const TRAILS =
  'that gets less of the torque than its own rotor takes, which the tyres must turn: a greater share of the torque or a lower ratio for it leads out of this';

/** The same car, with the speed of wheels that trail as a state. */
export function withTrailingWheels(car: Car): Car {
  const found = trailingDrive(car);
  if (found === undefined || isFree(found) || isAlone(car, found)) return car;
  const spin = { policy: 'spin', share: 1 } as const;
  return { ...car, drives: car.drives.map(drive => (drive === found ? { ...drive, traction: spin } : drive)) };
}

/**
 * m/s at which a motor whose wheels trail comes to where its torque falls to nothing, of a car that is not driven on from there: while the
 * other drive changes gear this one has all that it can give, and free wheels would spin. Infinity for any other car.
 */
export function trailingEnd(car: Car): number {
  const found = trailingDrive(car);
  if (found === undefined || isFree(found) || !isAlone(car, found)) return Infinity;
  return (found.unit.taperSpeed / found.ratio) * car.tyres[found.axle].radius;
}

/** The same car for a question about a steady speed, at which what turns has no say: nothing that trails turns any mass. */
export function steadily(car: Car): Car {
  const found = trailingDrive(car);
  if (found === undefined) return car;
  const { axle, unit } = found;
  const light: Drive = { ...found, inertia: 0, unit: { ...unit, inertia: 0 } };
  return {
    ...car,
    tyres: { ...car.tyres, [axle]: { ...car.tyres[axle], inertia: 0 } },
    drives: car.drives.map(drive => (drive === found ? light : drive)),
  };
}

/**
 * The drive that gets less of the torque in its first gear, in which its rotor takes most, than what turns with its wheels takes: Newton's
 * second law for the car and for both axles. On rigid tyres nothing trails.
 */
export function trailingDrive({ body, drives, frontTorqueShare, trailer, tyres }: Car): Drive | undefined {
  if (frontTorqueShare === undefined || drives.length < 2) return undefined;
  const turning = drives.map(drive => item(gearsOf(drive, tyres[drive.axle], 0), 0).inertia / tyres[drive.axle].radius);
  const shares = drives.map(({ axle }) => (axle === 'front' ? frontTorqueShare : 1 - frontTorqueShare));
  let pushed = 0;
  let moved = loadedMass(body) + towed(trailer, body).mass;
  for (const [i, { axle }] of drives.entries()) {
    pushed += nth(shares, i) / tyres[axle].radius;
    moved += nth(turning, i) / tyres[axle].radius;
  }
  return drives.find(({ axle }, i) => tyres[axle].slipAtPeak > 0 && nth(shares, i) * moved < nth(turning, i) * pushed);
}

function isFree({ traction }: Drive): boolean {
  return traction.policy === 'spin';
}

/** Whether the gear of the other drive is let go for a while, and that of this one is not. */
function isAlone({ drives }: Car, { gearbox: own }: Drive): boolean {
  return (
    own === undefined &&
    drives.some(({ gearbox: its }) => its !== undefined && its.gears.length > 1 && its.shiftTime >= SHORTEST_BREAK)
  );
}
