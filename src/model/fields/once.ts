/**
 * Parts that were made of a specification before. The thousands of cars of a study share what does not change, down to the object:
 * each of their parts is made once.
 */
import { UNLISTED } from './filler.ts';
import type { Input } from './input.ts';

/** Marks a specification that was made for one car alone: nobody asks for its parts again, and to remember them costs more than to look for them. */
export const PASSING = Symbol('passing');

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
  // Most rows of a study have the part of the row before.
  let latest: object | null = null;
  let kept: Kept<M> | undefined;
  return (spec, besides, inputs, make) => {
    if (inputs !== UNLISTED) return make();
    if (spec !== latest) kept = known.get(spec);
    latest = spec;
    if (kept !== undefined && same(kept.besides, besides)) return kept.made;
    const made = make();
    kept = { besides, made };
    if (!(PASSING in spec)) known.set(spec, kept);
    return made;
  };
}

function same(a: readonly unknown[], b: readonly unknown[]): boolean {
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return false;
  return true;
}
