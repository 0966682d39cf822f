/** Samples of uncertain inputs: a stream of even numbers, each turned into a draw of its input. */
import { item, nth } from '../../columns.ts';
import type { InputsAt } from '../question/evaluate.ts';
import type { Draw } from './draw.ts';
import { randomStream } from './random-stream.ts';
import { sobolStream } from './sobol-stream.ts';
import type { Place, Source, Stream } from './stream.ts';

/** Opens a stream; `block` (a power of two) has a meaning for `sobol` only. Streams of other names are independent of each other. */
export function openStream(source: Source, seed: number, dimensions: number, block: number, name = ''): Stream {
  return source === 'sobol' ? sobolStream(seed, dimensions, block, name) : randomStream(seed, dimensions, name);
}

/** Samples in the one block of Sobol points that a fixed number of them is the beginning of. */
export function oneBlock(samples: number): number {
  return 2 ** Math.ceil(Math.log2(samples));
}

/** Where the numbers of a plan come from. */
export interface Numbers {
  readonly source: Source;
  readonly seed: number;
  readonly block: number;
}

/**
 * Inputs of sample `index`. A draw with a place of its own takes the same number whatever else is drawn beside it; those without one
 * share a stream in their order.
 */
export function sampler(draws: readonly Draw[], { source, seed, block }: Numbers): InputsAt {
  const places = draws.map(({ place }, k): Place => place ?? { stream: '', dimension: k });
  const streams = [...new Set(places.map(({ stream }) => stream))].map(name => {
    const dimensions = 1 + Math.max(...places.map(place => (place.stream === name ? place.dimension : 0)));
    const taken = places.flatMap((place, input) => (place.stream === name ? [{ input, from: place.dimension }] : []));
    return { taken, stream: openStream(source, seed, dimensions, block, name), u: new Float64Array(dimensions) };
  });
  return (index, x) => {
    for (const { taken, stream, u } of streams) {
      stream.fill(index, u);
      for (const { input, from } of taken) x[input] = item(draws, input).at(nth(u, from));
    }
  };
}
