/** Samples of uncertain inputs: a stream of even numbers, each turned into a draw of its input. */
import { item, nth } from '../../columns.ts';
import type { Draw } from './draw.ts';
import type { InputsAt } from '../question/evaluate.ts';
import { randomStream } from './random-stream.ts';
import { sobolStream } from './sobol-stream.ts';
import type { Source, Stream } from './stream.ts';

/** Opens a stream; `block` (a power of two) has a meaning for `sobol` only. */
export function openStream(source: Source, seed: number, dimensions: number, block: number): Stream {
  return source === 'sobol' ? sobolStream(seed, dimensions, block) : randomStream(seed, dimensions);
}

/** Samples in the one block of Sobol points that a fixed number of them is the beginning of. */
export function oneBlock(samples: number): number {
  return 2 ** Math.ceil(Math.log2(samples));
}

/** Inputs of sample `index`: number `k` of the stream becomes a draw of input `k`. */
export function sampler(draws: readonly Draw[], stream: Stream): InputsAt {
  if (draws.length > stream.dimensions) {
    throw new RangeError(`${draws.length} draws need a stream of as many dimensions, got ${stream.dimensions}`);
  }
  const u = new Float64Array(stream.dimensions);
  return (index, x) => {
    stream.fill(index, u);
    for (let k = 0; k < draws.length; k++) x[k] = item(draws, k).at(nth(u, k));
  };
}
