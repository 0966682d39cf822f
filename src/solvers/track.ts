/** Keeps the nodes of a run in arrays that grow as needed, and reads them back as a `Solution`. */
import type { Step } from './step.ts';
import { interpolate } from './step.ts';
import type { Solution, SolveEvent, SolveStatistics, SolveStatus } from './system.ts';

export interface Track {
  /** Nodes stored. */
  nodes: number;
  times: Float64Array;
  states: Float64Array;
  integrals: Float64Array;
  modes: Int32Array;
  /** What the system keeps of each node. */
  looks: Float64Array;
  /** Three coefficients per state and quadrature for the step that starts at the node; see `Step.dense`. */
  dense: Float64Array;
  events: SolveEvent[];
  clear(): void;
  /** Appends a node with the states and time in `y`; the integrals are those of the node before. */
  push(y: Float64Array, mode: number): void;
  /** Appends the end of the step just taken, the integrals grown by what it gained. */
  pushEnd(step: Step, mode: number): void;
  /** Where the dense output of the step that starts at the last node belongs in `dense`. */
  offset(): number;
  finish(status: SolveStatus, reason: string, statistics: SolveStatistics): Solution;
}

export function createTrack(states: number, quadratures: number, looks: number): Track {
  const all = states + quadratures;
  let capacity = 64;

  function grow(): void {
    capacity *= 2;
    track.times = enlarged(track.times, capacity);
    track.states = enlarged(track.states, capacity * states);
    track.integrals = enlarged(track.integrals, capacity * quadratures);
    track.dense = enlarged(track.dense, capacity * 3 * all);
    track.looks = enlarged(track.looks, capacity * looks);
    const modes = new Int32Array(capacity);
    modes.set(track.modes);
    track.modes = modes;
  }

  // Local names for all that a loop needs: names of the outer function would be read again in each round.
  const width = { states, quadratures };

  function push(y: Float64Array, mode: number): void {
    const k = track.nodes;
    if (k === capacity) grow();
    const { states, quadratures } = width;
    const { times, modes, states: into, integrals } = track;
    times[k] = y[states]!;
    modes[k] = mode;
    const row = k * states;
    for (let i = 0; i < states; i++) into[row + i] = y[i]!;
    const here = k * quadratures;
    const before = k === 0 ? -1 : here - quadratures;
    for (let j = 0; j < quadratures; j++) integrals[here + j] = before < 0 ? 0 : integrals[before + j]!;
    track.nodes = k + 1;
  }

  function pushEnd(step: Step, mode: number): void {
    push(step.end, mode);
    const { quadratures } = width;
    const { integrals } = track;
    const { gained } = step;
    const here = (track.nodes - 1) * quadratures;
    for (let j = 0; j < quadratures; j++) integrals[here + j] = integrals[here + j]! + gained[j]!;
  }

  const track: Track = {
    nodes: 0,
    times: new Float64Array(capacity),
    states: new Float64Array(capacity * states),
    integrals: new Float64Array(capacity * quadratures),
    modes: new Int32Array(capacity),
    looks: new Float64Array(capacity * looks),
    dense: new Float64Array(capacity * 3 * all),
    events: [],
    clear() {
      track.nodes = 0;
      track.events = [];
    },
    push,
    pushEnd,
    offset: () => (track.nodes - 1) * 3 * all,
    finish: (status, reason, statistics) => solution(track, states, quadratures, looks, status, reason, statistics),
  };
  return track;
}

function enlarged(old: Float64Array, length: number): Float64Array {
  const larger = new Float64Array(length);
  larger.set(old);
  return larger;
}

function solution(
  track: Track,
  n: number,
  q: number,
  seen: number,
  status: SolveStatus,
  reason: string,
  statistics: SolveStatistics,
): Solution {
  const nodes = track.nodes;
  const times = track.times.subarray(0, nodes);
  const states = track.states.subarray(0, nodes * n);
  const integrals = track.integrals.subarray(0, nodes * q);
  const dense = track.dense;

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
