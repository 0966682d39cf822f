/** A value with its coverage interval as people read it. */
import type { Intervals } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { duration } from './duration.ts';
import { decimalsFor, type Described, digits, type Scale, scaleOf, unitText } from '../../units/rounding.ts';

/** Both ends in the SI unit of the value. */
export interface Ends {
  readonly low: number;
  readonly high: number;
  /** By how much other samples may move an end: it is shown to no finer step than that. */
  readonly error?: number;
}

/** `6.79 [6.5, 7.3] s`; the bare value where the interval is narrower than what is shown of it. */
export function intervalText(value: number, ends: Ends, what: Described, system: System): string {
  const { unit, factor, offset } = scaleOf(what, system);
  const shown = value * factor + offset;
  const middle = digits(shown, decimalsFor(shown, unit));
  const [a, b] = shownEnds(value, ends, what, system);
  return a === middle && b === middle ? withUnit(middle, unit) : withUnit(`${middle} [${a},\u00a0${b}]`, unit);
}

/** `[6.5, 7.3] s`. */
export function endsText(value: number, ends: Ends, what: Described, system: System): string {
  const [a, b] = shownEnds(value, ends, what, system);
  return withUnit(`[${a},\u00a0${b}]`, scaleOf(what, system).unit);
}

/** `5.2 s`: one end, rounded outwards. */
export function endText(value: number, ends: Ends, which: 'least' | 'most', what: Described, system: System): string {
  const [low = '', high = ''] = shownEnds(value, ends, what, system);
  return withUnit(which === 'least' ? low : high, scaleOf(what, system).unit);
}

function withUnit(text: string, unit: string): string {
  const label = unitText(unit);
  return label === '' ? text : `${text}\u00a0${label}`;
}

/** The numbers of both ends, rounded outwards to the step that they are known to, and no finer than their value. */
function shownEnds(value: number, ends: Ends, what: Described, system: System): readonly string[] {
  const scale = scaleOf(what, system);
  return roundedEnds(ends, scale, decimalsFor(value * scale.factor + scale.offset, scale.unit));
}

/** `[6.5, 7.3]`, for a table that has the unit at its head. @param decimals of the value. */
export function bareEnds(ends: Ends, scale: Pick<Scale, 'factor' | 'offset'>, decimals: number): string {
  const [a, b] = roundedEnds(ends, scale, decimals);
  return `[${a},\u00a0${b}]`;
}

function roundedEnds(
  { low, high, error = 0 }: Ends,
  { factor, offset }: Pick<Scale, 'factor' | 'offset'>,
  decimals: number,
): readonly string[] {
  const finest = 10 ** -decimals;
  const [a, c] = [low * factor + offset, high * factor + offset];
  const step = stepOf(error * factor, finest, coarsest(low * factor, high * factor));
  const coarse = Math.min(decimals, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
  // To the digits of the value an end is rounded as the value is: two that are one must look so.
  const ends =
    step > 1.5 * finest
      ? [Math.floor(a / step + ROUND_OFF), Math.ceil(c / step - ROUND_OFF)]
      : [Math.round(a / step), Math.round(c / step)];
  return ends.map(end => digits(end * step, coarse));
}

/** The coarsest step for ends: half of what lies between, and of two ends on one side of nothing no more than the nearer one, which would be told as nothing. */
function coarsest(low: number, high: number): number {
  const half = (high - low) / 2;
  return low > 0 ? Math.min(half, low) : high < 0 ? Math.min(half, -high) : half;
}

/** Of a step, that an end may be past it. */
const ROUND_OFF = 1e-6;

/** The finest of 1, 2, 5, 10, 20 ... times `finest` that is no smaller than `least`, or the coarsest below `most`. */
function stepOf(least: number, finest: number, most: number): number {
  let step = finest;
  for (let k = 1; step < least * (1 - 1e-9); k++) {
    const next = finest * ([1, 2, 5][k % 3] ?? 1) * 10 ** Math.floor(k / 3);
    if (next > most) break;
    step = next;
  }
  return step;
}

/** s, steps to which long times are told: those of a clock. */
const STEPS = [1, 60, 120, 300, 600, 900, 1800, 3600, 7200, 18_000];

/** `[3 h 10 min, 3 h 53 min]`, of times in seconds. */
export function durationEnds({ low, high, error = 0 }: Ends): string {
  const known = STEPS.find(each => each >= error) ?? Infinity;
  const step = STEPS.findLast(each => each <= coarsest(low, high) && each <= known) ?? 1;
  const [a, b] = [Math.floor(low / step) * step, Math.ceil(high / step) * step];
  return `[${duration(a)},\u00a0${duration(b)}]`;
}

const CHANCES: { readonly [percent: number]: string } = {
  50: 'one of two',
  80: 'eight of ten',
  90: 'nine of ten',
  95: '19 of 20',
  99: '99 of 100',
};

/** `nine of ten`. */
export function chanceText(probability: number): string {
  const percent = Number((100 * probability).toPrecision(4));
  return CHANCES[percent] ?? `${percent}\u00a0%`;
}

/** `256 samples of 23 uncertain inputs`; and why there are no more. */
export function samplesText({ samples, inputs, cut }: Intervals): string {
  const taken = `${samples} samples of ${inputs} uncertain ${inputs === 1 ? 'input' : 'inputs'}`;
  return cut === true
    ? `${taken}, as many as a page takes unasked of runs that are so much work (--samples says more)`
    : taken;
}
