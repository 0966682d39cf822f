/** What a car does that can not keep to its schedule, and what of its way does not count for that. */
import type { Schedule } from '../../cycles/schedule.ts';
import { enterBelow } from './excursion.ts';
import type { FreeEnd } from './falling-behind.ts';
import { pursue, takeUp } from './falling-behind.ts';
import { keepOn } from './far-behind.ts';
import { isHeldByPack } from './free-drive.ts';
import type { FreeDrive } from './free-drive.ts';
import { fastestOfAll, takeGear } from './gear-choice.ts';
import { place } from './instant.ts';
import type { FollowOptions, FollowStatus, Journey } from './journey.ts';
import { lostShare, takeBack } from './late-by-pack.ts';
import { Entry, keepStretch, noteEntry, rememberedStretch } from './pedal-memory.ts';
import { settledSpeed } from './settled.ts';
import { askedBy, spansTooSlow, timeLost } from './shortfall.ts';

/**
 * s: a car that has caught up within it could follow, and for so long it is not asked again: for twice as long each time as long as it
 * goes on at its very limit, up to a quarter of a second.
 */
const INSTANT = 1e-3;
const TRUST = 0.25;

/** A way and what goes along it. */
export interface Way {
  readonly car: Journey;
  readonly free: FreeDrive;
  readonly schedule: Schedule;
  readonly options: FollowOptions;
  /** As in `pointsAhead`. */
  readonly ahead: Int32Array;
  /** Index of the interval being driven. */
  index: number;
}

/** At full pedal behind the schedule. */
export function chase(way: Way): FollowStatus {
  const { car, free, options } = way;
  const { interval } = car;
  interval.at = 0.5 * (interval.s0 + interval.length);
  car.short = false;
  countTrusted(car);
  place(car);
  const limits = { low: car.below === null ? car.low : -Infinity, fastest: fastestOfAll(car) };
  const { s0, start } = interval;
  noteEntry(car, entry);
  const known = car.memory === null ? null : rememberedStretch(car, car.memory, entry);
  const end = known ?? keepOn(free, car, way.schedule, way.index, limits) ?? pursue(free, car, s0, limits);
  const settled = end.kept?.settled ?? settledAfter(way, end);
  countLate(way, end);
  if (known === null && car.memory !== null && free.machine !== null) {
    keepStretch(car, car.memory, entry, free.machine, end, settled);
  }
  if (car.short) car.totals.unfed += end.at - s0;
  interval.s0 = end.at;
  takeGear(car, end.gear);
  switch (end.outcome) {
    case 'failed':
      car.reason = end.reason;
      return 'failed';
    case 'starved':
      car.reason = end.reason;
      return 'weak';
    case 'stuck':
      return isHeldByPack(car.mode) ? 'weak' : 'stuck';
    case 'empty':
      enterBelow(car, start + end.at, options.record?.rows() ?? 0);
      return 'done';
    case 'interval over':
      if (settled === 0) return 'done';
      car.held = settled;
      car.heldSlope = way.schedule.slope?.[way.index] ?? 0;
      break;
    case 'too fast':
      // It could go faster still, so it can go as fast as that.
      car.held = car.speed;
      car.heldSlope = Number.NaN;
      interval.trusted = end.at + TRUST;
      break;
    default:
      // At the very limit the two directions may disagree by a trifle: the forward model is believed.
      if (end.at - s0 < INSTANT) trust(car, end.at);
  }
  takeUp(free, car);
  car.mode = -1;
  return 'done';
}

/** @param at s in the interval. */
function trust(car: Journey, at: number): void {
  const { interval, trust: given } = car;
  const now = interval.start + at;
  given.long = now <= given.until + TRUST ? Math.min(TRUST, 2 * given.long) : INSTANT;
  given.until = now + given.long;
  given.driven = Math.min(given.long, interval.length - at);
  interval.trusted = at + given.long;
}

/** It falls behind again: it has been at its limit since. Whether one that only comes to it and goes is seen to be there round-off decides. */
function countTrusted({ interval, trust, totals }: Journey): void {
  if (interval.start + interval.s0 <= trust.until + TRUST) totals.beyond += trust.driven;
  trust.driven = 0;
}

const entry = new Entry();

/** m/s, the top speed that the car has come to, at which it is held from now on; 0 where it has not. */
function settledAfter({ car, free }: Way, end: FreeEnd): number {
  if (end.outcome !== 'interval over' || car.method !== undefined || car.tyres.counts) return 0;
  if (free.machine === null || car.breakLeft > 0) return 0;
  return settledSpeed(free.machine, car, end);
}

/** The slope has changed under a car at its top speed: at full pedal it comes to another one. */
export function letGo(car: Journey): void {
  car.speed = car.held;
  car.held = 0;
  car.mode = 0;
}

/** The time that the car is late, and what of the way does not count for it. */
function countLate({ car, free: { machine }, schedule, index }: Way, { stretches, driven, at }: FreeEnd): void {
  const { totals, keen, following } = car;
  const asked = askedBy(schedule);
  let uncounted = 0;
  for (const stretch of stretches) {
    const byPack = isHeldByPack(stretch.mode);
    totals.lost += timeLost(asked, index, stretch);
    for (const [from, to] of spansTooSlow(asked, index, stretch)) {
      totals.late += to - from;
      if (!byPack || !keen || driven === undefined || machine === null) continue;
      // The charge only falls at full pedal.
      if (lostShare(following.pack.charge) === 0) continue;
      uncounted += takeBack(car, machine, driven.solution, from + driven.shift, to + driven.shift);
    }
  }
  // What changes of gear cost has no place within a stretch.
  if (uncounted > 0) totals.synchronised -= (uncounted / (at - entry.s0)) * (totals.synchronised - entry.synchronised);
}
