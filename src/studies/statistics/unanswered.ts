/** Why samples have no answer: reasons that are one but for their numbers, counted. */

/** A reason with how many samples gave it. */
export interface Unanswered {
  readonly reason: string;
  readonly samples: number;
}

/** A number inside a sentence; not a figure that belongs to a word, as in `C/20` or `100_km_h`. */
const NUMBER = /(?<![\p{L}\p{N}_./])[-−]?\d+(?:\.\d+)?(?![\p{L}\p{N}_]|\.\d)/gu;

interface Alike {
  samples: number;
  readonly first: string;
  readonly low: string[];
  readonly high: string[];
}

/** The most frequent one first; a number that differs from sample to sample is told from its least to its greatest: `82 to 96 km/h`. */
export function countedReasons(reasons: Iterable<string>): readonly Unanswered[] {
  const groups = new Map<string, Alike>();
  for (const reason of reasons) {
    const text = reason === '' ? 'the run does not give it' : reason;
    const numbers = text.match(NUMBER) ?? [];
    const key = text.replace(NUMBER, '#');
    const group = groups.get(key);
    if (group === undefined) {
      groups.set(key, { samples: 1, first: text, low: [...numbers], high: [...numbers] });
      continue;
    }
    group.samples++;
    for (const [k, number] of numbers.entries()) {
      if (size(number) < size(group.low[k] ?? '')) group.low[k] = number;
      if (size(number) > size(group.high[k] ?? '')) group.high[k] = number;
    }
  }
  return [...groups.values()]
    .map(({ samples, first, low, high }) => {
      let k = -1;
      const reason = first.replace(NUMBER, own => {
        k++;
        const [least, greatest] = [low[k] ?? own, high[k] ?? own];
        return least === greatest ? own : `${least} to ${greatest}`;
      });
      return { reason, samples };
    })
    .toSorted((a, b) => b.samples - a.samples);
}

function size(number: string): number {
  return Number(number.replace('−', '-'));
}
