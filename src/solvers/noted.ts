/** An event as it is noted on the way: its numbers stand in a block with others, and become arrays of their own when somebody asks for them. */
import { nth } from '../columns.ts';
import type { SolveEvent } from './system.ts';

export class Noted implements SolveEvent {
  readonly kind: SolveEvent['kind'];
  readonly index: number;
  readonly time: number;
  readonly from: number;
  readonly to: number;
  /** Its states, and then its integrals, stand here from `place` on. */
  readonly #notes: Float64Array;
  readonly #place: number;
  readonly #n: number;
  readonly #all: number;

  constructor(
    event: Pick<SolveEvent, 'kind' | 'index' | 'time' | 'from' | 'to'>,
    notes: Float64Array,
    place: number,
    n: number,
    all: number,
  ) {
    this.kind = event.kind;
    this.index = event.index;
    this.time = event.time;
    this.from = event.from;
    this.to = event.to;
    this.#notes = notes;
    this.#place = place;
    this.#n = n;
    this.#all = all;
  }

  /** One of its states. */
  state(i: number): number {
    return nth(this.#notes, this.#place + i);
  }

  get states(): Float64Array {
    return this.#notes.subarray(this.#place, this.#place + this.#n);
  }

  get integrals(): Float64Array {
    return this.#notes.subarray(this.#place + this.#n, this.#place + this.#all);
  }
}

/** One state of an event, without an array made for it. */
export function stateAt(event: SolveEvent, i: number): number {
  return event instanceof Noted ? event.state(i) : nth(event.states, i);
}
