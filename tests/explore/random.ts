/** Random choices out of one seed, so that whatever is found can be found again. */
import { randomStream } from '../../src/studies/sampling/random-stream.ts';

export class Random {
  readonly #stream;
  readonly #drawn = new Float64Array(1);
  #index = 0;

  /** @param seed 0 to 2^53 - 1 */
  constructor(readonly seed: number) {
    this.#stream = randomStream(seed, 1);
  }

  /** Inside (0, 1). */
  next(): number {
    this.#stream.fill(this.#index, this.#drawn);
    this.#index += 1;
    return this.#drawn[0] ?? 0.5;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** Evenly over the orders of magnitude; both ends above zero. */
  spread(low: number, high: number): number {
    return low * (high / low) ** this.next();
  }

  /** A whole number, both ends included. */
  whole(low: number, high: number): number {
    return Math.floor(this.between(low, high + 1));
  }

  chance(share: number): boolean {
    return this.next() < share;
  }

  of<T>(list: readonly [T, ...T[]] | readonly T[]): T {
    const found = list[this.whole(0, list.length - 1)];
    if (found === undefined) throw new RangeError('there is nothing to choose from');
    return found;
  }
}
