/** What a set of coast-downs can not tell, before any figure is told. */
import { nth } from '../../columns.ts';
import { STANDARD_GRAVITY } from '../../model/gravity.ts';
import { alikeIn } from '../alike.ts';
import type { Shortcoming } from '../problem.ts';
import { kmh } from '../rows.ts';
import type { RunFit } from './one-run.ts';
import type { Pair } from './pairs.ts';

/** All pairs together tell each mix of parameters to better than this many of their usual sizes, or it is told by nothing. */
const KNOWN = 1;
/** m/s: no receiver is better. */
const LEAST_NOISE = 1e-3;
/** m/s along the road on the mean of a pair: UN GTR 15, Annex 4 (from memory). */
const WINDY = 5;
/** Rise over run: the same (from memory). */
const STEEP = 0.01;
/** m/s by which four seconds of a run may be off what coasts: a light touch of the brake. Common practice, no source. */
const OFF = 0.2;
const FOR = 4;

export function shortcomingsOf(
  there: readonly RunFit[],
  back: readonly RunFit[],
  pairs: readonly Pair[],
  fewest: number,
): { readonly short: readonly Shortcoming[]; readonly doubts: readonly string[] } {
  const short = [
    ...oneWay(there, back),
    ...tooFew(pairs, fewest),
    ...tooShort(pairs),
    ...unlikely(pairs),
    ...uneven(there, back),
  ];
  const doubts = [...leftOver(there, back), ...windy(pairs), ...disturbed([...there, ...back])];
  return { short, doubts };
}

function oneWay(there: readonly RunFit[], back: readonly RunFit[]): readonly Shortcoming[] {
  if (there.length > 0 && back.length > 0) return [];
  return [
    {
      what: 'all runs go the same way: head wind can not be told from drag, nor a slope from rolling resistance',
      cure: 'as many runs the other way over the same road',
    },
  ];
}

function tooFew(pairs: readonly Pair[], fewest: number): readonly Shortcoming[] {
  if (pairs.length === 0 || pairs.length >= fewest) return [];
  return [
    {
      what: `${pairs.length === 1 ? 'one pair of runs says' : `${pairs.length} pairs of runs say`} too little about how runs scatter`,
      cure: `${fewest} runs in each direction or more`,
    },
  ];
}

/** Pairs in which terms, wind and slope do not come apart, by the singular values of their sensitivities over the noise. */
function tooShort(pairs: readonly Pair[]): readonly Shortcoming[] {
  const least = ({ fit, noise }: Pair): number => Math.min(...fit.singular) / Math.max(noise, LEAST_NOISE);
  const worst = pairs.toSorted((a, b) => least(a) - least(b))[0];
  if (worst === undefined || least(worst) * Math.sqrt(pairs.length) >= 1 / KNOWN) return [];
  const { track } = worst.there;
  const [first, last] = [nth(track.speed, 0), nth(track.speed, track.speed.length - 1)];
  return [
    {
      what: `from ${kmh(first)} to ${kmh(last)} is too short for a speed that is read to ${kmh(worst.noise)}: rolling resistance and drag do not come apart`,
      cure: 'coast-downs over most of the speed, such as from 120 to 20 km/h, or more of them',
    },
  ];
}

/** Runs of one direction that are all off alike: what scatters between them does not tell how wrong they are. */
function uneven(there: readonly RunFit[], back: readonly RunFit[]): readonly Shortcoming[] {
  for (const runs of [there, back]) {
    if (runs.length < 2) continue;
    const left = runs.map(({ track, residuals }) => ({ time: track.time, residuals }));
    const found = alikeIn(left, FOR, OFF, Math.max(...runs.map(({ residuals }) => rowNoise(residuals))));
    if (found === null) continue;
    return [
      {
        what: `all runs ${runs === there ? 'there' : 'back'} are ${kmh(Math.abs(found.off))} ${found.off > 0 ? 'above' : 'below'} the speed of a free rolling car some ${found.at.toFixed(0)} s after they begin, which no scatter between them shows`,
        cure: 'a clock that loses no time, a road without hollows, no brake and no pedal; or from: and to: around that',
      },
    ];
  }
  return [];
}

/** Rolling resistance and drag that no car has: a unit, a mass or a brake is wrong. Bounds: common practice, no source. */
function unlikely(pairs: readonly Pair[]): readonly Shortcoming[] {
  if (pairs.length === 0) return [];
  const mean = (of: (pair: Pair) => number): number => pairs.reduce((all, pair) => all + of(pair), 0) / pairs.length;
  const [a, c] = [mean(({ slowing }) => slowing.a), mean(({ slowing }) => slowing.c)];
  const at20 = mean(({ slowing }) => slowing.a + slowing.b * 20 + slowing.c * 400);
  if (c > 0 && a > 0.02 && a < 0.08 * STANDARD_GRAVITY && at20 > 0.06 && at20 < 1.5) return [];
  return [
    {
      what: `what slows the car is ${share(a / STANDARD_GRAVITY)} of its weight at walking pace and ${share(at20 / STANDARD_GRAVITY)} at 72 km/h, which no free rolling car has`,
      cure: 'the right unit of speed and time; no brake, no pedal, no regeneration; the same road both ways',
    },
  ];
}

function leftOver(there: readonly RunFit[], back: readonly RunFit[]): readonly string[] {
  const more = there.length - back.length;
  if (more === 0) return [];
  const [n, way] = [Math.abs(more), more > 0 ? 'there' : 'back'];
  return [
    `${n} more ${n === 1 ? 'run goes' : 'runs go'} ${way} than the other way: the last ${n === 1 ? 'one is' : 'ones are'} left out`,
  ];
}

function windy(pairs: readonly Pair[]): readonly string[] {
  const worst = pairs.reduce((most, { wind }) => Math.max(most, Math.abs(wind)), 0);
  const slope = pairs.reduce((all, each) => all + each.slope, 0) / pairs.length;
  return [
    ...(worst > WINDY
      ? [
          `too windy: ${kmh(worst)} along the road in one pair, above the ${kmh(WINDY)} that UN GTR 15 allows (from memory); wind from the side is not seen at all`,
        ]
      : []),
    ...(Math.abs(slope) > STEEP
      ? [`the road rises by ${share(Math.abs(slope))}, more than the 1 % that UN GTR 15 allows (from memory)`]
      : []),
  ];
}

/** Runs in which something else acted for some seconds. */
function disturbed(runs: readonly RunFit[]): readonly string[] {
  return runs.flatMap(({ track, residuals }) => {
    const noise = rowNoise(residuals);
    let worst = { off: 0, at: 0 };
    let [low, sum] = [0, 0];
    for (const [i, r] of residuals.entries()) {
      sum += r;
      while (nth(track.time, i) - nth(track.time, low) > FOR) sum -= nth(residuals, low++);
      const mean = sum / (i - low + 1);
      const doubtful = Math.max(OFF, (4.5 * noise) / Math.sqrt(i - low + 1));
      if (i - low > 2 && Math.abs(mean) > Math.max(doubtful, Math.abs(worst.off)))
        worst = { off: mean, at: nth(track.time, low) };
    }
    if (worst.off === 0) return [];
    return [
      `${track.title}: ${worst.at.toFixed(0)} s after it begins the speed is ${kmh(Math.abs(worst.off))} ${worst.off > 0 ? 'above' : 'below'} that of a free rolling car for some seconds: a brake, a gust or a hill`,
    ];
  });
}

/** m/s: scatter from row to row, which what lasts for seconds does not touch. */
function rowNoise(residuals: Float64Array): number {
  const steps = residuals.slice(1).map((r, i) => Math.abs(r - nth(residuals, i)));
  return nth(steps.toSorted(), steps.length >> 1) / 0.6745 / Math.SQRT2;
}

function share(value: number): string {
  return `${Number((100 * value).toPrecision(2))} %`;
}
