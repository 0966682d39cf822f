/** What currents do to a fuse, against the curve and the ratings of its data sheet. */
import * as elementary from '../../elementary.ts';
import type { Track } from './track.ts';
import { windowed } from './windows.ts';

/** A fuse as its data sheet has it. */
export interface Fuse {
  /** A. */
  readonly rated: number;
  /** Of the rated current in the warmth that it is in: 1 at the temperature of its rating. */
  readonly ambient: number;
  /** Of that current, the root mean square that it bears for years. */
  readonly share: number;
  /** Of the heat that melts it, what a pulse may have that comes again and again. */
  readonly pulseShare: number;
  /** The melting curve: s ascending, and A that melt it in that time; null where it is not given. */
  readonly curve: MeltingCurve | null;
}

export interface MeltingCurve {
  readonly time: readonly number[];
  readonly current: readonly number[];
}

/** A that a fuse bears for ever, in the warmth that it is in. */
export function bearable({ rated, ambient, share }: Fuse): number {
  return rated * ambient * share;
}

/** A that melt it within so many seconds: straight lines through the curve in logarithms; null outside of it. */
export function meltingCurrent({ time, current }: MeltingCurve, seconds: number): number | null {
  for (let i = 0; i + 1 < time.length; i++) {
    const [t0 = 0, t1 = 0, i0 = 0, i1 = 0] = [time[i], time[i + 1], current[i], current[i + 1]];
    if (seconds < t0 || seconds > t1) continue;
    const share = elementary.log(seconds / t0) / elementary.log(t1 / t0);
    return i0 * elementary.pow(i1 / i0, share);
  }
  return null;
}

/** Of the logarithm of a length: at such steps pulses are looked for first, and then between the two beside the worst. */
const STEP = 0.35;
const HALVINGS = 12;

/** The worst pulse of a run. */
export interface WorstPulse {
  /** s that it is looked at over, A root mean square, and A that melt the fuse in that time. */
  readonly time: number;
  readonly current: number;
  readonly melting: number;
  /** Its heat over that which melts. */
  readonly share: number;
}

/** Over every length that the curve tells of, a run shorter than that with nothing before and after; null without a curve of two points. */
export function worstPulse(curve: MeltingCurve, track: Track): WorstPulse | null {
  const pulseOf = (time: number): WorstPulse | null => {
    const melting = meltingCurrent(curve, time);
    if (melting === null) return null;
    const current = windowed(track, time).once;
    return { time, current, melting, share: elementary.pow(current / melting, 2) };
  };
  let worst: WorstPulse | null = null;
  const take = (time: number): void => {
    const found = pulseOf(time);
    if (found !== null && (worst === null || found.share > worst.share)) worst = found;
  };
  lengthsOf(curve).forEach(take);
  let step = STEP;
  for (let i = 0; i < HALVINGS; i++) {
    step *= 0.5;
    const { time }: WorstPulse = worst ?? { time: 0, current: 0, melting: 0, share: 0 };
    take(time * elementary.exp(step));
    take(time * elementary.exp(-step));
  }
  return worst;
}

function lengthsOf({ time }: MeltingCurve): readonly number[] {
  return time.flatMap((t0, i) => {
    const t1 = time[i + 1];
    if (t1 === undefined) return [t0];
    const steps = Math.max(1, Math.ceil(elementary.log(t1 / t0) / STEP));
    return Array.from({ length: steps }, (_, k) => t0 * elementary.pow(t1 / t0, k / steps));
  });
}

/** A of a short circuit: all that the electromotive force drives through the resistances on its way. */
export function prospectiveCurrent(emf: number, resistance: number): number {
  return resistance > 0 ? emf / resistance : Infinity;
}
