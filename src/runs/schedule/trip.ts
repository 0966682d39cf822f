/** A car on a trip: schedules one after the other, stops in between, the state of the car carried along. */
import * as elementary from '../../elementary.ts';
import type { Leg, Trip } from '../../cycles/trip.ts';
import { cabinLoad } from '../../model/cabin/cabin.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { followParameters } from '../../model/backward/load.ts';
import type { FollowParameters } from '../../model/backward/load.ts';
import { createFollower } from './follower.ts';
import type { Follower } from './follower.ts';
import type { FollowMethod, FollowStatus } from './journey.ts';
import { createFollowRecord } from './record.ts';
import type { FollowRecord } from './record.ts';
import { plugIn } from './plug.ts';
import type { Plugged } from './plug.ts';
import { Track } from './note.ts';
import { soak } from './soak.ts';
import { wheelsOf } from '../trail/forward.ts';
import type { Trail } from '../trail/trail.ts';

export interface TravelOptions {
  readonly surroundings: Surroundings;
  /** State of charge at the start; the car's own where left out. */
  readonly charge?: number;
  /** State of charge at which it ends; the low end of the window of the pack where left out. */
  readonly empty?: number;
  /** K of pack and drive units at the start; that of the air where left out. */
  readonly soaked?: number;
  /** Of the tyres; default: as long as the car stood before, they are cold. */
  readonly warmTyres?: boolean;
  /** Drive the trip over and over until the pack is empty. */
  readonly untilEmpty?: boolean;
  /** Keep what happens at every point of the schedules of so many first trips; default none. */
  readonly record?: number;
  /** Keep what flows and turns on the way; default not. */
  readonly trail?: boolean;
  /** Equal steps per second of a schedule; default 1. */
  readonly steps?: number;
  /** End where the car can not follow. */
  readonly strict?: boolean;
  readonly method?: FollowMethod;
}

/** One schedule of a trip as it was driven. */
export interface DrivenLeg {
  readonly leg: Leg;
  /** s since the trip began, stops included. */
  readonly start: number;
  /** s of driving. */
  readonly time: number;
  /** m. */
  readonly distance: number;
  /** J out of the terminals of the pack. */
  readonly energy: number;
  /** J into the terminals while slowing down; part of `energy` already. */
  readonly returned: number;
  /** J in the brakes. */
  readonly brakes: number;
  /** State of charge at its end. */
  readonly charge: number;
  /** J of the motion gained, by the change of speed. */
  readonly motion: number;
  readonly status: FollowStatus;
}

export interface TravelRun {
  readonly follower: Follower;
  readonly parameters: FollowParameters;
  readonly legs: readonly DrivenLeg[];
  /** Stops with a plug. */
  readonly plugs: readonly Plugged[];
  /** Whole trips driven. */
  readonly trips: number;
  readonly status: FollowStatus;
  readonly reason: string;
  /** s of driving, and with stops. */
  readonly time: number;
  readonly duration: number;
  /** m. */
  readonly distance: number;
  /** State of charge at the start. */
  readonly charge: number;
  /** J that heated the pack from polarisation while it stood, and while it was charged. */
  readonly settled: number;
  readonly record: FollowRecord | null;
  readonly trail: Trail | null;
}

/** What was recorded of a trip; one that was made without a record is an error in the program. */
export function recordOf({ record }: TravelRun): FollowRecord {
  if (record === null) throw new Error('this trip was made without a record');
  return record;
}

/** s of driving until the pack is empty beyond which a range is not worked out. Common practice, no source. */
const LONGEST = 600 * 3600;

/** Of the charge: a trip that takes less, as one with a plug may, is driven for ever. */
const LEAST_DROP = 1e-9;

export type Traveller = (car: Car, trip: Trip, options: TravelOptions) => TravelRun;

/** What happens at a stop with a plug. */
type PlugIn = typeof plugIn;

/** Makes a traveller: one car after the other in the same memory. What it answers is good until its next call. */
export function createTraveller(): Traveller {
  return travellerWith(plugIn);
}

export function travellerWith(plug: PlugIn): Traveller {
  let follower: Follower | undefined;
  return (car, trip, options) => {
    follower ??= createFollower(options.method);
    return travel(follower, car, trip, options, plug);
  };
}

/** One trip that owns its memory. */
export function travelOnce(car: Car, trip: Trip, options: TravelOptions): TravelRun {
  return travel(createFollower(options.method), car, trip, options, plugIn);
}

function travel(follower: Follower, car: Car, trip: Trip, options: TravelOptions, plug: PlugIn): TravelRun {
  const { surroundings } = options;
  const loaded = loader(car, surroundings);
  const parameters = loaded(null);
  follower.load(parameters);
  const soaked = options.soaked ?? surroundings.temperature;
  const charge = options.charge ?? car.pack.charge;
  const cold = options.warmTyres === true ? 0 : 1;
  follower.setState({ charge, polarisation: [0, 0], pack: soaked, units: [soaked, soaked], tyres: [cold, cold] });
  const kept = options.record ?? 0;
  const record = kept > 0 ? createFollowRecord() : null;
  const track = options.trail === true ? new Track(wheelsOf(car)) : null;
  follower.inner.track = track;
  const cabin = { inside: surroundings.temperature };
  const legs: DrivenLeg[] = [];
  const plugs: Plugged[] = [];
  let [time, duration, distance, settled, trips] = [0, 0, 0, 0, 0];
  let status: FollowStatus = 'done';
  let reason = '';
  const most = options.untilEmpty === true ? Infinity : 1;
  for (; trips < most && status === 'done'; trips++) {
    const before = distance;
    const began = time;
    const charged = follower.pack.charge;
    for (const part of trip.parts) {
      if (part.kind === 'stop' && part.plug !== undefined) {
        const hung = plug(follower, part, part.plug, cabin, car, duration, track?.trail ?? null);
        plugs.push(hung.plugged);
        settled += hung.settled + hung.plugged.heat;
        duration += hung.plugged.seconds;
        continue;
      }
      if (part.kind === 'stop') {
        settled += soak(follower, part.seconds, cabin, car);
        track?.trail.rest(part.seconds, follower.pack.emf);
        duration += part.seconds;
        continue;
      }
      const driven = drive(
        follower,
        car,
        part,
        loaded(part.load),
        options,
        cabin,
        trips < kept ? record : null,
        duration,
      );
      ({ status, reason } = driven);
      legs.push(driven.leg);
      time += driven.leg.time;
      duration += driven.leg.time;
      distance += driven.leg.distance;
      if (status !== 'done') break;
    }
    if (status !== 'done') break;
    // A trip that takes nothing out of the pack never gets it empty; one of which nothing counts is no trip.
    const drop = charged - follower.pack.charge;
    if (!(drop > LEAST_DROP)) break;
    const left = follower.pack.charge - (options.empty ?? car.pack.window.low);
    reason = most > 1 ? whyEndless(time, ((time - began) / drop) * left) : '';
    if (reason !== '') break;
    if (!(distance > before)) {
      if (follower.inner.totals.skippedWay > 0) status = 'weak';
      break;
    }
  }
  return {
    follower,
    parameters,
    legs,
    plugs,
    trips,
    status,
    reason,
    time,
    duration,
    distance,
    charge,
    settled,
    record,
    trail: track?.trail ?? null,
  };
}

/** Why a pack is not driven until it is empty; '' where it is. @param time s driven. @param left s more, if all trips take as much as the last. */
function whyEndless(time: number, left: number): string {
  if (!(time + left > LONGEST)) return '';
  const hours = ((time + left) / 3600).toFixed(0);
  return `it would be driven for some ${hours} hours until its pack is empty, and more than ${LONGEST / 3600} are not worked out`;
}

/** The parameters of the car with another load; packed once for each. */
function loader(car: Car, surroundings: Surroundings): (load: number | null) => FollowParameters {
  const packed = new Map<number, FollowParameters>();
  return load => {
    const kilograms = load ?? car.body.load;
    let found = packed.get(kilograms);
    if (found === undefined) {
      found = followParameters({ ...car, body: { ...car.body, load: kilograms } }, surroundings);
      packed.set(kilograms, found);
    }
    return found;
  };
}

function drive(
  follower: Follower,
  car: Car,
  leg: Leg,
  parameters: FollowParameters,
  options: TravelOptions,
  cabin: { inside: number },
  record: FollowRecord | null,
  start: number,
): { readonly leg: DrivenLeg; readonly status: FollowStatus; readonly reason: string } {
  follower.reload(parameters);
  const { sums, inner } = follower;
  const [energy, brakes, returned] = [sums.power, sums.brakes, inner.totals.returned];
  const load = cabinLoad(car.cabin, options.surroundings.temperature, cabin.inside);
  record?.next();
  const end = follower.follow(leg.schedule, {
    auxiliaries: car.auxiliaries.power / car.auxiliaries.converterEfficiency,
    cabin: load,
    since: 0,
    empty: options.empty ?? car.pack.window.low,
    ...(options.steps !== undefined && { steps: options.steps }),
    strict: options.strict === true,
    keen: options.untilEmpty === true,
    ...(record !== null && { record }),
  });
  if (load.steady > 0) {
    const gap = car.cabin.temperature - cabin.inside;
    cabin.inside = car.cabin.temperature - (load.extra === 0 ? 0 : gap * elementary.exp(-end.time / load.time));
  }
  const driven = {
    leg,
    start,
    time: end.time,
    distance: end.distance,
    energy: sums.power - energy,
    returned: inner.totals.returned - returned,
    brakes: sums.brakes - brakes,
    charge: follower.pack.charge,
    motion: end.motion,
    status: end.status,
  };
  return { leg: driven, status: end.status, reason: end.reason };
}
