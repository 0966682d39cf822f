/**
 * What the steps of a schedule ask of a car, remembered while it is driven over and over until the pack is empty. What the road
 * takes is the same each time, to the last bit; only the pack is another. A step is taken from memory where the pack, as it is by
 * then, leaves the car as free as when the step was remembered: by the same tests as when it is driven (`remembered-step.ts`).
 */
import { nth } from '../../columns.ts';
import type { Schedule } from '../../cycles/schedule.ts';
import type { FollowParameters } from '../../model/backward/load.ts';
import type { Plant } from '../../model/forward/plant.ts';
import { lowestVoltage } from '../../model/pack/state.ts';
import type { TrailPoint } from '../trail/trail.ts';
import type { Journey } from './journey.ts';
import type { KeptStretch } from './kept-stretch.ts';

/**
 * Columns of a step; those that are read each time come first. Powers are those at its two points, consumers left out; energies are J of
 * it and of all rows before it.
 */
export const M = {
  from: 0, // s in the interval
  to: 1,
  gear: 2,
  held: 3, // m/s that the car is held at, 0 where it follows
  drives: 4, // 1: the drives push, 0: they brake or do nothing, 2: they brake, and the pack takes nothing
  lowest: 5, // V of the pack, at which the drives were far from their limits; the negative of V under load that they take where they were not
  consumers: 6, // W
  first: 7,
  second: 8,
  heatFront: 9, // W of a drive unit at the two points
  heatRear: 11,
  late: 13, // s that it is late, and that it loses, where it is held; not a number until it is asked for
  lost: 14,
  unitHeat: 15,
  gearHeat: 16,
  spinUp: 17,
  slip: 18,
  rolling: 19,
  drag: 20,
  grade: 21,
  brakes: 22,
  trail: 23, // what the two points leave on a trail
} as const;

/** Numbers of a point of a trail: what the road alone decides. W of the drives in place of their currents. */
export const TRAIL_WIDTH = 6;
export const COLUMNS = M.trail + 2 * TRAIL_WIDTH;

/** Steps that are remembered at most, and how often an interval is: its first time may have been at a full pack. */
const MOST_STEPS = 100_000;
const MOST_TRIES = 4;

/** Of the voltage at which a step was remembered: limits that were far are not much nearer. */
export const SAME_VOLTAGE = 0.9;

/** The steps of one schedule with one load. */
export class StepMemory {
  readonly schedule: Schedule;
  readonly parameters: FollowParameters | null;
  readonly pieces: number;
  /** Of an interval: its first row, how many there are, and how often it was remembered. */
  readonly first: Int32Array;
  readonly count: Int32Array;
  readonly tries: Uint8Array;
  /** The first is that of no step: before it nothing was taken. */
  rows = 1;
  data: Float64Array;
  /** Of the present interval: its index, the next row, the row after its last; rows are being added. */
  index = 0;
  row = 0;
  end = 0;
  adds = false;
  /** Of each interval and gear: W out of the pack in its middle, consumers left out, and V at which the drives were far from their limits. */
  gears: Float64Array | null = null;
  /** What the car does at full pedal behind it, by its intervals, and what looks at that. */
  readonly stretches = new Map<number, readonly KeptStretch[]>();
  plant: Plant | null = null;

  constructor(schedule: Schedule, parameters: FollowParameters | null, pieces: number, data: Float64Array) {
    this.data = data.fill(0, 0, COLUMNS);
    this.schedule = schedule;
    this.parameters = parameters;
    this.pieces = pieces;
    const intervals = schedule.time.length - 1;
    this.first = new Int32Array(intervals);
    this.count = new Int32Array(intervals);
    this.tries = new Uint8Array(intervals);
  }
}

/** What is remembered of a schedule. @param pieces steps a second. */
export function memoryOf(car: Journey, schedule: Schedule, pieces: number): StepMemory {
  const { memories, spare, parameters } = car;
  const found = memories.find(
    each => each.schedule === schedule && each.parameters === parameters && each.pieces === pieces,
  );
  if (found !== undefined) return found;
  const made = new StepMemory(schedule, parameters, pieces, spare.pop() ?? new Float64Array(1024 * COLUMNS));
  memories.push(made);
  return made;
}

/** Another car comes: its steps are written where those of this one stood, as so large a table costs more to get than to fill. */
export function forgetSteps({ memories, spare }: Journey): void {
  for (const { data } of memories) spare.push(data);
  memories.length = 0;
}

/** An interval begins. */
export function recall(memory: StepMemory, index: number): void {
  memory.index = index;
  memory.row = nth(memory.first, index);
  memory.end = memory.row + nth(memory.count, index);
  memory.adds = false;
}

/** Keeps the step at hand, the powers of its two points in `pending` and `powers`; nothing but the road has had a say in it. */
export function keepStep(car: Journey, memory: StepMemory, takesNothing: boolean): void {
  const { interval, following: f, pending: a } = car;
  const { powers: b, front, rear } = f;
  if (car.short || memory.rows >= MOST_STEPS) return;
  if (!memory.adds && !begins(memory)) return;
  if ((memory.rows + 1) * COLUMNS > memory.data.length) {
    const more = new Float64Array(2 * memory.data.length);
    more.set(memory.data);
    memory.data = more;
  }
  const { data } = memory;
  const o = memory.rows * COLUMNS;
  const before = o - COLUMNS;
  const h = interval.s1 - interval.s0;
  data[o + M.from] = interval.s0;
  data[o + M.to] = interval.s1;
  data[o + M.gear] = car.gear;
  data[o + M.held] = car.held;
  data[o + M.late] = Number.NaN;
  data[o + M.drives] = takesNothing ? 2 : f.force > 0 ? 1 : 0;
  data[o + M.lowest] = f.volts > 0 ? -f.volts : lowestVoltage(f.moving.pack, f.pack);
  data[o + M.consumers] = a.auxiliaries;
  data[o + M.first] = a.power - a.auxiliaries;
  data[o + M.second] = b.power - b.auxiliaries;
  data[o + M.unitHeat] = part(data, before + M.unitHeat) + 0.5 * h * (a.unitHeat + b.unitHeat);
  data[o + M.gearHeat] = part(data, before + M.gearHeat) + 0.5 * h * (a.gearHeat + b.gearHeat);
  data[o + M.spinUp] = part(data, before + M.spinUp) + 0.5 * h * (a.spinUp + b.spinUp);
  data[o + M.slip] = part(data, before + M.slip) + 0.5 * h * (a.slip + b.slip);
  data[o + M.rolling] = part(data, before + M.rolling) + 0.5 * h * (a.rolling + b.rolling);
  data[o + M.drag] = part(data, before + M.drag) + 0.5 * h * (a.drag + b.drag);
  data[o + M.grade] = part(data, before + M.grade) + 0.5 * h * (a.grade + b.grade);
  data[o + M.brakes] = part(data, before + M.brakes) + 0.5 * h * (a.brakes + b.brakes);
  data[o + M.heatFront] = front.axle.driven ? car.front.heat : 0;
  data[o + M.heatFront + 1] = front.axle.driven ? front.at.heat : 0;
  data[o + M.heatRear] = rear.axle.driven ? car.rear.heat : 0;
  data[o + M.heatRear + 1] = rear.axle.driven ? rear.at.heat : 0;
  if (car.track !== null) {
    const { first, second } = car.track.trail;
    keepPoint(data, o + M.trail, first);
    keepPoint(data, o + M.trail + TRAIL_WIDTH, second);
  }
  memory.rows++;
  memory.count[memory.index] = nth(memory.count, memory.index) + 1;
}

export function keepPoint(data: Float64Array | number[], place: number, point: TrailPoint): void {
  data[place] = point.front;
  data[place + 1] = point.rear;
  data[place + 2] = point.frontTorque;
  data[place + 3] = point.rearTorque;
  data[place + 4] = point.speed;
  data[place + 5] = point.heat;
}

/** A point of a trail as it was kept, but for what the pack gives. @param place of the first of its columns. */
export function pointKept(data: Float64Array, place: number, point: TrailPoint): void {
  point.front = part(data, place);
  point.rear = part(data, place + 1);
  point.frontTorque = part(data, place + 2);
  point.rearTorque = part(data, place + 3);
  point.speed = part(data, place + 4);
  point.heat = part(data, place + 5);
  point.wall = 0;
}

/** The first step of an interval that is kept anew. */
function begins(memory: StepMemory): boolean {
  const { index, tries } = memory;
  const tried = nth(tries, index);
  if (tried >= MOST_TRIES) return false;
  tries[index] = tried + 1;
  memory.first[index] = memory.rows;
  memory.count[index] = 0;
  memory.adds = true;
  return true;
}

/** Keeps what the present interval takes in a gear. @param volts 0 where the drives do not push. */
export function keepGear(memory: StepMemory, gear: number, gears: number, power: number, volts: number): void {
  memory.gears ??= new Float64Array(2 * gears * memory.first.length).fill(Number.NaN);
  const place = 2 * (gears * memory.index + gear);
  memory.gears[place] = power;
  memory.gears[place + 1] = volts;
}

/** W; not a number where it is not known, Infinity where the car can not do in that gear what is asked, whatever its pack. */
export function gearKept({ gears: kept, index }: StepMemory, gear: number, gears: number): number {
  return kept === null ? Number.NaN : part(kept, 2 * (gears * index + gear));
}

export function gearVoltage({ gears: kept, index }: StepMemory, gear: number, gears: number): number {
  return kept === null ? Number.NaN : part(kept, 2 * (gears * index + gear) + 1);
}

/** Places are right here by construction. */
export function part(data: Float64Array, place: number): number {
  return data[place] ?? Number.NaN;
}
