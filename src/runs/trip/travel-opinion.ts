/** What another method says of a way. */
import { lastOf, named } from '../../columns.ts';
import type { Schedule } from '../../cycles/schedule.ts';
import type { Leg, Trip } from '../../cycles/trip.ts';
import type { Car } from '../../model/car.ts';
import { solveExtrapolation } from '../../solvers/extrapolation.ts';
import type { FollowMethod } from '../schedule/journey.ts';
import { travelLedger } from '../schedule/ledger.ts';
import { methodStep } from '../schedule/method-step.ts';
import { travelOnce } from '../schedule/trip.ts';
import type { TravelOptions, TravelRun } from '../schedule/trip.ts';
import type { Ledger, SecondOpinion } from '../result.ts';
import { METHOD, OPINION_TOLERANCE } from '../second-opinion.ts';
import { finer } from './finer.ts';

/** s of schedules that it goes over: odex takes a thousand times as long as the steps of the follower. */
const LONGEST = 600;
const LONGEST_SCHEDULE = 1800;

/**
 * Evaluations after which it ends with the interval at hand, about a fifth of a second; after so many times as many it breaks off within
 * it. Tried with faults put into the follower on five cars each: wrong points of the quadrature and a pack by Euler's method are found on
 * all five, as with four times the work; coarse cuts on two in place of three, corners left aside on one in place of none.
 */
const WORK = 25_000;
const BREAKS = 8;

/** What odex may take at most for one step. */
const PER_STEP = 50;

/** s of a point of a schedule. */
const ROUND_OFF = 1e-9;

/** Of an interval: to this share of it the cuts are found. */
const CUT = 1e-9;

/** The same way again with odex: as much of its beginning as that comes to. @param work evaluations that it may take. */
export function driveOpinion(run: TravelRun, car: Car, trip: Trip, options: TravelOptions, work = WORK): SecondOpinion {
  const base = {
    surroundings: options.surroundings,
    charge: run.charge,
    ...(options.soaked !== undefined && { soaked: options.soaked }),
  };
  let way = beginningOf(finer(trip));
  let bounded = boundedMethod(work);
  let theirs = travelOnce(car, way, { ...base, method: bounded.method });
  if (bounded.isSpent()) {
    way = upTo(way, theirs, bounded.isBroken());
    if (bounded.isBroken()) {
      bounded = boundedMethod(work);
      theirs = travelOnce(car, way, { ...base, method: bounded.method });
    }
  }
  const mine = travelOnce(car, way, base);
  const { difference, where } = compared(mine, theirs, bounded.isSpent());
  const agrees = difference <= OPINION_TOLERANCE;
  const until = theirs.duration < run.duration ? theirs.duration : undefined;
  return {
    method: METHOD,
    difference,
    where,
    tolerance: OPINION_TOLERANCE,
    agrees,
    ...(until !== undefined && { until }),
  };
}

function compared(
  mine: TravelRun,
  theirs: TravelRun,
  cut: boolean,
): { readonly difference: number; readonly where: string } {
  if (!cut && theirs.status === 'failed' && mine.status !== 'failed') return { difference: 1, where: theirs.reason };
  const [a, b] = [travelLedger(mine), travelLedger(theirs)];
  let difference = 0;
  let where = 'distance';
  const compare = (name: string, x: number, y: number, least: number): void => {
    const d = Math.abs(x - y) / Math.max(Math.abs(x), Math.abs(y), least);
    if (d > difference || Number.isNaN(d)) [difference, where] = [Number.isNaN(d) ? 1 : d, name];
  };
  const drawn = (ledger: Ledger): number => named(ledger.in, 'out of the cells');
  compare('distance', mine.distance, theirs.distance, 1);
  compare('time', mine.time, theirs.time, 1);
  compare('energy out of the cells', drawn(a), drawn(b), Math.max(named(a.out, 'drag'), 1));
  return { difference, where };
}

interface Bounded {
  readonly method: FollowMethod;
  /** It has taken all the work that it may. */
  isSpent(): boolean;
  /** It was stopped within an interval: what it says of that is nothing. */
  isBroken(): boolean;
}

/** Odex, until it has taken so much work that nobody waits for more. */
function boundedMethod(work: number): Bounded {
  let evaluations = 0;
  const isSpent = (): boolean => evaluations > work;
  return {
    isSpent,
    isBroken: () => evaluations > BREAKS * work,
    method: {
      step: methodStep,
      cut: CUT,
      isSpent,
      solve(system, problem) {
        const left = Math.max(1, Math.ceil((BREAKS * work - evaluations) / PER_STEP));
        const solution = solveExtrapolation(system, { ...problem, maxSteps: Math.min(problem.maxSteps ?? left, left) });
        evaluations += solution.statistics.evaluations;
        return solution;
      },
    },
  };
}

/** Of a trip the first schedules, and of one of them as much as the longest of the shipped ones lasts. */
function beginningOf(trip: Trip): Trip {
  let seconds = 0;
  const parts = [];
  for (const part of trip.parts) {
    if (part.kind === 'leg') {
      seconds += lastOf(part.schedule.time);
      if (seconds > LONGEST && parts.length > 0) break;
      const points = part.schedule.time.findIndex(time => time > LONGEST_SCHEDULE);
      parts.push(points < 2 ? part : withPoints(part, points));
    } else parts.push(part);
  }
  return { ...trip, parts };
}

/** As much of a trip as a run came through, up to the end of its last interval, or to its start where it broke off within. */
function upTo(trip: Trip, { legs, follower }: TravelRun, broken: boolean): Trip {
  const { start, length } = follower.inner.interval;
  const end = broken ? start : start + length;
  const parts = [];
  let driven = 0;
  for (const part of trip.parts) {
    if (part.kind === 'leg' && ++driven === legs.length) {
      const points = part.schedule.time.filter(time => time < end + ROUND_OFF).length;
      if (points >= 2) parts.push(withPoints(part, points));
      break;
    }
    parts.push(part);
  }
  return { ...trip, parts };
}

/** A leg with the first points of its schedule. */
function withPoints(leg: Leg, points: number): Leg {
  const { time, speed, slope } = leg.schedule;
  const schedule: Schedule = {
    ...leg.schedule,
    time: time.slice(0, points),
    speed: speed.slice(0, points),
    slope: slope?.slice(0, points - 1) ?? null,
    phases: [],
  };
  return { ...leg, schedule };
}
