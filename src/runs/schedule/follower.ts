/**
 * Follows a schedule: between two of its points the acceleration is given, so forces and powers run backwards from the road to
 * the pack (`interval-step.ts`); an interval is cut where something begins or ceases to limit. Where the car can not do what is
 * asked the forward model takes over until it has caught up (`falling-behind.ts`); where its drive unit would turn faster than it
 * may, as down a hill, the driver brakes and holds the car there: with a fixed ratio there is nothing else to be done.
 */
import type { Schedule } from '../../cycles/schedule.ts';
import type { FollowParameters } from '../../model/backward/load.ts';
import type { DrivenPack } from '../../model/backward/pack-step.ts';
import type { Powers } from '../../model/backward/state.ts';
import { BEYOND, OVER, STARVED } from '../../model/backward/state.ts';
import { loadCar, reloadCar, setState, stateOf } from './car-state.ts';
import { lookAnew } from './ahead.ts';
import type { Way } from './chase.ts';
import { chase, letGo } from './chase.ts';
import { advanceToEnds, cut, isNearFull, isNearSpent } from './cut.ts';
import { enterBelow, isSpent, leaveBelow, motionOf, rewind } from './excursion.ts';
import { FreeDrive } from './free-drive.ts';
import { changesGear, chooseGear } from './gear-choice.ts';
import { countHeld } from './held-late.ts';
import { isLetGo } from './held-mode.ts';
import { bitsAt, bitsAtRest } from './instant.ts';
import { starvedWords } from '../starved.ts';
import type { CarState, FollowEnd, FollowMethod, FollowOptions, FollowStatus } from './journey.ts';
import { Journey } from './journey.ts';
import { memoryOf, recall } from './memory.ts';
import { plainStep } from './plain-step.ts';
import { repeat } from './repeat.ts';
import { beginInterval, endStep, piecesOf, planStep } from './planned-step.ts';
import { rememberedStep } from './remembered-step.ts';
import { pointsAhead } from './rests.ts';
import { climb } from './slope.ts';
import { stayBehind } from './stay-behind.ts';
import { hasColdTyres, rollCold, warmTyres } from './tyre-warmth.ts';

/** Changes within one interval of a schedule beyond which it is no use to go on. */
const MOST_CUTS = 400;

/** A car in the memory of which schedules are followed, one after the other. */
export interface Follower {
  /** Takes a car with its pack charged as it says and everything at the temperature of the air. */
  load(parameters: FollowParameters): void;
  /** Takes another load or day with the state kept. */
  reload(parameters: FollowParameters): void;
  state(): CarState;
  setState(state: CarState): void;
  follow(schedule: Schedule, options: FollowOptions): FollowEnd;
  /** J since `load`. */
  readonly sums: Powers;
  readonly pack: DrivenPack;
  readonly inner: Journey;
}

export function createFollower(method?: FollowMethod): Follower {
  const car = new Journey(method);
  const free = new FreeDrive(method?.solve);
  return {
    load: parameters => loadCar(car, parameters),
    reload: parameters => reloadCar(car, parameters),
    setState: state => setState(car, state),
    state: () => stateOf(car),
    follow(schedule, options) {
      const end = follow(car, free, schedule, options);
      if (hasColdTyres(car)) warmTyres(car, end.time);
      return end;
    },
    sums: car.sums,
    pack: car.following.pack,
    inner: car,
  };
}

function follow(car: Journey, free: FreeDrive, schedule: Schedule, options: FollowOptions): FollowEnd {
  const { time, speed, slope } = schedule;
  const { record, steps = 1, since } = options;
  const way: Way = { car, free, schedule, options, ahead: pointsAhead(schedule), index: 0 };
  begin(car, schedule, options);
  lookAnew(free.ahead);
  const { interval, following } = car;
  const end = time.length - 1;
  record?.push(0, speed[0]!, car, 0);
  if (following.pack.charge <= car.low) return ended(car, 'empty', 0);
  for (let i = 0; i < end; ) {
    interval.s0 = 0;
    if (car.memory !== null) i = repeat(way, i);
    if (car.mode >= 0) i = stayBehind(way, i);
    if (i === end) break;
    way.index = i;
    const next = car.mode < 0 ? (way.ahead[i] ?? end) : i + 1;
    beginInterval(interval, schedule, since, i, next);
    if (slope !== null && car.parameters !== null) climb(following, car.parameters, slope[i]!);
    if (isLetGo(car, schedule, i)) letGo(car);
    if (car.memory !== null) recall(car.memory, i);
    if (interval.s0 === 0) chooseGear(car);
    const status = driveInterval(way, steps * piecesOf(interval));
    if (car.below !== null && (status !== 'done' || next === end)) return endedBelow(way, car.below.time);
    const at = interval.start + interval.s0;
    record?.push(at, interval.from + interval.rise * interval.s0, car, interval.s0);
    if (status !== 'done') return ended(car, status, at);
    if (next < end && car.below === null && car.method?.isSpent?.() === true) return ended(car, tired(car), at);
    i = next;
  }
  return ended(car, 'done', time[end]!);
}

function begin(car: Journey, schedule: Schedule, options: FollowOptions): void {
  const { consumers } = car;
  consumers.base = options.auxiliaries;
  consumers.steady = options.cabin.steady;
  consumers.extra = options.cabin.extra;
  consumers.fading = options.cabin.time;
  car.low = options.empty;
  car.strict = options.strict === true;
  car.keen = options.keen === true;
  car.memory =
    car.keen && car.method === undefined && !hasColdTyres(car) ? memoryOf(car, schedule, options.steps ?? 1) : null;
  car.tyres.counts = hasColdTyres(car);
  car.shifted = -Infinity;
  car.speed = schedule.speed[0]!;
  car.began = car.speed;
  car.distance = 0;
  car.mode = -1;
  car.held = 0;
  car.gear = 0;
  car.breakLeft = 0;
  car.trust.until = Number.NaN;
  car.below = null;
  car.skippedTime = 0;
  car.skippedMotion = 0;
  car.reason = '';
}

/** @param time s in the schedule. */
function ended(car: Journey, status: FollowStatus, time: number): FollowEnd {
  const motion = motionOf(car, car.speed) - motionOf(car, car.began) - car.skippedMotion;
  return { status, reason: car.reason, time: time - car.skippedTime, distance: car.distance, motion };
}

/** The pack has not come up to its low end again. @param time s in the schedule at which it came there. */
function endedBelow({ car, options: { record } }: Way, time: number): FollowEnd {
  if (car.below !== null) {
    record?.truncate(car.below.rows);
    rewind(car, car.below);
  }
  car.reason = '';
  record?.push(time, car.speed, car, time - record.last());
  return ended(car, 'empty', time);
}

/** Drives one interval; the status is `done` when its end is reached. */
function driveInterval(way: Way, steps: number): FollowStatus {
  const { car, schedule } = way;
  const { interval } = car;
  const most = MOST_CUTS + 10 * (steps + interval.length);
  for (let pass = 0; pass < most; pass++) {
    if (car.tyres.counts) rollCold(car, steps);
    const status = car.mode >= 0 ? chase(way) : followOn(way, steps);
    if (status !== 'done') return status;
    if (car.below !== null && isSpent(car, schedule, way.index)) return 'empty';
    if (interval.s0 >= interval.length) return 'done';
  }
  car.reason = `more than ${MOST_CUTS} changes of what limits the car within one interval`;
  return 'failed';
}

function tired(car: Journey): FollowStatus {
  car.reason = 'it took more work than it is given';
  return 'failed';
}

/** One step on; the mode is 0 afterwards where the car can not follow. */
function followOn(way: Way, steps: number): FollowStatus {
  const { car } = way;
  const { interval, totals } = car;
  const { s0 } = interval;
  planStep(car, steps);
  const rests = interval.from === 0 && interval.rise === 0;
  car.short = false;
  let passed = false;
  const near = car.below !== null || isNearFull(car) || isNearSpent(car);
  const remembered = car.method === undefined && !near && isRemembered(car);
  if (!remembered && (car.method !== undefined || near || rests || !plainStep(car))) {
    interval.at = s0;
    car.following.freely = !near;
    car.following.volts = 0;
    const bits = rests ? bitsAtRest(car) : bitsAt(car);
    if ((bits & STARVED) !== 0) return starves(car);
    if ((bits & (BEYOND | OVER)) !== 0) return changesGear(car) ? 'done' : fallBehind(way, bits);
    if (!rests) cut(car, bits, near);
    passed = advanceToEnds(car, bits, near);
  }
  const { s1, start } = interval;
  if (car.short) totals.unfed += s1 - s0;
  if (car.held > 0 && !remembered) countHeld(car, way.schedule, way.index);
  endStep(car);
  if (!passed) return 'done';
  if (car.below === null) enterBelow(car, start + s1, way.options.record?.rows() ?? 0);
  else {
    way.options.record?.truncate(car.below.rows);
    leaveBelow(car, car.below, start + s1);
  }
  return 'done';
}

/** The pack can not even carry what is drawn without any torque. */
function starves(car: Journey): FollowStatus {
  const { pack, powers } = car.following;
  car.reason = starvedWords(pack.gives, powers.power);
  return 'weak';
}

function isRemembered(car: Journey): boolean {
  return car.memory !== null && rememberedStep(car, car.memory);
}

/** The car can not follow from here on: at full pedal, or held where its drive unit turns no faster. */
function fallBehind(way: Way, bits: number): FollowStatus {
  const { car } = way;
  const { interval } = car;
  if (car.strict) {
    car.mode = 0;
    return 'late';
  }
  const asked = interval.from + interval.rise * interval.s0;
  car.speed = car.held > 0 ? car.held : (bits & OVER) === 0 ? asked : slowest(way, asked);
  car.held = (bits & BEYOND) === 0 ? car.speed : 0;
  car.heldSlope = Number.NaN;
  if (car.held === 0) car.mode = 0;
  return 'done';
}

/** m/s in place of a speed at which a unit turns too fast: only a schedule that begins there is that far off. */
function slowest({ car, options: { record } }: Way, asked: number): number {
  if (car.interval.start > 0 || car.interval.s0 > 0) return asked;
  car.began = Math.min(asked, car.fastest);
  // It never went as fast as the schedule begins.
  car.speed = car.began;
  if (record !== undefined) {
    record.truncate(record.rows() - 1);
    record.push(0, asked, car, 0);
  }
  return car.began;
}
