/** What half shafts, joints and gears must stand: the greatest torque, and cycles of it. */
import { nth } from '../../../columns.ts';
import { durationOf, meanOf, scaled } from '../../../model/duty/track.ts';
import type { Track } from '../../../model/duty/track.ts';
import { classed, equivalentRange, equivalentTorque, rainflow, turningPointsOf } from '../../../model/duty/rainflow.ts';
import type { Cycle, RangeClass } from '../../../model/duty/rainflow.ts';
import { halfShaft, halfShaftExtremes } from '../currents.ts';
import { number, torque } from '../../output.ts';
import type { Said } from '../line.ts';
import { worstOf } from '../runs.ts';
import type { NamedRun } from '../runs.ts';

/** m for which cycles and turns are told. */
const WAY = 1e6;

/** Kinds of run whose way is that of a day: a full-pedal start of a kilometre is not driven a thousand times in a row. */
const ON_THE_WAY: ReadonlySet<string> = new Set(['drive', 'range', 'steady']);

/** Classes of a table of cycles. */
const CLASSES = 12;

export interface ShaftSheet {
  /** N m; undefined where nothing is known. */
  readonly torque: number | undefined;
  readonly joint: number | undefined;
  readonly dynamicFactor: number;
  readonly exponent: number;
  /** The most that it may be, by its spread; the factor itself where it has none. */
  readonly mostDynamic: number;
  /** N m of both half shafts together, and its slope. */
  readonly gears: number | undefined;
  readonly gearExponent: number;
}

export interface AxleDuty {
  readonly lines: readonly Said[];
  /** Of the run that does most damage; null where none of them goes far. */
  readonly cycles: { readonly run: string; readonly classes: readonly RangeClass[] } | null;
}

/** @param radius m of its tyres. @param prefix of its figures: `front_` where both axles are driven. */
export function shaftLines(
  runs: readonly NamedRun[],
  axle: 'front' | 'rear',
  prefix: string,
  radius: number,
  sheet: ShaftSheet,
): AxleDuty {
  const all = runs.map(({ name, result, trail }) => ({
    run: name,
    goes: ON_THE_WAY.has(result.kind),
    shaft: halfShaft(trail, axle),
    extremes: halfShaftExtremes(trail, axle),
    speed: trail.track('speed'),
  }));
  const forwards = worstOf(all, ({ extremes }) => extremes.greatest);
  const backwards = worstOf(all, ({ extremes }) => -extremes.least);
  const lines: Said[] = [];
  const part = prefix === '' ? 'half shaft' : `${axle} half shaft`;
  const factor = sheet.dynamicFactor;
  const both = prefix === '' ? 'final drive' : `${axle} final drive`;
  if (forwards !== null && backwards !== null) {
    const [drives, brakes] = [Math.max(0, forwards.extremes.greatest), Math.max(0, -backwards.extremes.least)];
    const most = Math.max(drives, brakes) * factor;
    const worst = Math.max(drives, brakes) * sheet.mostDynamic;
    const run = drives >= brakes ? forwards.run : backwards.run;
    const note = `smooth run ${drives.toFixed(0)} N m driving and ${brakes.toFixed(0)} N m braking, times a dynamic factor of ${factor}${sheet.mostDynamic > factor ? `, which may be ${sheet.mostDynamic}: up to ${((most / factor) * sheet.mostDynamic).toFixed(0)} N m` : ''}; half of the axle with an open differential`;
    const doc = 'greatest of all runs, either way, times the dynamic factor';
    lines.push(
      {
        key: `${prefix}shaft_torque`,
        part,
        output: torque('torque in one half shaft', doc),
        value: most,
        worst,
        run,
        limit: sheet.torque ?? null,
        note,
      },
      {
        key: `${prefix}joint_torque`,
        part: part.replace('half shaft', 'joint'),
        output: torque('torque in one joint', doc),
        value: most,
        worst,
        run,
        limit: sheet.joint ?? null,
        note: 'as the half shaft',
      },
      {
        key: `${prefix}gear_torque`,
        part: both,
        output: torque('torque of the final drive', 'both half shafts together, times the dynamic factor'),
        value: 2 * most,
        worst: 2 * worst,
        run,
        limit: sheet.gears ?? null,
      },
    );
  }
  const far = all.flatMap(each => {
    const way = meanOf(each.speed) * durationOf(each.speed);
    if (!each.goes || !(way > 0)) return [];
    const cycles = rainflow(turningPointsOf(each.shaft));
    return [{ ...each, way, cycles, equivalent: equivalentRange(cycles, sheet.exponent, WAY / way) }];
  });
  const farthest = worstOf(far, ({ equivalent }) => equivalent);
  if (farthest === null) return { lines, cycles: null };
  lines.push(...farLines(farthest, prefix, part, both, radius, sheet));
  return {
    lines,
    cycles: { run: farthest.run, classes: perWay(classed(farthest.cycles, CLASSES), WAY / farthest.way) },
  };
}

interface Far {
  readonly run: string;
  readonly shaft: Track;
  readonly speed: Track;
  readonly way: number;
  readonly cycles: readonly Cycle[];
  readonly equivalent: number;
}

function farLines(
  { run, shaft, speed, way, equivalent }: Far,
  prefix: string,
  part: string,
  both: string,
  radius: number,
  { exponent, gearExponent }: ShaftSheet,
): readonly Said[] {
  const turns = turnsOf(speed, radius);
  const gear = scaled(shaft, 2);
  const per = WAY / way;
  const flank = (sign: 1 | -1): { readonly torque: number; readonly turns: number } =>
    equivalentTorque({ torque: gear, turns }, gearExponent, sign);
  const [driving, coasting] = [flank(1), flank(-1)];
  return [
    {
      key: `${prefix}shaft_equivalent_range`,
      part,
      output: torque(
        'range of torque that counts for 1000 km',
        `once in 1000 km it does as much as all cycles: (sum n T^k)^(1/k) with k = ${exponent}`,
      ),
      value: equivalent,
      run,
      verdict: 'figure',
    },
    {
      key: `${prefix}wheel_turns`,
      part,
      output: number('turns of the wheel in 1000 km', 'slip left aside'),
      value: WAY / (2 * Math.PI * radius),
      verdict: 'figure',
    },
    ...(
      [
        ['driving', driving, 'drive'],
        ['other', coasting, 'coast'],
      ] as const
    ).flatMap(([flankWords, found, key]): Said[] =>
      found.turns > 0
        ? [
            {
              key: `${prefix}gear_equivalent_${key}`,
              part: both,
              output: torque(
                `torque that counts, ${flankWords} flank`,
                `over its turns: (sum n T^k / sum n)^(1/k) with k = ${gearExponent}, as ISO 6336-6 reckons`,
              ),
              value: found.torque,
              run,
              verdict: 'figure',
              note: `over ${(found.turns * per).toFixed(0)} turns of the wheel in 1000 km`,
            },
          ]
        : [],
    ),
  ];
}

/** Turns of the wheels in each piece, slip left aside. */
function turnsOf({ length, from, to }: Track, radius: number): Float64Array {
  return length.map((h, i) => (0.5 * h * (nth(from, i) + nth(to, i))) / (2 * Math.PI * radius));
}

function perWay(classes: readonly RangeClass[], times: number): readonly RangeClass[] {
  return classes.map(each => ({ ...each, count: each.count * times }));
}
