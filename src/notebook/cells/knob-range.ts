/** How far a knob goes, and in which steps. All in the unit that people read. */
import type { NumberField } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';

export interface Range {
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

/** What the cell says; null where it does not. */
interface Said {
  /** As the notebook has it. */
  readonly own: number;
  readonly from: number | null;
  readonly to: number | null;
  readonly step: number | null;
  /** A value with its unit. */
  readonly shown: (value: number) => string;
}

/** Where the ends are when nobody says, and the limits of the field. */
export interface Usual {
  readonly low: number;
  readonly high: number;
  readonly least: number;
  readonly greatest: number;
  readonly whole: boolean;
}

/** Settings from one end to the other where no step is said; common practice, no source. */
const SETTINGS = 40;
const MOST_SETTINGS = 10_000;

/** @param at path of the row. @throws SpecError */
export function rangeOf(at: string, said: Said, usual: Usual): Range {
  const [low, high] = [said.from ?? usual.low, said.to ?? usual.high];
  if (!(low < high)) throw new SpecError(`${at}.to`, 'is not above from', 'from below to');
  const step =
    said.step ?? (usual.whole ? Math.max(1, Math.round((high - low) / SETTINGS)) : round((high - low) / SETTINGS));
  if (!(step > 0) || (high - low) / step > MOST_SETTINGS || step > high - low)
    throw new SpecError(`${at}.step`, 'is no step between them', `at most ${MOST_SETTINGS} steps from end to end`);
  if (usual.whole && !Number.isInteger(step))
    throw new SpecError(`${at}.step`, 'is no whole number', 'a count in whole steps');
  // Ends that nobody said are put on the steps, within what the field may be.
  const from = said.from ?? inside(Math.floor(low / step + SAME) * step, step, usual);
  const to = said.to ?? inside(Math.ceil(high / step - SAME) * step, step, usual);
  for (const [key, end] of [
    ['from', from],
    ['to', to],
  ] as const) {
    if (end < usual.least - SAME * Math.abs(usual.least) || end > usual.greatest + SAME * Math.abs(usual.greatest))
      throw new SpecError(
        `${at}.${key}`,
        `${said.shown(end)} is outside ${said.shown(usual.least)} to ${said.shown(usual.greatest)}`,
      );
  }
  if (said.own < from - SAME * Math.abs(from) || said.own > to + SAME * Math.abs(to)) {
    const [key, word] = said.own < from ? ['from', 'above'] : ['to', 'below'];
    throw new SpecError(
      `${at}.${key}`,
      `is ${word} the value of the notebook, ${said.shown(said.own)}`,
      'ends with that value between them',
    );
  }
  return { from, to, step };
}

/** Round-off of a unit to another and back. */
const SAME = 1e-9;

/** An end on a step, moved inwards where the field does not allow it. */
function inside(end: number, step: number, { least, greatest }: Usual): number {
  const at = Math.min(
    Math.floor(greatest / step + SAME),
    Math.max(Math.ceil(least / step - SAME), Math.round(end / step)),
  );
  return Number((at * step).toPrecision(12));
}

/** 1, 2 or 5 of a power of ten, the nearest below. */
function round(step: number): number {
  const power = 10 ** Math.floor(Math.log10(step));
  const first = [5, 2, 1].find(each => each * power <= step * (1 + SAME)) ?? 1;
  return Number((first * power).toPrecision(12));
}

/** Kelvins on either side of a temperature. */
const DEGREES = 25;
/** Share of a value on either side. Both: common practice, no source. */
const SHARE = 0.3;

/** The ends that a field table means: around the value three times as far as it may be off, and 30 % at least, within what is usual. */
export function usualEnds({ value, spread }: Input, field: NumberField, shown: (value: number) => number): Usual {
  const own = Number(value);
  const { usual, min, max, whole } = field;
  const off =
    spread === undefined ? 0 : spread.kind === 'normal' ? 3 * spread.standard : 1.5 * (spread.high - spread.low);
  const about = Math.max(off, field.unit === 'K' ? DEGREES : SHARE * Math.abs(own), whole === true ? 2 : 0);
  const wide = about > 0 ? about : Number.isFinite(max - min) ? (max - min) / 4 : 1;
  const [least, greatest] = usual !== undefined && usual[0] <= own && own <= usual[1] ? usual : [min, max];
  const [low, high] = [Math.max(own - wide, least), Math.min(own + wide, greatest)];
  return { low: shown(low), high: shown(high), least: shown(min), greatest: shown(max), whole: whole === true };
}
