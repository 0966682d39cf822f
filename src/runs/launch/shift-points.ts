/** When to take the next gear for the least time to the target speed. */
import { loadedMass } from '../../model/body/loaded-mass.ts';
import type { Car, Drive, Gearbox } from '../../model/car.ts';
import { LATEST } from '../../model/drive/gearbox.ts';
import { findRoot } from '../../solvers/bracket.ts';
import { balanceOf } from '../sheet/balance.ts';
import type { Balance } from '../sheet/balance.ts';
import { inGear } from '../variant.ts';

/**
 * Share by which the next gear must pull harder before it is taken: at constant power both pull alike over a wide range of speeds,
 * and round-off would decide.
 */
const MARGIN = 1e-3;

/** Share of a time below which the way with fewer changes is as good. */
const TIE = 1e-6;

/** m/s2: slower than this is no acceleration to take a share of. */
const LEAST = 0.01;

/** What is asked of a launch here. */
interface Way {
  readonly surroundings: Parameters<typeof balanceOf>[1];
  /** m/s. */
  readonly to: number;
}

/**
 * The car with the shift points that reach `to` first. A change costs the same wherever it is made, so each is best made where the
 * next gear, after what the break takes off the speed, begins to pull harder; how many are worth their break before the target
 * is found by runs: after each number of them the gear is held as long as it turns. Runs also tell whether to start in a higher gear.
 * No gear is left for one that can not hold the speed: on a hill the car would be stuck there, slower than before.
 * @param timeOf s to the target with the shift points of that car; Infinity where it is not reached.
 */
export function withBestShifts(car: Car, way: Way, timeOf: (car: Car) => number): Car {
  const drive = car.drives.find(({ gearbox }) => gearbox?.best === true);
  const gearbox = drive?.gearbox;
  if (drive === undefined || gearbox === undefined) return car;
  if (gearbox.gears.length === 1) return withUpshifts(car, [Infinity]);
  const pullIn = createPulls(car, way);
  const points = (broken: boolean): readonly number[] => [
    ...gearbox.gears.slice(1).map((_, i) => held(i, pullPoint(car, drive, gearbox, i, pullIn, broken))),
    Infinity,
  ];
  const held = (index: number, omega: number): number =>
    holds(car, drive, gearbox, index, omega, pullIn) ? omega : Infinity;
  const pulling = points(true);
  const latest = gearbox.gears.map((_, i) =>
    i + 1 < gearbox.gears.length ? held(i, LATEST * drive.unit.maxSpeed) : Infinity,
  );
  const ways = [pulling];
  for (let held = gearbox.gears.length - 2; held >= 0; held--) {
    const [own = 0, last = 0] = [pulling[held], latest[held]];
    // Above the target a change is not made any more.
    if (own >= last || speedAt(car, drive, gearbox, held, own) >= way.to) continue;
    ways.push(pulling.map((at, i) => (i < held ? at : (latest[i] ?? at))));
  }
  const timed = (upshifts: readonly number[]): number => timeOf(withUpshifts(car, upshifts));
  const { upshifts, time } = quickest(ways, timed);
  // Without a target that is reached nothing makes up for the speed that a break costs.
  return withUpshifts(car, time === Infinity ? points(false) : startingHigher(upshifts, time, timed));
}

/** The quickest way; the first one where none gets there. */
function quickest(
  ways: readonly (readonly number[])[],
  timed: (upshifts: readonly number[]) => number,
): { readonly upshifts: readonly number[]; readonly time: number } {
  let upshifts = ways[0] ?? [];
  let least = Infinity;
  // The one with the fewest changes last, so that it has the tie.
  for (const each of ways) {
    const time = timed(each);
    if (!(time <= least * (1 + TIE)) || time === Infinity) continue;
    upshifts = each;
    least = time;
  }
  return { upshifts, time: least };
}

/** The same without its first change, and without the next, as long as that is quicker. */
function startingHigher(
  upshifts: readonly number[],
  time: number,
  timed: (upshifts: readonly number[]) => number,
): readonly number[] {
  let best = upshifts;
  let least = time;
  for (let first = 0; first + 1 < upshifts.length; first++) {
    const higher = upshifts.map((at, i) => (i <= first ? -Infinity : at));
    const other = timed(higher);
    if (!(other < least * (1 - TIE))) break;
    best = higher;
    least = other;
  }
  return best;
}

/** Whether the next gear still accelerates at the speed that a motor speed in this one means. */
function holds(car: Car, drive: Drive, gearbox: Gearbox, index: number, omega: number, pullIn: PullIn): boolean {
  const next = pullIn(index + 1);
  return next(speedAt(car, drive, gearbox, index, omega)).acceleration > LEAST;
}

/**
 * rad/s of the motor in a gear from which on the next one pulls harder; the latest there is where it never does.
 * @param broken whether the next one is looked at after what the break takes off the speed, or at the same speed.
 */
function pullPoint(car: Car, drive: Drive, gearbox: Gearbox, index: number, pullIn: PullIn, broken: boolean): number {
  const latest = LATEST * drive.unit.maxSpeed;
  const pause = broken ? gearbox.shiftTime : 0;
  const [own, next] = [pullIn(index), pullIn(index + 1)];
  const mass = loadedMass(car.body) + (car.trailer?.mass ?? 0);
  const gain = (omega: number): number => {
    const speed = speedAt(car, drive, gearbox, index, omega);
    const { acceleration, resistance } = own(speed);
    const slowed = Math.max(0, speed - (Math.max(0, resistance) / mass) * pause);
    return next(slowed).acceleration - acceleration - MARGIN * Math.max(Math.abs(acceleration), LEAST);
  };
  const atLatest = gain(latest);
  if (!(atLatest > 0)) return latest;
  const atRest = gain(0);
  const width = 1e-9 * latest;
  return atRest > 0 ? width : findRoot(gain, 0, atRest, latest, atLatest, width);
}

/** What pulls the car in a gear, over its speed in m/s. */
type PullIn = (gear: number) => (speed: number) => Balance;

/** Each gear is set up once. */
function createPulls(car: Car, { surroundings }: Way): PullIn {
  const known = new Map<number, (speed: number) => Balance>();
  return gear => {
    const before = known.get(gear);
    if (before !== undefined) return before;
    const made = balanceOf(inGear(car, gear), surroundings);
    known.set(gear, made);
    return made;
  };
}

/** m/s of the car at a motor speed in a gear, slip left aside. */
function speedAt(car: Car, drive: Drive, { gears }: Gearbox, index: number, omega: number): number {
  return (omega * car.tyres[drive.axle].radius) / (drive.ratio * (gears[index]?.ratio ?? Number.NaN));
}

function withUpshifts(car: Car, upshifts: readonly number[]): Car {
  const drives = car.drives.map((drive): Drive => {
    if (drive.gearbox?.best !== true) return drive;
    const { best: _best, ...gearbox } = drive.gearbox;
    const gears = gearbox.gears.map((gear, i) => ({ ...gear, upshift: upshifts[i] ?? gear.upshift }));
    return { ...drive, gearbox: { ...gearbox, gears } };
  });
  return { ...car, drives };
}
