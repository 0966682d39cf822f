/** A value with its coverage interval as people read it. */
import type { Intervals } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { duration } from './duration.ts';
import { decimalsFor, type Described, digits, scaleOf, unitText } from '../../units/rounding.ts';

/** Both ends in the SI unit of the value. */
export interface Ends {
  readonly low: number;
  readonly high: number;
}

/** `6.79 [6.47, 7.25] s`; the bare value where the interval is narrower than what is shown of it. */
export function intervalText(value: number, { low, high }: Ends, what: Described, system: System): string {
  const { unit, factor, offset } = scaleOf(what, system);
  const shown = value * factor + offset;
  const decimals = decimalsFor(shown, unit);
  const [middle, a, b] = [shown, low * factor + offset, high * factor + offset].map(each => digits(each, decimals));
  const text = unitText(unit);
  const after = text === '' ? '' : `\u00a0${text}`;
  return a === middle && b === middle ? `${middle}${after}` : `${middle} [${a},\u00a0${b}]${after}`;
}

/** `[6.47, 7.25] s`. */
export function endsText(value: number, { low, high }: Ends, what: Described, system: System): string {
  const { unit, factor, offset } = scaleOf(what, system);
  const decimals = decimalsFor(value * factor + offset, unit);
  const text = unitText(unit);
  return `[${digits(low * factor + offset, decimals)},\u00a0${digits(high * factor + offset, decimals)}]${text === '' ? '' : `\u00a0${text}`}`;
}

/** `[3 h 13 min, 3 h 53 min]`, of times in seconds. */
export function durationEnds({ low, high }: Ends): string {
  return `[${duration(low)},\u00a0${duration(high)}]`;
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

/** `256 samples of 23 uncertain inputs`. */
export function samplesText({ samples, inputs }: Intervals): string {
  return `${samples} samples of ${inputs} uncertain ${inputs === 1 ? 'input' : 'inputs'}`;
}
