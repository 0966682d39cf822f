/**
 * Parts that were made of a specification before. The thousands of cars of a study share what does not change, down to the object:
 * each of their parts is made once.
 */
import { UNLISTED } from './filler.ts';
import type { Input } from './input.ts';

interface Kept<M> {
  readonly besides: readonly unknown[];
  readonly made: M;
}

/**
 * Makes a function that makes a part, or gives back the one that was made of the same object beside the same things. Whoever lists
 * what is assumed has each part made for itself.
 */
export function onceEach<M>(): (spec: object, besides: readonly unknown[], inputs: Input[], make: () => M) => M {
  const known = new WeakMap<object, Kept<M>>();
  return (spec, besides, inputs, make) => {
    if (inputs !== UNLISTED) return make();
    const before = known.get(spec);
    if (before !== undefined && before.besides.every((thing, k) => thing === besides[k])) return before.made;
    const made = make();
    known.set(spec, { besides, made });
    return made;
  };
}
