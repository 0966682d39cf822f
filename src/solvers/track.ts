/** Keeps the nodes of a run in arrays that grow as needed, and reads them back as a `Solution`. */
import type { Step } from './step.ts';
import { interpolate } from './step.ts';
import type { Solution, SolveEvent, SolveStatistics, SolveStatus } from './system.ts';

/** Nodes that there is room for at first. */
const ROOM = 64;

/** Its memory, which grows. */
export class Track {
  readonly states: number;
  readonly quadratures: number;
  /** Numbers that the system keeps of each node. */
  readonly seen: number;
  /** Nodes stored, and what there is room for. */
  nodes = 0;
  capacity = ROOM;
  times: Float64Array;
  rows: Float64Array;
  integrals: Float64Array;
  modes: Int32Array;
  looks: Float64Array;
  /** Three coefficients per state and quadrature for the step that starts at the node; see `Step.dense`. */
  dense: Float64Array;
  events: SolveEvent[] = [];

  constructor(states: number, quadratures: number, seen: number) {
    this.states = states;
    this.quadratures = quadratures;
    this.seen = seen;
    this.times = new Float64Array(ROOM);
    this.rows = new Float64Array(ROOM * states);
    this.integrals = new Float64Array(ROOM * quadratures);
    this.modes = new Int32Array(ROOM);
    this.looks = new Float64Array(ROOM * seen);
    this.dense = new Float64Array(ROOM * 3 * (states + quadratures));
  }
}

export function clearTrack(track: Track): void {
  track.nodes = 0;
  track.events = [];
}

function grow(track: Track): void {
  const { states, quadratures, seen } = track;
  track.capacity *= 2;
  const { capacity } = track;
  track.times = enlarged(track.times, capacity);
  track.rows = enlarged(track.rows, capacity * states);
  track.integrals = enlarged(track.integrals, capacity * quadratures);
  track.dense = enlarged(track.dense, capacity * 3 * (states + quadratures));
  track.looks = enlarged(track.looks, capacity * seen);
  const modes = new Int32Array(capacity);
  modes.set(track.modes);
  track.modes = modes;
}

/** Appends a node with the states and time in `y`; the integrals are those of the node before. */
export function pushNode(track: Track, y: Float64Array, mode: number): void {
  pushStates(track, y, mode);
  const { quadratures, integrals, nodes } = track;
  const here = (nodes - 1) * quadratures;
  for (let j = 0; j < quadratures; j++) integrals[here + j] = nodes === 1 ? 0 : integrals[here - quadratures + j]!;
}

/** Appends the end of the step just taken, the integrals grown by what it gained. */
export function pushEnd(track: Track, { end, gained }: Step, mode: number): void {
  pushStates(track, end, mode);
  const { quadratures, integrals, nodes } = track;
  const here = (nodes - 1) * quadratures;
  for (let j = 0; j < quadratures; j++) integrals[here + j] = integrals[here - quadratures + j]! + gained[j]!;
}

function pushStates(track: Track, y: Float64Array, mode: number): void {
  const k = track.nodes;
  // What is looked at before it is a node stands where the next one will.
  if (k + 2 > track.capacity) grow(track);
  const { states, times, modes, rows } = track;
  times[k] = y[states]!;
  modes[k] = mode;
  const row = k * states;
  for (let i = 0; i < states; i++) rows[row + i] = y[i]!;
  track.nodes = k + 1;
}

/** Where the dense output of the step that starts at the last node belongs in `dense`. */
export function denseOffset({ nodes, states, quadratures }: Track): number {
  return (nodes - 1) * 3 * (states + quadratures);
}

function enlarged(old: Float64Array, length: number): Float64Array {
  const larger = new Float64Array(length);
  larger.set(old);
  return larger;
}

/** What is kept, read back: good until the track is used again. */
export function solutionOf(track: Track, status: SolveStatus, reason: string, statistics: SolveStatistics): Solution {
  const { nodes, states: n, quadratures: q, seen, dense } = track;
  const times = track.times.subarray(0, nodes);
  const states = track.rows.subarray(0, nodes * n);
  const integrals = track.integrals.subarray(0, nodes * q);

  function at(t: number, out: Float64Array): number {
    const k = nodeBefore(times, t);
    const next = k + 1;
    const span = next < nodes ? times[next]! - times[k]! : 0;
    const x = span > 0 ? Math.max(0, (t - times[k]!) / span) : 0;
    let o = k * 3 * (n + q);
    const wanted = Math.min(n + q, out.length);
    for (let i = 0; i < wanted; i++, o += 3) {
      const from = i < n ? states[k * n + i]! : integrals[k * q + i - n]!;
      if (x === 0) out[i] = from;
      else {
        const to = i < n ? states[next * n + i]! : integrals[next * q + i - n]!;
        out[i] = interpolate(from, to, dense[o]!, dense[o + 1]!, dense[o + 2]!, x);
      }
    }
    return k;
  }

  const modes = track.modes.subarray(0, nodes);
  const looks = track.looks.subarray(0, nodes * seen);
  return { status, reason, nodes, times, states, integrals, looks, modes, events: track.events, statistics, at };
}

/** The last node whose time is not after `t`, or 0: at a double node the second. Throws a RangeError for NaN. */
export function nodeBefore(times: Float64Array, t: number): number {
  if (Number.isNaN(t)) throw new RangeError('`t` must be a number, found NaN');
  let low = 0;
  let high = times.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (times[middle]! <= t) low = middle;
    else high = middle;
  }
  return low;
}
