/** A car on a schedule: what it carries along, and how the way ended. */

import type { FollowParameters } from '../../model/backward/load.ts';
import { DrivenPack } from '../../model/backward/pack-step.ts';
import { Following, Powers } from '../../model/backward/state.ts';
import type { CabinLoad } from '../../model/cabin/cabin.ts';
import type { Solve } from '../../solvers/system.ts';
import { Consumers } from './consumers.ts';
import type { Excursion } from './excursion.ts';
import type { Track } from './note.ts';
import type { StepMemory } from './memory.ts';
import type { FollowRecord } from './record.ts';
import { TyreWarmth } from './tyre-warmth.ts';

/** What a car carries from one schedule to the next. */
export interface CarState {
  /** 0 to 1. */
  readonly charge: number;
  /** V of the RC pairs. */
  readonly polarisation: readonly [number, number];
  /** K. */
  readonly pack: number;
  /** K of the drive units at the front and rear axle. */
  readonly units: readonly [number, number];
  /** Shares of the budgets of current out of the pack and into it that are spent; left out: nothing. */
  readonly spent?: readonly [number, number];
  /** Shares of the cold that is left in the tyres at the front and rear axle; left out: they are warm. */
  readonly tyres?: readonly [number, number];
}

export interface FollowOptions {
  /** W at the pack of lights, pumps, controls. */
  readonly auxiliaries: number;
  readonly cabin: CabinLoad;
  /** s since the start of the cabin's heater when the schedule begins. */
  readonly since: number;
  /** State of charge at which the pack counts as empty. */
  readonly empty: number;
  /** Equal steps per interval of the schedule; default 1. */
  readonly steps?: number;
  /** What a weak pack makes late does not count: for a range. */
  readonly keen?: boolean;
  /** End where the car can not follow, in place of driving on behind the schedule. */
  readonly strict?: boolean;
  /** Takes a row at every point of the schedule, but for those that a car at rest passes in one step. */
  readonly record?: FollowRecord;
}

export type FollowStatus =
  | 'done'
  | 'empty' // as `excursion.ts` says
  | 'weak' // the car came to rest because the pack gives no more
  | 'late' // the car can not follow, and was to
  | 'stuck' // the car came to rest on a slope, or could not move off
  | 'failed';

/** How a schedule ended. */
export interface FollowEnd {
  readonly status: FollowStatus;
  /** Why it failed; empty otherwise. */
  readonly reason: string;
  /** s. */
  readonly time: number;
  /** m driven. */
  readonly distance: number;
  /** J of the motion gained, by the change of speed. */
  readonly motion: number;
}

/** Another method for the pack and the powers, in place of steps of our own: the second opinion. */
export interface FollowMethod {
  readonly solve: Solve;
  /** Drives the step at hand by it, all with the same bits. @returns false, with nothing changed, where it does not get to its end. */
  readonly step: (car: Journey, bits: number, solve: Solve) => boolean;
  /** Of an interval: to this share of it the cuts are found. */
  readonly cut: number;
  /** Whether it has taken all the work that it may: the way ends at the next point of the schedule, as `failed`. */
  readonly isSpent?: () => boolean;
}

/** Totals beside the energies. */
export class FollowTotals {
  /** J into the terminals of the pack. */
  returned = 0;
  /** s in which the speed is outside the tolerance of the schedule. */
  late = 0;
  /** s by which it arrives later than the schedule, at the speeds of the schedule. */
  lost = 0;
  /** s in which the car could not follow. */
  beyond = 0;
  /** s in which lights, pumps and heating got less than they ask for. */
  unfed = 0;
  /** Steps taken, and changes of mode inside intervals. */
  steps = 0;
  cuts = 0;
  /** Stretches of the forward model, calls of its rates, and limits that it found late. */
  stretches = 0;
  evaluations = 0;
  lateSwitches = 0;
  /** J that clutches and synchromesh took up. */
  synchronised = 0;
  /** J that the drive unit gave its own rotor for a lower gear. */
  raised = 0;
  shifts = 0;
  /** Of what does not count (`excursion.ts`): J of polarisation that came, J out of the cells, m that a weak pack made late. */
  skippedPolarisation = 0;
  skippedChemical = 0;
  skippedWay = 0;
}

/** The interval being driven. Times are s from its first point unless said otherwise. */
class Interval {
  /** s of its first point in the schedule, and s that it lasts. */
  start = Number.NaN;
  length = Number.NaN;
  /** m/s at its first point, m/s2. */
  from = Number.NaN;
  rise = Number.NaN;
  /** s since the heater was switched on at its first point. */
  heaterFrom = Number.NaN;
  /** The step at hand, and the point at hand. */
  s0 = Number.NaN;
  s1 = Number.NaN;
  at = Number.NaN;
  /** m/s at both ends of the step at hand, see `speedsOfStep`. */
  v0 = Number.NaN;
  v1 = Number.NaN;
  /** W that the pack takes at most at the two points of the step. */
  limit1 = Number.NaN;
  limit2 = Number.NaN;
  /** W/s by which what it gives at most grows within the step; 0 where nobody asks for more than that. */
  givesMore = 0;
  /** Up to here the forward model has shown that the car can. */
  trusted = Number.NaN;
}

/** What the first point of a step says about an axle. */
export class Seen {
  asked = Number.NaN;
  moment = Number.NaN;
  both = Number.NaN;
  spare = Number.NaN;
  torque = Number.NaN;
  toGrip = Number.NaN;
  motorSpeed = Number.NaN;
  heat = Number.NaN;
}

/** A car on its way. One lasts for many cars and schedules; nothing of the former is left after `load`. */
export class Journey {
  readonly following = new Following();
  /** The pack as it was before a step that is taken back. */
  readonly before = new DrivenPack();
  /** J since `load`, and the powers of a step that is not sure yet. */
  readonly sums = new Powers();
  readonly pending = new Powers();
  readonly totals = new FollowTotals();
  readonly interval = new Interval();
  readonly consumers = new Consumers();
  readonly front = new Seen();
  readonly rear = new Seen();
  readonly method: FollowMethod | undefined;
  /** What flows and turns on the way; null where nobody asks. */
  track: Track | null = null;
  /** What is remembered of the schedules that it drives over and over, and of the present one. */
  readonly memories: StepMemory[] = [];
  memory: StepMemory | null = null;
  /** Tables of steps of cars before this one, to be written anew. */
  readonly spare: Float64Array[] = [];
  parameters: FollowParameters | null = null;
  readonly tyres = new TyreWarmth();
  /** A drive unit has a temperature of its own. */
  warms = false;
  /** State of charge of the low end. */
  low = Number.NaN;
  strict = false;
  /** What a weak pack makes late does not count. */
  keen = false;
  /** m/s and m within the present schedule, and m/s at its start. */
  speed = Number.NaN;
  distance = Number.NaN;
  began = Number.NaN;
  /** Of the forward model at the end of the interval; -1 while the car follows. */
  mode = -1;
  /** m/s at which the drive unit holds the car back, as it may turn no faster; 0 while the car follows. */
  held = 0;
  /** Slope of the road on which it has come to that speed by itself, for as long as the slope lasts; not a number where it could go faster. */
  heldSlope = Number.NaN;
  /** m/s at which the first of the motors turns as fast as it may, in the present gear. */
  fastest = Number.NaN;
  /** From 0, the first. */
  gear = 0;
  /** s in the schedule of the last change of gear. */
  shifted = Number.NaN;
  /** s that are left of a change of gear under way at full pedal, and J in the rotor when the gear was let go; 0 while none is. */
  breakLeft = 0;
  letGo = 0;
  /** For how many s, and until when in the schedule, the forward model was believed last that the car can; s of them within the interval. */
  readonly trust = { long: 0, until: Number.NaN, driven: 0 };
  /** Consumers were cut short since this was last set to false. */
  short = false;
  /** Below the low end of the pack. */
  below: Excursion | null = null;
  /** s and J of motion of this schedule that do not count. */
  skippedTime = 0;
  skippedMotion = 0;
  reason = '';

  constructor(method: FollowMethod | undefined) {
    this.method = method;
  }
}
