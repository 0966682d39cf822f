/**
 * What a car does at full pedal behind its schedule, remembered while that is driven over and over. Where neither the pack nor heat limits
 * it (its torque, its greatest power, the speed of its motor, a half shaft, grip), what the road takes is the same each time it comes to
 * an interval at the same instant, at the same speed; only the pack is another, and is driven again. As in `memory.ts` a stretch is taken
 * from memory where the pack, as it is by then, leaves the car as free.
 */
import { nth } from '../../columns.ts';
import { addPowers, copyPowers, Powers } from '../../model/backward/state.ts';
import { isEasyForPack, isHot } from '../../model/backward/limits.ts';
import { CarFigures } from '../../model/forward/figures.ts';
import type { AxleFigures } from '../../model/forward/figures.ts';
import type { AxleNow } from '../../model/forward/instant.ts';
import { voltsFor } from '../../model/forward/sag.ts';
import { createPlant } from '../../model/forward/plant.ts';
import { sameShape } from '../../model/forward/shape.ts';
import { axleMode, BREAK, L, LIMIT_BITS, SPEED, SPENDS, SPENT } from '../../model/forward/state.ts';
import { FIRST, SECOND } from '../../solvers/gauss.ts';
import type { Solution } from '../../solvers/system.ts';
import { lookAt } from '../trail/forward.ts';
import type { Wheels } from '../trail/forward.ts';
import { TrailPoint } from '../trail/trail.ts';
import { drawnAt } from './consumers.ts';
import type { FreeEnd } from './falling-behind.ts';
import type { Machine } from './free-drive.ts';
import { continuousPower, warmUp } from './instant.ts';
import { drivePack } from './interval-step.ts';
import type { Journey } from './journey.ts';
import type { KeptStretch } from './kept-stretch.ts';
import { SAG, voltageUnder } from './keeps.ts';
import { keepPoint, part, pointKept, TRAIL_WIDTH } from './memory.ts';
import type { StepMemory } from './memory.ts';

/** Columns of a piece: s, W of the drives at its two points, W of heat of the units at both, what its points leave on a trail. */
const P = { seconds: 0, first: 1, second: 2, heatFront: 3, heatRear: 5, trail: 7 } as const;
const PIECE = P.trail + 2 * TRAIL_WIDTH;

/** s of a piece at most, and of one along which the power goes straight, but for such a share of it: two points of it say all then. Common practice, no source. */
const LONGEST = 0.25;
const LONGEST_STRAIGHT = 1;
const BEND = 1e-5;

/** Stretches of an interval that are remembered at most: of a car that comes to it at another speed each time none is of use. */
const MOST = 6;

/** Of the charge: this close to its low end nothing is remembered. */
const NEAR = 1e-6;

/** Limits that neither the state of the pack nor any heat moves. */
const OWN: ReadonlySet<number> = new Set([L.torque, L.power, L.speed, L.shaft, L.pedal, L.split]);

/** Where a stretch begins: how it came there is of no account. */
export class Entry {
  s0 = Number.NaN;
  speed = Number.NaN;
  mode = 0;
  gear = 0;
  shifts = 0;
  late = Number.NaN;
  lost = Number.NaN;
  distance = Number.NaN;
  synchronised = Number.NaN;
  readonly sums = new Powers();
  /** Nothing that passes is under way: a change of gear, an excursion below the low end. */
  plain = false;
}

/** Notes where a stretch begins, as the car is. */
export function noteEntry(car: Journey, entry: Entry): void {
  entry.s0 = car.interval.s0;
  entry.speed = car.speed;
  entry.mode = car.mode;
  entry.gear = car.gear;
  entry.shifts = car.totals.shifts;
  entry.late = car.totals.late;
  entry.lost = car.totals.lost;
  entry.distance = car.distance;
  entry.synchronised = car.totals.synchronised;
  copyPowers(car.sums, entry.sums);
  entry.plain = !(car.breakLeft > 0) && car.below === null && !car.short;
}

const none: Wheels = { front: 0, rear: 0 };

/** Keeps the stretch that the car has just driven, where nothing but the road and its drives had a say in it. */
export function keepStretch(
  car: Journey,
  memory: StepMemory,
  entry: Entry,
  machine: Machine,
  end: FreeEnd,
  settled: number,
): void {
  const kept = memory.stretches.get(memory.index) ?? [];
  const { driven, outcome, at, gear } = end;
  if (driven === undefined || !entry.plain || kept.length >= MOST || car.breakLeft > 0 || !(at > entry.s0)) return;
  if (outcome !== 'interval over' && outcome !== 'caught up' && outcome !== 'too fast') return;
  if (gear !== entry.gear || car.totals.shifts !== entry.shifts || !isOwn(driven.solution, driven.from, driven.to))
    return;
  const found = piecesOf(car, memory, machine, driven.solution, driven.from, driven.to);
  if (found === null) return;
  const sums = new Powers();
  copyPowers(car.sums, sums);
  addPowers(sums, entry.sums, -1);
  memory.stretches.set(memory.index, [
    ...kept,
    {
      s0: entry.s0,
      speed: entry.speed,
      mode: entry.mode,
      gear,
      outcome,
      at,
      last: car.speed,
      lastMode: car.mode,
      distance: car.distance - entry.distance,
      settled,
      late: car.totals.late - entry.late,
      lost: car.totals.lost - entry.lost,
      sums,
      ...found,
    },
  ]);
}

/** Whether neither pack nor heat limits a stretch of a solution. */
function isOwn({ nodes, times, modes }: Solution, from: number, to: number): boolean {
  for (let k = 0; k + 1 < nodes; k++) {
    if (nth(times, k) >= to || nth(times, k + 1) <= from) continue;
    if (!isOwnMode(nth(modes, k))) return false;
  }
  return true;
}

function isOwnMode(mode: number): boolean {
  if ((mode & (BREAK | SPENDS | SPENT)) !== 0) return false;
  return isOwnLimit(axleMode(mode, 0)) && isOwnLimit(axleMode(mode, 1));
}

function isOwnLimit(bits: number): boolean {
  return bits === 0 || OWN.has(bits & LIMIT_BITS);
}

/** Whether a stretch in a mode is worth to be remembered. */
export function isKept({ plant: { moving } }: Machine, mode: number): boolean {
  return isOwnMode(mode) && !isTabled(moving.front) && !isTabled(moving.rear);
}

function isTabled({ driven, tabled }: AxleFigures): boolean {
  return driven && tabled;
}

const points = [new TrailPoint(), new TrailPoint()] as const;

/** The pieces of a stretch of a solution; null of a car whose torque a table gives: its voltage moves that in another way. */
function piecesOf(
  car: Journey,
  memory: StepMemory,
  { plant: own }: Machine,
  solution: Solution,
  from: number,
  to: number,
): Pick<KeptStretch, 'most' | 'volts' | 'heatFront' | 'heatRear' | 'pieces'> | null {
  const { front, rear, pack, charge, soaked } = own.moving;
  if (isTabled(front) || isTabled(rear)) return null;
  if (memory.plant === null || !sameShape(memory.plant.shape, own.shape)) memory.plant = createPlant(own.shape);
  const { plant } = memory;
  // Apart from the one that drives: what is asked of that one must not hang on who else looks.
  plant.load({
    shape: own.shape,
    car: Object.assign(new CarFigures(), own.moving.car),
    pack,
    front,
    rear,
    charge,
    soaked,
  });
  const wheels = car.track?.wheels ?? none;
  const row = new Float64Array(plant.states + plant.quadratures);
  const y = new Float64Array(plant.states + 1);
  const pieces: number[] = [];
  let [most, volts, heatFront, heatRear] = [0, 0, 0, 0];
  const look = (time: number, mode: number, point: TrailPoint): number => {
    solution.at(time, row);
    y.set(row.subarray(0, plant.states));
    y[plant.states] = time;
    plant.rates(mode, y, row);
    lookAt(plant, wheels, nth(y, SPEED), point);
    point.front *= point.voltage;
    point.rear *= point.voltage;
    volts = Math.max(volts, voltsFor(front, plant.atFront), voltsFor(rear, plant.atRear));
    return (point.pack - point.consumers) * point.voltage;
  };
  for (let k = 0; k + 1 < solution.nodes; k++) {
    const start = Math.max(from, nth(solution.times, k));
    const whole = Math.min(to, nth(solution.times, k + 1)) - start;
    if (!(whole > 0)) continue;
    const mode = nth(solution.modes, k);
    const at = (share: number): number => look(start + share * whole, mode, points[0]);
    const [early, middle, late] = [at(FIRST), at(0.5), at(SECOND)];
    const straight = Math.abs(early + late - 2 * middle) <= BEND * Math.abs(late);
    const count = Math.ceil(whole / (straight ? LONGEST_STRAIGHT : LONGEST));
    const h = whole / count;
    for (let i = 0; i < count; i++) {
      const o = pieces.length;
      const first = look(start + (i + FIRST) * h, mode, points[0]);
      const [a, b] = [heatOf(front, plant.atFront), heatOf(rear, plant.atRear)];
      const second = look(start + (i + SECOND) * h, mode, points[1]);
      const [c, d] = [heatOf(front, plant.atFront), heatOf(rear, plant.atRear)];
      pieces.push(h, first, second, a, c, b, d);
      heatFront += 0.5 * h * (a + c);
      heatRear += 0.5 * h * (b + d);
      keepPoint(pieces, o + P.trail, points[0]);
      keepPoint(pieces, o + P.trail + TRAIL_WIDTH, points[1]);
      most = Math.max(most, first, second);
    }
  }
  return { most, volts, heatFront, heatRear, pieces: Float64Array.from(pieces) };
}

function heatOf({ driven }: AxleFigures, { heat }: AxleNow): number {
  return driven ? heat : 0;
}

/** Drives the stretch that begins here as it is remembered; null, with nothing changed, where it has to be driven. */
export function rememberedStretch(car: Journey, memory: StepMemory, entry: Entry): FreeEnd | null {
  if (!entry.plain) return null;
  const kept = stretchFrom(memory.stretches.get(memory.index) ?? NONE, entry);
  if (kept === null || !isFree(car, kept)) return null;
  const { totals, sums, interval, consumers, following: f } = car;
  const { pieces } = kept;
  let from = interval.heaterFrom + kept.s0;
  for (let o = 0; o < pieces.length; o += PIECE) {
    const h = part(pieces, o);
    const drawn1 = drawnAt(consumers, from + FIRST * h);
    const drawn2 = drawnAt(consumers, from + SECOND * h);
    from += h;
    const first = part(pieces, o + P.first) + drawn1;
    const second = part(pieces, o + P.second) + drawn2;
    if (car.track !== null) {
      const { first: a, second: b } = car.track.trail;
      pointKept(pieces, o + P.trail, a);
      pointKept(pieces, o + P.trail + TRAIL_WIDTH, b);
      a.pack = first;
      a.consumers = drawn1;
      b.pack = second;
      b.consumers = drawn2;
    }
    f.pack.first = first;
    f.pack.second = second;
    f.pack.span = h;
    drivePack(car);
    sums.power += 0.5 * h * (first + second);
    sums.auxiliaries += 0.5 * h * (drawn1 + drawn2);
    if (car.warms) {
      warmUp(car, f.front, part(pieces, o + P.heatFront), part(pieces, o + P.heatFront + 1), h);
      warmUp(car, f.rear, part(pieces, o + P.heatRear), part(pieces, o + P.heatRear + 1), h);
    }
  }
  // One by one: a key that is not known beforehand costs more than a sum.
  sums.unitHeat += kept.sums.unitHeat;
  sums.gearHeat += kept.sums.gearHeat;
  sums.spinUp += kept.sums.spinUp;
  sums.slip += kept.sums.slip;
  sums.rolling += kept.sums.rolling;
  sums.drag += kept.sums.drag;
  sums.grade += kept.sums.grade;
  car.speed = kept.last;
  car.mode = kept.lastMode;
  car.distance += kept.distance;
  totals.late += kept.late;
  totals.lost += kept.lost;
  totals.stretches++;
  totals.beyond += kept.at - kept.s0;
  return { outcome: kept.outcome, reason: '', at: kept.at, stretches: [], gear: kept.gear, kept };
}

const NONE: readonly KeptStretch[] = [];

function stretchFrom(kept: readonly KeptStretch[], { s0, speed, mode, gear }: Entry): KeptStretch | null {
  for (const each of kept) {
    if (each.s0 === s0 && each.speed === speed && each.mode === mode && each.gear === gear) return each;
  }
  return null;
}

/** Whether the pack, as it is, leaves the car as free as it was. */
function isFree(car: Journey, { most, volts, heatFront, heatRear, s0, at }: KeptStretch): boolean {
  const { following: f, consumers, interval, low } = car;
  const { pack, moving, front, rear } = f;
  const power = most + drawnAt(consumers, interval.heaterFrom + s0);
  if (!isEasyForPack(f, power) || isHot(front, heatFront) || isHot(rear, heatRear)) return false;
  if (SAG * voltageUnder(pack, power) < volts) return false;
  if (moving.pack.pulses && !(pack.spent === 0 && power < SAG * continuousPower(car))) return false;
  return pack.charge - (2 * power * (at - s0)) / (pack.emf * moving.pack.capacity) > low + NEAR;
}
