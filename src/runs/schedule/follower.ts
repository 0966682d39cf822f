/**
 * Follows a schedule: between two of its points the acceleration is given, so forces and powers run backwards from the road to
 * the pack. They are integrated by the two-point Gauss-Legendre rule, the pack by the classical Runge-Kutta method, both of
 * order four; an interval is cut where something begins or ceases to limit. Where the car can not do what is asked the
 * forward model takes over until it has caught up (`follow-free.ts`).
 */
import type { CabinLoad } from '../../model/cabin/cabin.ts';
import type { Schedule } from '../../cycles/schedule.ts';
import { curveAt, curveIntegral } from '../../model/tables/curve.ts';
import { demand } from '../../model/backward/demand.ts';
import {
  addPowers,
  BEYOND,
  clearPowers,
  copyPowers,
  DECIDE,
  Following,
  heldByPack,
  POWER_COUNT,
  Powers,
  powersOfRow,
  powersToRow,
  STANDS,
} from '../../model/backward/state.ts';
import type { Side } from '../../model/backward/state.ts';
import { beyond, isEasy } from '../../model/backward/limits.ts';
import {
  copyPack,
  DrivenPack,
  drivenPackAt,
  forgetPieces,
  packRates,
  respond,
} from '../../model/backward/pack-step.ts';
import { takeFigures } from '../../model/backward/load.ts';
import type { FollowParameters } from '../../model/backward/load.ts';
import { rotorEnergyOf } from '../../model/forward/by-products.ts';
import { STANDARD_GRAVITY } from '../../model/gravity.ts';
import { axleMode, L, LIMIT_BITS } from '../../model/forward/state.ts';
import type { Solve, SwitchedSystem } from '../../solvers/system.ts';
import { createFreeDrive } from './falling-behind.ts';
import type { FollowRecord } from './record.ts';
import { createShortfall, NO_SHORTFALL } from './shortfall.ts';

/** Of an interval: an instant at which something begins to limit is found to this share of it. */
const CUT = 1 / 4096;

/** Gauss-Legendre points of the unit interval. */
const FIRST = 0.5 - Math.sqrt(3) / 6;
const SECOND = 0.5 + Math.sqrt(3) / 6;

/** s, where the pack holds back what comes in: its limit moves with its polarisation, but for one of nothing at all. */
const SHORT_STEP = 0.125;

/** s; a point of a schedule every second is usual. */
const LONGEST_STEP = 1;
/** The same at a steady speed: the pack alone changes, with time constants of tens of seconds. */
const LONGEST_STEADY_STEP = 4;

/** Changes within one interval of a schedule beyond which it is no use to go on. */
const MOST_CUTS = 400;

/** s for which a gear is kept: common practice, no source. */
const SHORTEST_GEAR = 3;

/** m/s: UN GTR No. 15, 2 km/h. */
const TOLERATED = 2 / 3.6;

/** A pack that holds the car back for so many seconds, m/s outside the tolerance, below this charge, is taken as empty. */
const WEAK_TIME = 10;
const WEAK_CHARGE = 0.3;

/** Numbers of the interval being driven. */
const C = {
  start: 0, // s of its first point in the schedule
  length: 1, // s
  from: 2, // m/s at its first point
  rise: 3, // m/s2
  heaterFrom: 4, // s since the heater was switched on at its first point
  base: 5, // W
  steady: 6,
  extra: 7,
  fading: 8, // s
  stop: 9, // state of charge
  shifted: 10, // s of the last change of gear
  s0: 11, // s in the interval: the step at hand
  s1: 12,
  at: 13, // s in the interval: the point at hand
  limit1: 14, // W that the pack takes at the two points of a step
  limit2: 15,
  trusted: 16, // s in the interval up to which the forward model has shown that the car can
} as const;
const C_COUNT = 17;

/** What the first point of a step says about an axle. */
class Seen {
  moment = Number.NaN;
  both = Number.NaN;
  spare = Number.NaN;
  motorSpeed = Number.NaN;
  heat = Number.NaN;
}

/** From a Gauss-Legendre point to the near end of the step over the way between the points, and a margin for bends. */
const REACH = 0.366_1 * 1.3;

/** s: a car that has caught up within it could follow, and for so long it is not asked again. */
const INSTANT = 1e-3;
const TRUST = 0.25;

const NO_SHIFTS = { synchronised: 0, raised: 0, shifts: 0 };

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
  /** Takes a row at every point of the schedule. */
  readonly record?: FollowRecord;
}

export type FollowStatus =
  | 'done'
  | 'empty' // the state of charge at which it stops is reached
  | 'weak' // the pack can no longer give what is asked
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
  /** m/s. */
  readonly speed: number;
}

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
  readonly inner: FollowInner;
}

/** Totals beside the energies. */
export interface FollowTotals {
  /** J into the terminals of the pack. */
  returned: number;
  /** s and m/s s of the speed missing outside the tolerance of the schedule. */
  late: number;
  /** s in which the car could not follow. */
  beyond: number;
  /** Changes of mode inside intervals. */
  cuts: number;
  /** Limits found late by the forward model. */
  lateSwitches: number;
  /** J that clutches and synchromesh took up. */
  synchronised: number;
  /** J that the drive unit gave its own rotor for a lower gear. */
  raised: number;
  shifts: number;
}

/** The memory of a follower, for the parts of it that stand in files of their own. */
export interface FollowInner {
  readonly following: Following;
  readonly sums: Powers;
  readonly totals: FollowTotals;
  parameters: FollowParameters | null;
  /** m/s and m of the car within the present schedule. */
  speed: number;
  distance: number;
  /** Of the forward model at the end of the interval; -1 while the car follows. */
  mode: number;
}

/** Another method for the pack and the powers, in place of the steps of this file: the second opinion. */
export interface FollowMethod {
  readonly solve: Solve;
  /** Of an interval: to this share of it the cuts are found. */
  readonly cut: number;
}

export function createFollower(method?: FollowMethod): Follower {
  const f = new Following();
  const { front, rear, moving, pack: k, powers: d } = f;
  const before = new DrivenPack();
  const keptPack = new DrivenPack();
  const sums = new Powers();
  const totals: FollowTotals = { returned: 0, late: 0, beyond: 0, cuts: 0, lateSwitches: 0, ...NO_SHIFTS };
  const inner: FollowInner = {
    following: f,
    sums,
    totals,
    parameters: null,
    speed: 0,
    distance: 0,
    mode: -1,
  };
  let warms = false;

  function reload(parameters: FollowParameters): void {
    takeFigures(f, parameters);
    k.air = parameters.car.air;
    inner.parameters = parameters;
    warms = front.axle.unitCapacity < Infinity || rear.axle.unitCapacity < Infinity;
    forgetPieces(k);
    drivenPackAt(moving.pack, k);
  }

  function load(parameters: FollowParameters): void {
    k.heat = 0;
    clearPowers(sums);
    Object.assign(totals, { returned: 0, late: 0, beyond: 0, cuts: 0, lateSwitches: 0, ...NO_SHIFTS });
    const { air } = parameters.car;
    setState({ charge: parameters.charge, polarisation: [0, 0], pack: air, units: [air, air] });
    reload(parameters);
  }

  function setState({ charge, polarisation, pack, units }: CarState): void {
    k.charge = charge;
    [k.pair1, k.pair2] = polarisation;
    k.temperature = pack;
    [front.at.temperature, rear.at.temperature] = units;
    if (inner.parameters !== null) drivenPackAt(moving.pack, k);
  }

  // The interval being driven: numbers that change stand in an array, closures would box them.
  const c = new Float64Array(C_COUNT);
  let reason = '';
  let gear = 0;
  let shortfall = NO_SHORTFALL;
  const free = createFreeDrive(method?.solve);
  const accuracy = method?.cut ?? CUT;
  const kept = new Powers();
  const pending = new Powers();
  const seenFront = new Seen();
  const seenRear = new Seen();

  /** Into `d`: what stands at `c[C.at]` seconds into the interval, the powers aside. */
  function place(): void {
    const s = c[C.at]!;
    d.auxiliaries =
      c[C.extra] === 0
        ? c[C.base]! + c[C.steady]!
        : c[C.base]! + c[C.steady]! + c[C.extra]! * Math.exp(-(c[C.heaterFrom]! + s) / c[C.fading]!);
    f.speed = c[C.from]! + c[C.rise]! * s;
    f.acceleration = c[C.rise]!;
  }

  /** The bits that hold `c[C.at]` seconds into the interval; with `BEYOND` where the car can not. */
  function bitsAt(): number {
    place();
    f.limit = k.limit;
    const bits = demand(f, DECIDE);
    if (f.force <= 0 || c[C.at]! <= c[C.trusted]!) return bits;
    return beyond(f) ? bits | BEYOND : bits;
  }

  /** Drives `c[C.s0]` to `c[C.s1]` in one step, if it is plain that the bits are the same throughout. */
  function plainStep(): boolean {
    const h = c[C.s1]! - c[C.s0]!;
    c[C.at] = c[C.s0]! + FIRST * h;
    place();
    f.limit = k.limit;
    const bits = demand(f, DECIDE);
    if (heldByPack(bits) || (f.force > 0 && !isEasy(f))) return false;
    copyPowers(d, pending);
    const force = f.force;
    remember(front, seenFront);
    remember(rear, seenRear);
    c[C.at] = c[C.s0]! + SECOND * h;
    place();
    if (demand(f, DECIDE) !== bits || force < 0 !== f.force < 0) return false;
    if (force > 0 && !isEasy(f)) return false;
    const change = REACH * Math.abs(f.force - force);
    if (Math.min(Math.abs(force), Math.abs(f.force)) <= change) return false;
    if (!keepsSide(front, seenFront) || !keepsSide(rear, seenRear) || (force < 0 && !keepsBraking())) return false;
    k.first = pending.power;
    k.second = d.power;
    addPowers(sums, pending, 0.5 * h);
    addPowers(sums, d, 0.5 * h);
    if (warms) {
      warmUp(front, 0.5 * h * (seenFront.heat + front.at.heat), h);
      warmUp(rear, 0.5 * h * (seenRear.heat + rear.at.heat), h);
    }
    finish(h);
    return true;
  }

  /** Whether no corner of the braking torque lies inside the step, and the pack takes all of it. */
  function keepsBraking(): boolean {
    const [first, second] = [pending.power, d.power];
    // The limit of the pack itself moves during the step.
    if (Math.min(first, second) - REACH * Math.abs(second - first) < -0.8 * k.limit) return false;
    const v0 = c[C.from]! + c[C.rise]! * c[C.s0]!;
    const v1 = c[C.from]! + c[C.rise]! * c[C.s1]!;
    return keepsCorner(front, seenFront, v0, v1) && keepsCorner(rear, seenRear, v0, v1);
  }

  /** The pack, and the way. `c[C.s0]`, `k.first` and `k.second` are set. */
  function finish(h: number): void {
    k.span = h;
    respond(moving.pack, k);
    drivenPackAt(moving.pack, k);
    if (k.first < 0 || k.second < 0) totals.returned += returned(k.first, k.second, h);
    inner.distance += (c[C.from]! + c[C.rise]! * (c[C.s0]! + 0.5 * h)) * h;
  }

  /** From `c[C.s0]` to `c[C.s1]` in one step, all with the same bits. */
  function step(bits: number): void {
    const h = c[C.s1]! - c[C.s0]!;
    if (method !== undefined) {
      solved(bits, method.solve);
      return;
    }
    c[C.limit1] = k.limit;
    c[C.limit2] = k.limit;
    if (k.limit !== 0 && heldByPack(bits)) {
      // The limit moves with the state: once for how, once for good.
      copyPack(k, before);
      nodes(bits, h, false);
      k.span = h;
      respond(moving.pack, k);
      drivenPackAt(moving.pack, k);
      const change = k.limit - c[C.limit1]!;
      c[C.limit2] = c[C.limit1]! + SECOND * change;
      c[C.limit1] = c[C.limit1]! + FIRST * change;
      copyPack(before, k);
    }
    nodes(bits, h, true);
    finish(h);
  }

  /** The step by another method: pack and powers as one system of differential equations. */
  function solved(bits: number, solve: Solve): void {
    const start = Float64Array.of(k.charge, k.pair1, k.pair2, k.temperature);
    const put = (y: Float64Array): void => {
      k.charge = y[0]!;
      k.pair1 = y[1]!;
      k.pair2 = y[2]!;
      k.temperature = y[3]!;
    };
    const system: SwitchedSystem = {
      states: 4,
      quadratures: POWER_COUNT + 1,
      guards: 0,
      scales: Float64Array.of(0.01, 1, 1, 100),
      rates(_mode, y, out) {
        put(y);
        drivenPackAt(moving.pack, k);
        c[C.at] = y[4]!;
        if (bits === STANDS) standing();
        else {
          place();
          f.limit = k.limit;
          demand(f, bits);
        }
        packRates(moving.pack, k, d.power, out);
        powersToRow(d, out, 4);
        out[4 + POWER_COUNT] = k.lost;
      },
    };
    const [s0, s1] = [c[C.s0]!, c[C.s1]!];
    const solution = solve(system, {
      start: s0,
      end: s1,
      initial: start,
      mode: 0,
      tolerance: 1e-11,
      firstStep: s1 - s0,
    });
    const last = solution.nodes - 1;
    put(solution.states.subarray(4 * last));
    drivenPackAt(moving.pack, k);
    const row = solution.integrals.subarray((POWER_COUNT + 1) * last);
    powersOfRow(row, pending);
    addPowers(sums, pending, 1);
    k.heat += row[POWER_COUNT]!;
    if (warms) {
      warmUp(front, front.at.heat * (s1 - s0), s1 - s0);
      warmUp(rear, rear.at.heat * (s1 - s0), s1 - s0);
    }
    inner.distance += (c[C.from]! + c[C.rise]! * 0.5 * (s0 + s1)) * (s1 - s0);
  }

  /** The powers at the two points of a step. */
  function nodes(bits: number, h: number, counts: boolean): void {
    for (let i = 0; i < 2; i++) {
      c[C.at] = c[C.s0]! + (i === 0 ? FIRST : SECOND) * h;
      place();
      f.limit = c[C.limit1 + i]!;
      demand(f, bits);
      if (i === 0) k.first = d.power;
      else k.second = d.power;
      if (counts) tally(0.5 * h);
    }
  }

  /** Adds the powers of a point, and warms the drive units. */
  function tally(weight: number): void {
    addPowers(sums, d, weight);
    if (!warms) return;
    warmUp(front, front.at.heat * weight, weight);
    warmUp(rear, rear.at.heat * weight, weight);
  }

  /** The lump of a drive unit under so many J, given evenly: exact. */
  function warmUp({ axle, at }: Side, heat: number, seconds: number): void {
    if (!axle.driven || axle.unitCapacity === Infinity) return;
    const cooling = axle.unitCooling;
    const capacity = axle.unitCapacity;
    if (cooling === 0) {
      at.temperature += heat / capacity;
      return;
    }
    const end = moving.car.air + heat / (cooling * seconds);
    at.temperature = end + (at.temperature - end) * Math.exp((-cooling * seconds) / capacity);
  }

  /** At rest from `c[C.s0]` to `c[C.s1]`. */
  function stand(): void {
    const h = c[C.s1]! - c[C.s0]!;
    if (method !== undefined) {
      solved(STANDS, method.solve);
      return;
    }
    for (let i = 0; i < 2; i++) {
      c[C.at] = c[C.s0]! + (i === 0 ? FIRST : SECOND) * h;
      standing();
      if (i === 0) k.first = d.power;
      else k.second = d.power;
      tally(0.5 * h);
    }
    finish(h);
  }

  /** Powers of the car at rest. */
  function standing(): void {
    place();
    const consumed = d.auxiliaries;
    clearPowers(d);
    d.auxiliaries = consumed;
    d.power = consumed;
    for (const { axle, at, braking } of [front, rear]) {
      if (!axle.driven) continue;
      d.unitHeat += braking.standstill;
      d.power += braking.standstill;
      at.heat = braking.standstill;
    }
  }

  function advance(bits: number): void {
    if (bits === STANDS) stand();
    else step(bits);
  }

  /** As `advance`, but to the instant at which the pack is empty at most, which becomes `c[C.s1]`. */
  function advanceToEmpty(bits: number): void {
    copyPack(k, keptPack);
    copyPowers(sums, kept);
    const warm = [front.at.temperature, rear.at.temperature] as const;
    const { distance } = inner;
    const { returned: back } = totals;
    const restore = (): void => {
      copyPack(keptPack, k);
      copyPowers(kept, sums);
      [front.at.temperature, rear.at.temperature] = warm;
      inner.distance = distance;
      totals.returned = back;
    };
    advance(bits);
    if (k.charge > c[C.stop]!) return;
    let low = c[C.s0]!;
    let high = c[C.s1]!;
    const width = 1e-12 * (high - low);
    for (let pass = 0; pass < 40 && high - low > width; pass++) {
      const middle = 0.5 * (low + high);
      restore();
      c[C.s1] = middle;
      advance(bits);
      if (k.charge > c[C.stop]!) low = middle;
      else high = middle;
    }
    restore();
    c[C.s1] = high;
    advance(bits);
  }

  /** Cuts the step `c[C.s0]` to `c[C.s1]` just past the instant at which the bits at its start no longer hold. */
  function cut(bits: number): void {
    c[C.at] = c[C.s1]!;
    let end = bitsAt();
    if (k.limit !== 0 && (heldByPack(bits) || heldByPack(end))) {
      c[C.s1] = Math.min(c[C.s1]!, c[C.s0]! + SHORT_STEP);
      c[C.at] = c[C.s1]!;
      end = bitsAt();
    }
    if (end === bits) return;
    totals.cuts++;
    let low = c[C.s0]!;
    let high = c[C.s1]!;
    const width = accuracy * (high - low);
    while (high - low > width) {
      const middle = 0.5 * (low + high);
      // An instant between two neighbours of the numbers there are is found.
      if (!(middle > low && middle < high)) break;
      c[C.at] = middle;
      if (bitsAt() === bits) low = middle;
      else high = middle;
    }
    c[C.s1] = high;
  }

  /** Whether the step at hand may empty the pack. */
  function isNearEmpty(): boolean {
    const drop = (2 * Math.abs(d.power) * (c[C.s1]! - c[C.s0]!)) / (k.emf * moving.pack.capacity);
    return k.charge - drop <= c[C.stop]! + 1e-6;
  }

  /** Drives one interval; the status is `done` when its end is reached. */
  function interval(steps: number): FollowStatus {
    const length = c[C.length]!;
    c[C.s0] = 0;
    c[C.trusted] = -1;
    for (let pass = 0; pass < MOST_CUTS + 10 * (steps + length); pass++) {
      if (inner.mode >= 0) {
        c[C.at] = 0.5 * (c[C.s0]! + length);
        place();
        const line = { start: 0, from: c[C.from]!, rise: c[C.rise]! };
        const end = free.drive(inner, line, c[C.s0]!, length, c[C.stop]!);
        const solution = free.last();
        if (solution !== null && end.at > c[C.s0]!) totals.late += shortfall.outside(solution, c[C.start]!);
        drivenPackAt(moving.pack, k);
        // At the very limit the two directions may disagree by a trifle: the forward model is believed.
        if (end.outcome === 'caught up' && end.at - c[C.s0]! < INSTANT) c[C.trusted] = end.at + TRUST;
        c[C.s0] = end.at;
        if (end.outcome === 'failed') reason = end.reason;
        if (end.outcome === 'stuck' || end.outcome === 'empty' || end.outcome === 'failed') return end.outcome;
        if (end.outcome === 'interval over') return 'done';
        inner.mode = -1;
        takeGear(free.gear());
      } else {
        const status = followOn(steps);
        if (status !== 'done') return status;
      }
      if (c[C.s0]! >= length) return 'done';
    }
    reason = `more than ${MOST_CUTS} changes of what limits the car within one interval`;
    return 'failed';
  }

  /** One step on; `inner.mode` is 0 afterwards where the car can not follow. */
  function followOn(steps: number): FollowStatus {
    const length = c[C.length]!;
    const s0 = c[C.s0]!;
    c[C.s1] =
      steps === 1 ? length : Math.min(length, (Math.floor((s0 / length) * steps + 1e-9) + 1) * (length / steps));
    const rests = c[C.from] === 0 && c[C.rise] === 0;
    if (rests || method !== undefined || isNearEmpty() || !plainStep()) {
      c[C.at] = s0;
      const bits = rests ? STANDS : bitsAt();
      if ((bits & BEYOND) !== 0 && !changesDown()) {
        inner.mode = 0;
        inner.speed = c[C.from]! + c[C.rise]! * s0;
        return 'done';
      }
      if ((bits & BEYOND) !== 0) return 'done';
      if (!rests) cut(bits);
      if (isNearEmpty()) advanceToEmpty(bits);
      else advance(bits);
    }
    c[C.s0] = c[C.s1]!;
    inner.speed = c[C.from]! + c[C.rise]! * c[C.s0]!;
    return k.charge <= c[C.stop]! ? 'empty' : 'done';
  }

  /** Slope of the interval on top of that of the surroundings, into the places of the plant. */
  function climb(slope: number): void {
    const { car } = moving;
    const given = inner.parameters!;
    const weight = car.mass * STANDARD_GRAVITY;
    const steep = given.car.gradeForce / weight; // the sine of its angle
    const angle = Math.asin(steep) + Math.atan(slope);
    const lever = car.transfer / car.mass; // height over wheelbase
    car.gradeForce = weight * Math.sin(angle);
    for (const [axle, level] of [
      [front.axle, given.front],
      [rear.axle, given.rear],
    ] as const) {
      const share = (level.staticLoad / weight - level.sign * steep * lever) / Math.sqrt(1 - steep * steep);
      axle.staticLoad = weight * (share * Math.cos(angle) + level.sign * Math.sin(angle) * lever);
    }
  }

  /** The gear in which the coming interval takes least out of the pack; kept for some seconds. */
  function shift(): void {
    const side = gearedSide(f);
    c[C.at] = 0.5 * c[C.length]!;
    if (side === null || inner.mode >= 0 || c[C.from]! + c[C.rise]! * c[C.at]! <= 0) return;
    let best = gear;
    let least = Infinity;
    let present = Infinity;
    for (let g = 0; g < side.axle.gears.length; g++) {
      engage(side, g);
      const power = (bitsAt() & BEYOND) !== 0 ? Infinity : d.power;
      if (g === gear) present = power;
      if (power < least) {
        least = power;
        best = g;
      }
    }
    const rested = c[C.start]! - c[C.shifted]! >= SHORTEST_GEAR;
    const worth = present === Infinity || (rested && least < present - Math.max(0.02 * Math.abs(present), 50));
    engage(side, best === gear || least === Infinity || !worth ? gear : best);
    if (best === gear || least === Infinity || !worth) return;
    synchronise(side, best, c[C.from]!);
    c[C.shifted] = c[C.start]!;
  }

  /** Another gear in which the car can do what is asked at this point, where there is one: it is taken. */
  function changesDown(): boolean {
    const side = gearedSide(f);
    if (side === null) return false;
    const before = gear;
    for (let g = 0; g < side.axle.gears.length; g++) {
      engage(side, g);
      if (g === before || (bitsAt() & BEYOND) !== 0) continue;
      synchronise(side, g, f.speed);
      c[C.shifted] = c[C.start]!;
      return true;
    }
    engage(side, before);
    return false;
  }

  /** The gear that the forward model was left in. */
  function takeGear(taken: number): void {
    const side = gearedSide(f);
    if (side === null || taken === gear) return;
    engage(side, taken);
    gear = taken;
    c[C.shifted] = c[C.start]!;
  }

  /** The rotor comes to its speed in another gear, which is engaged. */
  function synchronise({ axle }: Side, chosen: number, v: number): void {
    const was = rotorEnergyOf(axle, gear, v);
    const is = rotorEnergyOf(axle, chosen, v);
    if (was > is) totals.synchronised += was - is;
    else {
      // The motor brings the rotor to its new speed, out of the pack.
      totals.raised += is - was;
      const q = k.charge;
      const { ocv, capacity, series } = moving.pack;
      const perCharge = capacity * series;
      let drop = (is - was) / (perCharge * curveAt(ocv, q));
      drop += ((is - was) / perCharge - curveIntegral(ocv, q - drop, q)) / curveAt(ocv, q - drop);
      k.charge = q - drop;
      drivenPackAt(moving.pack, k);
    }
    gear = chosen;
    totals.shifts++;
  }

  function begin(schedule: Schedule, options: FollowOptions): void {
    c[C.base] = options.auxiliaries;
    c[C.stop] = options.empty;
    c[C.steady] = options.cabin.steady;
    c[C.extra] = options.cabin.extra;
    c[C.fading] = options.cabin.time;
    c[C.shifted] = -Infinity;
    d.power = 0;
    inner.speed = schedule.speed[0]!;
    inner.distance = 0;
    inner.mode = -1;
    gear = 0;
    reason = '';
  }

  function follow(schedule: Schedule, options: FollowOptions): FollowEnd {
    const { time, speed, slope } = schedule;
    const { record, steps = 1 } = options;
    begin(schedule, options);
    shortfall = createShortfall(schedule);
    let weakFor = 0;
    record?.push(0, speed[0]!, inner, 0);
    for (let i = 0; i + 1 < time.length; i++) {
      const start = time[i]!;
      const length = time[i + 1]! - start;
      c[C.start] = start;
      c[C.length] = length;
      c[C.from] = speed[i]!;
      c[C.rise] = (speed[i + 1]! - speed[i]!) / length;
      c[C.heaterFrom] = options.since + start;
      c[C.s0] = 0;
      if (slope !== null) climb(slope[i]!);
      shift();
      let status: FollowStatus = k.charge <= c[C.stop]! ? 'empty' : interval(steps * piecesOf(length, c[C.rise]!));
      if (inner.mode >= 0) {
        weakFor = isPackLimited(inner.mode) && speed[i + 1]! - inner.speed > TOLERATED ? weakFor + length : 0;
        if (status === 'done' && weakFor > WEAK_TIME && k.charge < WEAK_CHARGE) status = 'weak';
      } else weakFor = 0;
      const at = status === 'done' ? time[i + 1]! : start + c[C.s0]!;
      record?.push(at, c[C.from]! + c[C.rise]! * (at - start), inner, length);
      if (status !== 'done') return { status, reason, time: at, distance: inner.distance, speed: inner.speed };
    }
    return { status: 'done', reason, time: time[time.length - 1]!, distance: inner.distance, speed: inner.speed };
  }

  return {
    load,
    reload,
    setState,
    state: () => ({
      charge: k.charge,
      polarisation: [k.pair1, k.pair2],
      pack: k.temperature,
      units: [front.at.temperature, rear.at.temperature],
    }),
    follow,
    sums,
    pack: k,
    inner,
  };
}

/** Keeps what the first point of a step says about an axle. */
function remember({ at, moment, both, spare }: Side, seen: Seen): void {
  seen.moment = moment;
  seen.both = both;
  seen.spare = spare;
  seen.motorSpeed = at.motorSpeed;
  seen.heat = at.heat;
}

/** Whether what decides the bits keeps its sign to both ends of the step, on a straight line through its two points. */
function keepsSide(side: Side, seen: Seen): boolean {
  if (!side.axle.driven) return true;
  return keepsSign(seen.moment, side.moment) && keepsSign(seen.both, side.both) && keepsSign(seen.spare, side.spare);
}

function keepsSign(first: number, second: number): boolean {
  if (first === Infinity || second === Infinity) return true;
  return !(Math.min(Math.abs(first), Math.abs(second)) <= REACH * Math.abs(second - first));
}

/** Whether no corner of the braking torque of an axle lies between two speeds, m/s. */
function keepsCorner({ axle, at, braking }: Side, seen: Seen, v0: number, v1: number): boolean {
  if (!axle.driven) return true;
  if (v0 < braking.fadeFrom !== v1 < braking.fadeFrom) return false;
  if (v0 <= braking.fadeTo !== v1 <= braking.fadeTo) return false;
  const corner = braking.power / braking.torque;
  const beyondEnds = REACH * (at.motorSpeed - seen.motorSpeed);
  return seen.motorSpeed - beyondEnds > corner === at.motorSpeed + beyondEnds > corner;
}

/** The side whose drive has gears to choose from. */
function gearedSide({ front, rear }: Following): Side | null {
  if (front.axle.gears.length > 1) return front;
  return rear.axle.gears.length > 1 ? rear : null;
}

function engage({ axle, at }: Side, gear: number): void {
  at.gear = axle.gears[gear] ?? at.gear;
}

/** Whether what limits a mode of the forward model is the pack. */
function isPackLimited(mode: number): boolean {
  for (let axle = 0; axle < 2; axle++) {
    const l = axleMode(mode, axle) & LIMIT_BITS;
    if (l === L.minVoltage || l === L.current || l === L.packHeat || l === L.busVoltage) return true;
  }
  return false;
}

/** Steps that an interval is driven in at least. */
function piecesOf(length: number, rise: number): number {
  return Math.max(1, Math.ceil(length / (rise === 0 ? LONGEST_STEADY_STEP : LONGEST_STEP) - 1e-9));
}

/** J that flows into the pack while its power goes linearly through two values at the Gauss-Legendre points. */
function returned(first: number, second: number, h: number): number {
  const middle = 0.5 * (first + second);
  const half = 0.5 * Math.sqrt(3) * (second - first);
  const low = middle - Math.abs(half);
  const high = middle + Math.abs(half);
  if (high <= 0) return -middle * h;
  if (low >= 0) return 0;
  return (0.5 * low * low * h) / (high - low);
}
