/** The runs that a duty is taken from: their names, and what flowed and turned. */
import { above, below, durationOf, extremesOf, scaled } from '../../model/duty/track.ts';
import type { Track } from '../../model/duty/track.ts';
import { rootMeanSquare, WINDOWS, windowed } from '../../model/duty/windows.ts';
import type { Windowed } from '../../model/duty/windows.ts';
import type { Result } from '../result.ts';
import type { Trail } from '../trail/trail.ts';

/** A run by the name of its cell. */
export interface NamedRun {
  readonly name: string;
  readonly result: Result;
  readonly trail: Trail;
}

/** A current that somebody asks for. */
export interface Channel {
  /** `pack`, `inverter of the front axle` ... */
  readonly part: string;
  /** Of the figures: `pack_`. */
  readonly prefix: string;
  /** `out of the pack` ... */
  readonly words: string;
  readonly of: (trail: Trail) => Track;
  /** Where it is a share of another channel: which, and how much of it. */
  readonly partOf?: { readonly channel: Channel; readonly share: number };
}

/** A channel in one run. */
export interface Flow {
  readonly channel: Channel;
  readonly run: string;
  /** Whether it may come again at once: a launch does not, the car has to stop first. */
  readonly again: boolean;
  readonly track: Track;
  /** A at any instant, and s that the run lasts. */
  readonly instant: number;
  readonly duration: number;
  readonly windows: readonly Windowed[];
  readonly rms: number;
}

const out = (key: 'pack' | 'front' | 'rear') => (trail: Trail) => above(trail.track(key));
const back = (key: 'pack' | 'front' | 'rear') => (trail: Trail) => below(trail.track(key));

/** What the charger gives: into the pack, and what is drawn beside it. Only where it hangs on the wall. */
function charged(trail: Trail): Track {
  const [pack, consumers, wall] = [trail.track('pack'), trail.track('consumers'), trail.track('wall')];
  const at = (end: 'from' | 'to'): Float64Array =>
    pack[end].map((amperes, i) => ((wall[end][i] ?? 0) > 0 ? (consumers[end][i] ?? 0) - amperes : 0));
  return { length: pack.length, from: at('from'), to: at('to') };
}

/** @param axles that are driven. @param strings in parallel. */
export function channelsOf(axles: readonly ('front' | 'rear')[], strings: number): readonly Channel[] {
  const pack: Channel = { part: 'pack', prefix: 'pack_', words: 'out of the pack', of: out('pack') };
  const into: Channel = { part: 'pack, charged', prefix: 'pack_charge_', words: 'into the pack', of: back('pack') };
  const string: Channel[] =
    strings > 1
      ? [
          {
            part: 'string',
            prefix: 'string_',
            words: `out of each of ${strings} strings`,
            of: trail => scaled(pack.of(trail), 1 / strings),
            partOf: { channel: pack, share: 1 / strings },
          },
          {
            part: 'string, charged',
            prefix: 'string_charge_',
            words: `into each of ${strings} strings`,
            of: trail => scaled(into.of(trail), 1 / strings),
            partOf: { channel: into, share: 1 / strings },
          },
        ]
      : [];
  const inverters = axles.flatMap((axle): Channel[] => {
    const [name, prefix] = axles.length > 1 ? [`${axle} inverter`, `${axle}_inverter_`] : ['inverter', 'inverter_'];
    return [
      { part: name, prefix, words: `into the ${name}`, of: out(axle) },
      { part: `${name}, braking`, prefix: `${prefix}back_`, words: `out of the ${name}`, of: back(axle) },
    ];
  });
  const charger: Channel = { part: 'charger', prefix: 'charger_', words: 'out of the charger', of: charged };
  return [pack, into, ...string, ...inverters, charger];
}

/** Whether a run may come again at once: after a launch the car has to stop, and launches in a row are a run of their own. */
export function comesAgain({ kind }: Result): boolean {
  return kind !== 'launch';
}

/** All channels; what is a share of another is worked out by it. */
export function allFlows(
  channels: readonly Channel[],
  runs: readonly NamedRun[],
): readonly { readonly channel: Channel; readonly flows: readonly Flow[] }[] {
  const found: { readonly channel: Channel; readonly flows: readonly Flow[] }[] = [];
  for (const channel of channels) {
    const whole = found.find(each => each.channel === channel.partOf?.channel);
    const share = channel.partOf?.share ?? 1;
    const flows = whole === undefined ? flowsOf(channel, runs) : whole.flows.map(flow => shareOf(flow, channel, share));
    found.push({ channel, flows });
  }
  return found;
}

function shareOf(flow: Flow, channel: Channel, share: number): Flow {
  return {
    ...flow,
    channel,
    track: scaled(flow.track, share),
    instant: share * flow.instant,
    windows: flow.windows.map(({ once, repeated, short }) => ({
      once: share * once,
      repeated: share * repeated,
      short,
    })),
    rms: share * flow.rms,
  };
}

/** The channel in every run in which it flows. */
function flowsOf(channel: Channel, runs: readonly NamedRun[]): readonly Flow[] {
  return runs.flatMap(({ name, result, trail }) => {
    const track = channel.of(trail);
    const instant = extremesOf(track).greatest;
    if (!(instant > 0)) return [];
    return [
      {
        channel,
        run: name,
        again: comesAgain(result),
        track,
        instant,
        duration: durationOf(track),
        windows: WINDOWS.map(window => windowed(track, window)),
        rms: rootMeanSquare(track),
      },
    ];
  });
}

/** The one of the most; null of none. */
export function worstOf<T>(all: readonly T[], of: (each: T) => number): T | null {
  return all.reduce<T | null>((worst, each) => (worst === null || of(each) > of(worst) ? each : worst), null);
}

/** The greatest mean of a quantity over a window, looked at from the start of every piece; a shorter run has nothing beside it. */
export function greatestMean({ length, from, to }: Track, window: number): number {
  const duration = durationOf({ length, from, to });
  if (!(duration > window)) return integralOf({ length, from, to }) / window;
  let [most, sum, head, time] = [0, 0, 0, 0];
  length.forEach((h, tail) => {
    while (head < length.length && time < window) {
      sum += 0.5 * (length[head] ?? 0) * ((from[head] ?? 0) + (to[head] ?? 0));
      time += length[head++] ?? 0;
    }
    if (time >= window) most = Math.max(most, sum / time);
    sum -= 0.5 * h * ((from[tail] ?? 0) + (to[tail] ?? 0));
    time -= h;
  });
  return most;
}

function integralOf({ length, from, to }: Track): number {
  return length.reduce((sum, h, i) => sum + 0.5 * h * ((from[i] ?? 0) + (to[i] ?? 0)), 0);
}
