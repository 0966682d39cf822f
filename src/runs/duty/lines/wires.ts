/** The main fuse and the main cable, in general terms. */
import { adiabaticConstant, leastSection, warmedBy } from '../../../model/duty/cable.ts';
import type { Cable, Metal } from '../../../model/duty/cable.ts';
import { bearable, worstPulse } from '../../../model/duty/fuse.ts';
import type { Fuse } from '../../../model/duty/fuse.ts';
import { durationOf, longestAbove } from '../../../model/duty/track.ts';
import type { Track } from '../../../model/duty/track.ts';
import { windowed } from '../../../model/duty/windows.ts';
import { windowWords } from '../currents.ts';
import { amperes, output, share, temperature, volts } from '../../output.ts';
import { celsius } from '../../../units/rounding.ts';
import type { Said } from '../line.ts';
import { comesAgain, worstOf } from '../runs.ts';
import type { NamedRun } from '../runs.ts';

export interface FuseSheet extends Fuse {
  readonly voltage: number | undefined;
  readonly breakingCapacity: number | undefined;
  readonly leastBreaking: number | undefined;
}

/** A that a short circuit right behind the fuse drives at most and at least, V of the full pack. */
export interface ShortCircuit {
  readonly most: number | null;
  readonly least: number | null;
  readonly voltage: number;
}

/** s that count as for ever; common practice, no source. */
const FOR_EVER = 1800;

export function fuseLines(runs: readonly NamedRun[], sheet: FuseSheet, short: ShortCircuit): readonly Said[] {
  const part = 'main fuse';
  const all = runs.map(({ name, result, trail }) => {
    const track = trail.track('pack');
    return { run: name, again: comesAgain(result), track, found: windowed(track, FOR_EVER) };
  });
  const warmest = worstOf(all, ({ found }) => found.once);
  const lines: Said[] = [];
  if (warmest !== null) {
    lines.push({
      key: 'fuse_current',
      part,
      output: amperes(
        'root mean square over 30 min',
        'of the pack current, both ways; a shorter run has nothing before and after it',
      ),
      value: warmest.found.once,
      worst: Math.max(...all.map(({ again, found }) => (again ? found.repeated : found.once))),
      run: warmest.run,
      limit: bearable(sheet),
      note: `against ${sheet.rated} A, times ${sheet.ambient} for its warmth, times ${sheet.share}${shortWords(warmest.run, warmest.track)}`,
    });
  }
  const over = worstOf(
    all.flatMap(({ run, track }) => {
      const found = longestAbove(track, sheet.rated);
      return found === null ? [] : [{ run, ...found }];
    }),
    ({ time }) => time,
  );
  const { curve } = sheet;
  const pulse =
    curve === null
      ? null
      : worstOf(
          all.flatMap(({ run, track }) => {
            const found = worstPulse(curve, track);
            return found === null ? [] : [{ run, ...found }];
          }),
          each => each.share,
        );
  lines.push({
    key: 'fuse_pulse',
    part,
    output: share(
      'heat of the worst pulse, of what melts it',
      'I^2 t over every length that the melting curve tells of',
    ),
    value: pulse?.share ?? null,
    run: pulse?.run ?? '',
    limit: curve === null ? null : sheet.pulseShare,
    ...(curve === null && over !== null && { verdict: 'look' as const }),
    note:
      pulse === null
        ? `no melting curve is given${over === null ? '' : `, and it decides: ${over.run} draws ${over.current.toFixed(0)} A, ${(over.current / sheet.rated).toFixed(2)} times the rated ${sheet.rated} A, for ${over.time.toFixed(over.time < 10 ? 1 : 0)} s`}`
        : `${pulse.current.toFixed(0)} A for ${pulse.time.toPrecision(3)} s, where ${pulse.melting.toFixed(0)} A melt it`,
  });
  lines.push(
    {
      key: 'short_circuit_current',
      part,
      output: amperes(
        'greatest current of a short circuit',
        'full pack, warm and as new as it is: E/R, inductances left aside',
      ),
      value: short.most,
      limit: sheet.breakingCapacity ?? null,
      note: short.most === null ? 'the pack has no resistance' : '',
    },
    {
      key: 'short_circuit_least',
      part,
      output: amperes(
        'least current of a short circuit',
        'pack at the low end, cold and worn: E/R at the pack; wiring farther on makes it less',
      ),
      value: short.least,
      limit: sheet.leastBreaking ?? null,
      side: 'least',
      note: short.least === null ? 'the pack has no resistance' : '',
    },
    {
      key: 'fuse_voltage',
      part,
      output: volts('voltage that it must break', 'the highest of the pack, direct'),
      value: short.voltage,
      sharp: true,
      limit: sheet.voltage ?? null,
    },
  );
  return lines;
}

/** Says of a run that it is shorter than what counts as for ever; '' of one that is not. */
function shortWords(run: string, track: Track): string {
  const duration = durationOf(track);
  return duration < FOR_EVER
    ? `; ${run} lasts ${duration.toFixed(0)} s and not ${windowWords(FOR_EVER)}: once, with nothing before and after it`
    : '';
}

export interface CableSheet extends Cable {
  /** K. */
  readonly ambient: number;
  readonly greatest: number | undefined;
  readonly metal: Metal;
  /** m2. */
  readonly section: number | undefined;
  /** A2 s. */
  readonly shortHeat: number | undefined;
  readonly shortGreatest: number;
}

/** What is missing to judge a cable of which a sheet is entered. */
export const UNJUDGED = 'not judged: “greatest”, the temperature that its insulation bears, is not entered';

export function cableLines(runs: readonly NamedRun[], sheet: CableSheet): readonly Said[] {
  const part = 'main cable';
  const all = runs.map(({ name, result, trail }) => {
    const { once, repeated } = warmedBy(sheet, trail.track('pack'));
    return { run: name, once, repeated: comesAgain(result) ? repeated : once };
  });
  const worst = worstOf(all, ({ once }) => once);
  const again = worstOf(all, ({ repeated }) => repeated);
  const lines: Said[] = [];
  if (worst !== null && again !== null) {
    lines.push({
      key: 'cable_temperature',
      part,
      output: temperature('temperature of the conductor', 'one time constant, from the warmth of its surroundings'),
      value: sheet.ambient + worst.once,
      worst: sheet.ambient + again.repeated,
      run: worst.run,
      limit: sheet.greatest ?? null,
      note: `${sheet.greatest === undefined ? `${UNJUDGED}; ` : ''}${worst.once.toFixed(1)} K above its surroundings${again.repeated > again.once ? `; ${again.run} again and again without a pause ${again.repeated.toFixed(1)} K` : ''}`,
    });
  }
  if (sheet.shortHeat === undefined) return lines;
  const start = sheet.greatest ?? sheet.ambient + (worst?.once ?? 0);
  const constant = adiabaticConstant(sheet.metal, start, sheet.shortGreatest);
  lines.push({
    key: 'cable_section',
    part,
    output: output(
      'section that bears a short circuit',
      'm^2',
      'mm^2',
      'mm^2',
      'I^2 t = k^2 S^2 (IEC 60949, adiabatic)',
    ),
    value: leastSection(sheet.shortHeat, constant),
    limit: sheet.section ?? null,
    note: `${sheet.metal}, k = ${(constant / 1e6).toFixed(0)} A s^0.5/mm², from ${celsius(start, 0)} to ${celsius(sheet.shortGreatest, 0)}`,
  });
  return lines;
}
