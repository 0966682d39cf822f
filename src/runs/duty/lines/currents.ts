/** Currents against what sheets say a part gives for ever, and for a time. */
import { item } from '../../../columns.ts';
import { pulseBudget } from '../../../model/pack/state.ts';
import { spentOf } from '../../../model/duty/rating.ts';
import type { Pulse } from '../../../model/duty/rating.ts';
import { WINDOWS } from '../../../model/duty/windows.ts';
import { windowWords } from '../currents.ts';
import { amperes, share } from '../../output.ts';
import type { Said } from '../line.ts';
import { worstOf } from '../runs.ts';
import type { Flow } from '../runs.ts';

export interface Rating {
  /** A; undefined where the sheet does not say. */
  readonly continuous: number | undefined;
  readonly pulses: readonly Pulse[];
}

const INSTANT = 'greatest at any instant';
const RMS = 'root mean square of the whole run';
const WINDOW = 'root mean square of the worst stretch of that length';

/** s that count as for ever. Common practice, no source. */
const FOR_EVER = 1800;

/** @param flows of one channel, in every run in which it flows. */
export function currentLines(flows: readonly Flow[], rating: Rating): readonly Said[] {
  const [any] = flows;
  if (any === undefined) return [];
  const { part, prefix, words } = any.channel;
  const lines: Said[] = [];
  const most = worstOf(flows, ({ instant }) => instant);
  if (most !== null) {
    lines.push({
      key: `${prefix}current`,
      part,
      output: amperes(`current ${words}`, INSTANT),
      value: most.instant,
      run: most.run,
      limit: peakOf(rating),
    });
  }
  WINDOWS.forEach((window, i) => {
    const worst = worstOf(flows, ({ windows }) => item(windows, i).once);
    if (worst === null) return;
    const { once, repeated: own, short } = item(worst.windows, i);
    const again = worstOf(
      flows.filter(flow => flow.again),
      ({ windows }) => item(windows, i).repeated,
    );
    const repeated = again === null ? once : item(again.windows, i).repeated;
    const allowed = allowedOver(window, rating);
    lines.push({
      key: `${prefix}current_${window}_s`,
      part,
      output: amperes(`over ${windowWords(window)} ${words}`, WINDOW),
      value: once,
      worst: repeated,
      run: worst.run,
      limit: allowed?.current ?? null,
      note: [
        short
          ? shortNote(worst, window, own)
          : again !== null && item(again.windows, i).short
            ? shortNote(again, window, repeated)
            : '',
        allowed?.by ?? '',
      ]
        .filter(each => each !== '')
        .join('; '),
    });
  });
  const warmest = worstOf(flows, ({ rms }) => rms);
  if (warmest !== null) {
    lines.push({
      key: `${prefix}current_rms`,
      part,
      output: amperes(`r.m.s. ${words}`, RMS),
      value: warmest.rms,
      run: warmest.run,
      verdict: 'figure',
    });
  }
  return [...lines, ...budgetLines(flows, rating)];
}

/** A run shorter than the window says so, and what it comes to without a pause. */
function shortNote({ run, duration }: Flow, window: number, repeated: number): string {
  return `${run} lasts ${Math.round(duration)} s and not ${windowWords(window)}: once, with nothing before and after; again and again without a pause ${round(repeated)} A`;
}

function round(value: number): string {
  return String(Number(value >= 100 ? value.toFixed(0) : value.toPrecision(3)));
}

/** The greatest current that the sheet tells of; null where it tells of none that may be for an instant. */
function peakOf({ pulses }: Rating): number | null {
  return pulses.length === 0 ? null : Math.max(...pulses.map(({ current }) => current));
}

/** What the sheet allows over a window, and where it does not say so itself how that follows from what it says. */
interface Allowed {
  /** A. */
  readonly current: number;
  /** A sentence without a full stop; '' for none. */
  readonly by: string;
}

/** By all pulses and the current for ever, from a rested part; null where the sheet does not say. */
function allowedOver(window: number, { continuous, pulses }: Rating): Allowed | null {
  if (continuous === undefined) return null;
  if (window >= FOR_EVER) return { current: continuous, by: '' };
  // A shorter pulse says nothing of what lasts longer than it but by its budget: the most of them is what the sheet gives.
  return pulses
    .map((pulse): Allowed => {
      if (window <= pulse.time) return { current: pulse.current, by: '' };
      const current = Math.sqrt(continuous * continuous + pulseBudget(continuous, pulse) / window);
      const by = `over ${windowWords(window)} the sheet says nothing: ${round(current)} A would spend the budget of its ${round(pulse.current)} A for ${round(pulse.time)} s over ${round(continuous)} A, (Ip² − Ic²) tp`;
      return { current, by };
    })
    .reduce<Allowed | null>((most, each) => (most === null || each.current > most.current ? each : most), null);
}

function budgetLines(flows: readonly Flow[], { continuous, pulses }: Rating): readonly Said[] {
  if (continuous === undefined) return [];
  const found = pulses.flatMap(pulse => {
    const spent = flows.map(({ run, channel, track, instant }) => ({
      run,
      instant,
      channel,
      pulse,
      ...spentOf(track, continuous, pulse),
    }));
    return worstOf(spent, each => each.share) ?? [];
  });
  const least = Math.min(...found.map(({ share: spent }) => spent));
  return found.map((worst): Said => {
    const { pulse } = worst;
    // What overspends a short pulse may still be what the sheet gives for longer.
    const covered = worst.share > 1 && least <= 1;
    const { prefix, part } = worst.channel;
    const name = `${round(pulse.current)} A for ${round(pulse.time)} s, ${round(continuous)} A for ever,`;
    const after =
      worst.after === null
        ? ''
        : `used up after ${round(worst.after)} s of ${worst.run}, which draws up to ${round(worst.instant)} A`;
    return {
      key: `${prefix}budget_${Math.round(pulse.time)}_s`,
      part,
      output: share(
        `of what its ${name} allow`,
        '(Ip^2 - Ic^2) tp; what is drawn above the current for ever spends it',
      ),
      value: worst.share,
      run: worst.run,
      limit: 1,
      ...(covered && { verdict: 'look' as const }),
      note: covered ? `${after}; another pulse of the sheet is not overspent` : after,
    };
  });
}
