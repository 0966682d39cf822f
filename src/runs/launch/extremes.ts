/**
 * Extremes of what a launch does. Where the ends of steps lie is for the step control, so an extreme told at them alone jumps by what lies
 * between: where two steps meet at one of the greatest values it is looked for along the steps themselves, and where a limit gives way to
 * another one on both sides of that instant.
 */
import { nth } from '../../columns.ts';
import { AXLE_LOOK, AXLE_LOOKS, LOOK } from '../../model/forward/by-products.ts';
import { GEARED, SPEED, SPENDS, SPENT } from '../../model/forward/state.ts';
import type { AxleFigures } from '../../model/forward/figures.ts';
import type { AxleNow } from '../../model/forward/instant.ts';
import type { Plant } from '../../model/forward/plant.ts';
import type { Solution } from '../../solvers/system.ts';
import type { LaunchRun } from './run.ts';

/** A figure of an instant: one of the numbers that are kept of it times a factor; and so much of another one, or that times it. */
export class Figure {
  readonly place: number;
  readonly factor: number;
  /** -1: there is none. */
  readonly other: number;
  readonly share: number;
  readonly times: boolean;

  constructor(place: number, { factor = 1, other = -1, share = 1, times = false } = {}) {
    this.place = place;
    this.factor = factor;
    this.other = other;
    this.share = share;
    this.times = times;
  }
}

/** @param from place of the instant in `looks`. */
function valueOf({ place, factor, other, share, times }: Figure, looks: Float64Array, from: number): number {
  const value = factor * part(looks, from + place);
  if (other < 0) return value;
  return times ? value * part(looks, from + other) : value + share * part(looks, from + other);
}

/** Places are right here by construction, and these are read for every node and figure. */
function part(column: Float64Array, place: number): number {
  return column[place] ?? Number.NaN;
}

/** Of the greatest value: an end of a step that is further below it has no greater one beside it. */
const NEARLY = 0.02;
/** Of the greatest value: what differs by less is level. */
const LEVEL = 1e-9;
/** Of the greatest value: what round-off makes. */
const NOTHING = 1e-12;
/** Of a step: so close to its end it is looked whether the way goes up from there, and so closely an extreme is found. */
const BESIDE = 1e-3;
const CLOSE = 1e-5;
/** Of the greatest value: what a parabola promises beyond it is not looked for. */
const ENOUGH = 1e-10;
const MOST_LOOKS = 20;
/** Golden section: 1 - 0.618. */
const GOLDEN = 0.382;

/** Places of what is kept of a step: next to its start, next to its end, and its end in its own mode. */
const AT_START = 0;
const AT_LAST = 1;
const AT_END = 2;
const KEPT = 3;
/** Not looked at yet. */
const UNKNOWN = -1;

/** A run that can be looked at between its steps, in memory that all runs of a plant use one after the other. */
export class Closely {
  run: LaunchRun;
  /** Numbers that are kept of an instant. */
  width = 0;
  private readonly rates: Float64Array;
  private readonly y: Float64Array;
  private readonly seen: Float64Array;
  /** A figure at both ends of every step: memory for `greatestAlong`. */
  ends = new Float64Array(0);
  /** Steps at whose end more than the slopes change. */
  readonly changes: number[] = [];
  /** Where what was found stands in `rows`, `KEPT` places for each step. */
  private places = new Int32Array(0);
  rows: Float64Array;
  private kept = 0;

  constructor(run: LaunchRun) {
    const { plant, solution } = run;
    const width = plant.looks ?? 0;
    this.run = run;
    this.width = width;
    this.rates = new Float64Array(plant.states + plant.quadratures);
    this.y = new Float64Array(plant.states + 1);
    this.seen = new Float64Array(width);
    this.rows = new Float64Array(16 * width);
    this.open(run, solution);
  }

  /** Takes another run of the same plant. */
  open(run: LaunchRun, { nodes, modes, times }: Solution): void {
    this.run = run;
    if (this.ends.length < 2 * nodes) {
      this.ends = new Float64Array(4 * nodes);
      this.places = new Int32Array(2 * nodes * KEPT);
    }
    this.places.fill(UNKNOWN, 0, nodes * KEPT);
    this.kept = 0;
    this.changes.length = 0;
    for (let step = 0; step + 1 < nodes; step++)
      if (jumps(nth(modes, step), nth(modes, step + 1)) && nth(times, step + 1) > nth(times, step))
        this.changes.push(step);
  }

  /** The instant at a share of a step; good until the next call. What is found does not hang on what the plant was asked last. */
  at(step: number, share: number): Float64Array {
    const { plant, solution } = this.run;
    const { times, modes } = solution;
    const { y } = this;
    const time = nth(times, step) + share * (nth(times, step + 1) - nth(times, step));
    solution.at(time, y);
    y[plant.states] = time;
    plant.forget();
    this.settle(share > 0.5 && !jumps(nth(modes, step), nth(modes, step + 1)) ? step + 1 : step);
    plant.rates(nth(modes, step), y, this.rates);
    plant.look?.(this.seen, 0);
    return this.seen;
  }

  /** Slips are looked for from those at an end of a step: a torque may balance at two of them. */
  private settle(node: number): void {
    const { plant, solution } = this.run;
    const { looks } = solution;
    const { moving } = plant;
    const place = node * this.width;
    moving.now.lost = false;
    moving.now.acceleration = part(looks, place + LOOK.acceleration);
    moving.atFront.load = part(looks, place + LOOK.loadFront);
    moving.atRear.load = part(looks, place + LOOK.loadRear);
    const speed = part(this.y, SPEED);
    const slips = place + LOOK.axles + AXLE_LOOK.slip;
    if (moving.front.driven) begin(moving.front, moving.atFront, part(looks, slips), speed);
    if (!moving.rear.driven) return;
    begin(moving.rear, moving.atRear, part(looks, slips + (moving.front.driven ? AXLE_LOOKS : 0)), speed);
  }

  /** The same next to an end of a step, where more than one figure is looked at. @param last whether to its last end. */
  beside(step: number, last: boolean, of: Figure): number {
    return last ? this.keptAt(step, AT_LAST, 1 - BESIDE, of) : this.keptAt(step, AT_START, BESIDE, of);
  }

  /** A figure at the end of a step, in the mode of that step. */
  atEnd(step: number, of: Figure): number {
    return this.keptAt(step, AT_END, 1, of);
  }

  private keptAt(step: number, which: number, share: number, of: Figure): number {
    const place = step * KEPT + which;
    let row = nth(this.places, place);
    if (row === UNKNOWN) {
      row = this.kept;
      this.kept += this.width;
      if (this.kept > this.rows.length) {
        const rows = new Float64Array(2 * this.kept);
        rows.set(this.rows);
        this.rows = rows;
      }
      const seen = this.at(step, share);
      for (let i = 0; i < seen.length; i++) this.rows[row + i] = part(seen, i);
      this.places[place] = row;
    }
    return valueOf(of, this.rows, row);
  }
}

/** The memory of each plant. */
const KEEPERS = new WeakMap<Plant, Closely>();

/** Looks at a run; what was found of the last run of the same plant is gone. */
export function closely(run: LaunchRun): Closely {
  const found = KEEPERS.get(run.plant);
  if (found !== undefined) {
    found.open(run, run.solution);
    return found;
  }
  const close = new Closely(run);
  KEEPERS.set(run.plant, close);
  return close;
}

function begin({ slipAtPeak }: AxleFigures, at: AxleNow, slip: number, speed: number): void {
  if (slipAtPeak === 0) return;
  at.stretch = slip / slipAtPeak;
  at.stretchSpeed = speed;
}

/** Whether figures may jump between two modes: one limit gives way to another where the two are equal, a gear and a spent budget do not. */
function jumps(from: number, to: number): boolean {
  return ((from ^ to) & (GEARED | SPENDS | SPENT)) !== 0;
}

/** The greatest value of a figure along a run. What is no number shows. */
export function greatestAlong(close: Closely, of: Figure): number {
  const { times, nodes, modes } = close.run.solution;
  const { ends, changes } = close;
  if (nodes === 0) return -Infinity;
  let most = readEnds(close, of);
  for (let k = 0; k < changes.length; k++) {
    const step = nth(changes, k);
    const value = close.atEnd(step, of);
    ends[endOf(step)] = value;
    most = Math.max(most, value);
  }
  const size = Math.abs(most);
  const near = most - NEARLY * size;
  let found = most;
  for (let step = 0; step < nodes - 1; step++) {
    const a = part(ends, startOf(step));
    const b = part(ends, endOf(step));
    if (!(a > near || b > near) || !(Math.abs(a - b) > LEVEL * size)) continue;
    if (part(times, step + 1) === part(times, step)) continue;
    const rises = b > a;
    // Where the step beside it goes on upwards this one holds no extreme.
    const beside = rises ? step + 1 : step - 1;
    const smooth = beside >= 0 && beside < nodes - 1 && goesOn(close.run.plant, nth(modes, beside), nth(modes, step));
    if (smooth && (rises ? part(ends, endOf(beside)) >= b : part(ends, startOf(beside)) >= a)) continue;
    const value = close.beside(step, rises, of);
    if (!(value > Math.max(a, b) + NOTHING * size)) continue;
    found = Math.max(found, climb(close, step, of, rises ? 1 - BESIDE : BESIDE, [a, value, b]));
  }
  return found;
}

/** Where in `ends` a figure at the start of a step stands, and at its end: each node is the end of one and the start of the next. */
function startOf(step: number): number {
  return 2 * step + 1;
}

function endOf(step: number): number {
  return 2 * step + 2;
}

/** Reads a figure at all nodes: the greatest of them, NaN where one is no number. */
function readEnds({ run, width, ends }: Closely, { place, factor, other, share, times }: Figure): number {
  const { looks, nodes } = run.solution;
  let most = -Infinity;
  for (let node = 0, row = 0; node < nodes; node++, row += width) {
    let value = factor * part(looks, row + place);
    if (other >= 0) value = times ? value * part(looks, row + other) : value + share * part(looks, row + other);
    ends[2 * node] = ends[2 * node + 1] = value;
    if (!(value <= most)) most = Number.isNaN(most) ? most : value;
  }
  return most;
}

/** Whether the car moves on from one step to the next as if nothing had changed. */
function goesOn(plant: Plant, mode: number, other: number): boolean {
  return mode === other || plant.alike?.(mode, other) === true;
}

/**
 * Up from a place in a step that lies above both of its ends: by parabolas, within a bracket, as long as their ways become shorter (Brent,
 * Algorithms for Minimization without Derivatives, 1973, chapter 5). @param values at start, place and end.
 */
function climb(
  close: Closely,
  step: number,
  of: Figure,
  place: number,
  values: readonly [number, number, number],
): number {
  let low = 0;
  let middle = place;
  let high = 1;
  let [atLow, most, atHigh] = values;
  let stride = 1;
  let before = 1;
  for (let look = 0; look < MOST_LOOKS; look++) {
    const left = (middle - low) * (most - atHigh);
    const right = (high - middle) * (most - atLow);
    const way = (0.5 * (right * (high - middle) - left * (middle - low))) / (left + right);
    const bend = (left + right) / ((middle - low) * (high - middle) * (high - low));
    if (Math.abs(way) < CLOSE || bend * way * way < ENOUGH * Math.abs(most)) break;
    let next = middle + way;
    if (!(next > low && next < high) || Math.abs(way) > 0.5 * before) {
      next = middle - low > high - middle ? middle - GOLDEN * (middle - low) : middle + GOLDEN * (high - middle);
    }
    before = stride;
    stride = Math.abs(next - middle);
    const value = valueOf(of, close.at(step, next), 0);
    const better = value > most;
    if (next < middle === better) {
      high = better ? middle : next;
      atHigh = better ? most : value;
    } else {
      low = better ? middle : next;
      atLow = better ? most : value;
    }
    if (!better) continue;
    middle = next;
    most = value;
  }
  return most;
}
