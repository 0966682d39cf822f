/**
 * What flows and turns all along a run, for what its parts must stand: at the two Gauss-Legendre points of each piece of it, so that
 * integrals of currents and of their squares are of the order of the run itself (`model/duty/track.ts`).
 */
import { extremesOf, trackThrough, valueAt } from '../../model/duty/track.ts';
import type { Track } from '../../model/duty/track.ts';
import { FIRST, SECOND } from '../../solvers/gauss.ts';

/** An instant of a run. Its numbers are doubles from the first, as everywhere in the hot path. */
export class TrailPoint {
  /** A out of the pack, negative into it. */
  pack = Number.NaN;
  /** V at its terminals. */
  voltage = Number.NaN;
  /** A into the inverters of the two axles, negative out of them. */
  front = Number.NaN;
  rear = Number.NaN;
  /** A that all else takes: lights, pumps, heating, what a charger's own pumps need. */
  consumers = Number.NaN;
  /** N m on both half shafts of an axle together, negative where the wheels turn them. */
  frontTorque = Number.NaN;
  rearTorque = Number.NaN;
  /** m/s. */
  speed = Number.NaN;
  /** W lost in drive units, inverters among them: what coolant takes away. */
  heat = Number.NaN;
  /** W from the wall through the chargers on board. */
  wall = Number.NaN;
}

export type TrailKey = keyof TrailPoint;

const KEYS = [
  'pack',
  'voltage',
  'front',
  'rear',
  'consumers',
  'frontTorque',
  'rearTorque',
  'speed',
  'heat',
  'wall',
] as const satisfies readonly TrailKey[];
const WIDTH = 1 + 2 * KEYS.length;

/** Pieces in a row whose greatest torques are known more closely than straight lines through two points of each tell them. */
interface Closer {
  readonly from: number;
  readonly to: number;
  /** N m on both half shafts of an axle together. */
  readonly front: number;
  readonly rear: number;
}
const CLOSER_WIDTH = 4;

/** It grows while a car is driven, and its points are the memory of the piece at hand. */
export class Trail {
  pieces = 0;
  readonly first = new TrailPoint();
  readonly second = new TrailPoint();
  data: Float64Array = new Float64Array(WIDTH * 256);
  /** What was asked of it since it last grew: the same currents are looked at in many ways. */
  private readonly tracks = new Map<TrailKey, Track>();
  private closer: readonly Closer[] = [];

  /** A piece of so many seconds between the two points. */
  add(seconds: number): void {
    if (!(seconds > 0)) return;
    if (this.tracks.size > 0) this.tracks.clear();
    if ((this.pieces + 1) * WIDTH > this.data.length) {
      const more = new Float64Array(2 * this.data.length);
      more.set(this.data);
      this.data = more;
    }
    const { data, first, second } = this;
    const o = this.pieces * WIDTH;
    data[o] = seconds;
    put(data, o + 1, first);
    put(data, o + 1 + KEYS.length, second);
    this.pieces++;
  }

  /**
   * The pieces from one instant to a later one, none of them longer than `longest` s.
   * @param look fills a point with what flows and turns at a time in s.
   */
  addBetween(start: number, end: number, longest: number, look: (time: number, point: TrailPoint) => void): void {
    const parts = Math.ceil((end - start) / longest);
    const h = (end - start) / parts;
    for (let i = 0; i < parts; i++) {
      look(start + (i + FIRST) * h, this.first);
      look(start + (i + SECOND) * h, this.second);
      this.add(h);
    }
  }

  /** Seconds in which nothing flows and nothing turns. @param voltage V of the pack at rest. */
  rest(seconds: number, voltage: number): void {
    for (const point of [this.first, this.second]) {
      clear(point);
      point.voltage = voltage;
    }
    this.add(seconds);
  }

  /** Takes pieces back: so many are left. */
  truncate(pieces: number): void {
    this.pieces = Math.min(this.pieces, pieces);
    this.tracks.clear();
    if (this.closer.length > 0) this.closer = this.closer.filter(({ to }) => to <= pieces);
  }

  /** Says of the pieces from one on that these are their greatest torques, in N m on both half shafts of an axle together. */
  knowGreatest(from: number, { front, rear }: { readonly front: number; readonly rear: number }): void {
    this.closer = [...this.closer, { from, to: this.pieces, front, rear }];
  }

  /** N m, the greatest and the least on both half shafts of an axle together. */
  torques(axle: 'front' | 'rear'): { readonly greatest: number; readonly least: number } {
    const { length, from, to } = this.track(axle === 'front' ? 'frontTorque' : 'rearTorque');
    const { greatest: ofAll, least } = extremesOf({ length, from, to });
    if (this.closer.length === 0) return { greatest: ofAll, least };
    const greatest = this.closer.map(each => each[axle]);
    let next = 0;
    for (const each of [...this.closer, { from: from.length, to: from.length }]) {
      const [a, b] = [from.subarray(next, each.from), to.subarray(next, each.from)];
      greatest.push(extremesOf({ length: length.subarray(next, each.from), from: a, to: b }).greatest);
      next = each.to;
    }
    return { greatest: Math.max(...greatest), least };
  }

  /** s of each piece. */
  lengths(): Float64Array {
    return this.column(0);
  }

  /** All of it as numbers, to be made anew by `Trail.of`. */
  saved(): Float64Array {
    const closer = this.closer.flatMap(({ from, to, front, rear }) => [from, to, front, rear]);
    const pieces = this.pieces * WIDTH;
    const saved = new Float64Array(pieces + closer.length + 1);
    saved.set(this.data.subarray(0, pieces));
    saved.set(closer, pieces);
    saved[saved.length - 1] = this.pieces;
    return saved;
  }

  static of(saved: Float64Array): Trail {
    const trail = new Trail();
    trail.pieces = valueAt(saved, saved.length - 1);
    trail.data = saved.subarray(0, trail.pieces * WIDTH);
    const closer: Closer[] = [];
    for (let o = trail.data.length; o + CLOSER_WIDTH < saved.length; o += CLOSER_WIDTH) {
      const [from, to, front, rear] = [0, 1, 2, 3].map(k => valueAt(saved, o + k)) as [number, number, number, number];
      closer.push({ from, to, front, rear });
    }
    trail.closer = closer;
    return trail;
  }

  /** What of it a key says, as a track. */
  track(key: TrailKey): Track {
    const found = this.tracks.get(key);
    if (found !== undefined) return found;
    const place = KEYS.findIndex(each => each === key);
    const [known] = this.tracks.values();
    const length = known?.length ?? this.lengths();
    const made = trackThrough(length, this.column(1 + place), this.column(1 + KEYS.length + place));
    this.tracks.set(key, made);
    return made;
  }

  /** No part of what is written down: a drive of an hour is a megabyte. */
  toJSON(): undefined {
    return undefined;
  }

  private column(place: number): Float64Array {
    const column = new Float64Array(this.pieces);
    const { data } = this;
    for (let i = 0, o = place; i < column.length; i++, o += WIDTH) column[i] = valueAt(data, o);
    return column;
  }
}

function clear(point: TrailPoint): void {
  point.pack = 0;
  point.front = 0;
  point.rear = 0;
  point.consumers = 0;
  point.frontTorque = 0;
  point.rearTorque = 0;
  point.speed = 0;
  point.heat = 0;
  point.wall = 0;
}

function put(data: Float64Array, o: number, point: TrailPoint): void {
  data[o] = point.pack;
  data[o + 1] = point.voltage;
  data[o + 2] = point.front;
  data[o + 3] = point.rear;
  data[o + 4] = point.consumers;
  data[o + 5] = point.frontTorque;
  data[o + 6] = point.rearTorque;
  data[o + 7] = point.speed;
  data[o + 8] = point.heat;
  data[o + 9] = point.wall;
}
