/** Voltages of the pack over charge, warmth and age, against the windows of what hangs on it. */
import type { Car, Pack, VoltageWindow } from '../../../model/car.ts';
import { packAt, packFigures, PackNow } from '../../../model/pack/state.ts';
import { misfitsOf, openVoltage } from '../../../model/pack/voltage-window.ts';
import { extremesOf } from '../../../model/duty/track.ts';
import { number, volts } from '../../output.ts';
import { celsius } from '../../../units/rounding.ts';
import type { Said } from '../line.ts';
import { worstOf } from '../runs.ts';
import type { NamedRun } from '../runs.ts';

/** What hangs on the pack, by its sheet. */
export interface Hanging {
  readonly part: string;
  readonly prefix: string;
  readonly least: number | undefined;
  readonly greatest: number | undefined;
  /** Whether it has to work while the pack is under load. */
  readonly loaded: boolean;
}

export interface Weakest {
  /** K, and resistance over that of the car. */
  readonly temperature: number;
  readonly resistanceGrowth: number;
}

/** V of a pack without load, and its ohm, at a charge and a temperature in K. */
export function packStanding(
  pack: Pack,
  charge: number,
  temperature: number,
): { readonly emf: number; readonly ohm: number } {
  const now = new PackNow();
  now.charge = charge;
  now.temperature = temperature;
  packAt(packFigures(pack), now);
  return { emf: now.emf, ohm: now.resistance };
}

/** The pack when it is worn. */
export function worn(pack: Pack, { resistanceGrowth }: Weakest): Pack {
  return { ...pack, resistanceGrowth: pack.resistanceGrowth * resistanceGrowth };
}

/** @param current A that the runs ask for over 10 s. */
export function voltageLines(
  { pack }: Car,
  runs: readonly NamedRun[],
  hanging: readonly Hanging[],
  weakest: Weakest,
  current: number,
): readonly Said[] {
  const low = openVoltage(pack, pack.window.low);
  const lowest = worstOf(
    runs.map(({ name, trail }) => ({ run: name, least: extremesOf(trail.track('voltage')).least })),
    ({ least }) => -least,
  );
  const cold = packStanding(worn(pack, weakest), pack.window.low, weakest.temperature);
  const sags = cold.emf - cold.ohm * current;
  const part = 'pack voltage';
  const gives = (cold.emf - pack.minVoltage) / cold.ohm;
  const lines: Said[] = [
    {
      key: 'voltage_greatest',
      part,
      output: volts('highest', 'full, on the charger and while braking'),
      value: pack.maxVoltage,
      verdict: 'figure',
    },
    {
      key: 'voltage_open_low',
      part,
      output: volts('without load at the low end', 'of the window that is used'),
      value: low,
      verdict: 'figure',
    },
    ...(lowest === null
      ? []
      : [
          {
            key: 'voltage_least',
            part,
            output: volts('lowest of all runs', 'under load'),
            value: lowest.least,
            run: lowest.run,
            verdict: 'figure' as const,
          },
        ]),
    {
      key: 'voltage_weakest',
      part,
      output: volts('at the low end, cold and worn', 'under the current of the worst 10 s'),
      value: sags > 0 ? sags : null,
      verdict: sags < pack.minVoltage ? 'look' : 'figure',
      note: `at ${celsius(weakest.temperature, 0)} with ${Number(weakest.resistanceGrowth.toPrecision(3))} times the resistance, under ${current.toFixed(0)} A${
        sags < pack.minVoltage
          ? `: below the ${pack.minVoltage.toFixed(0)} V that its cells may come to; there it gives ${Math.max(0, gives).toFixed(0)} A`
          : ''
      }`,
    },
  ];
  for (const each of hanging) lines.push(...windowLines(pack, each, low, lowest?.least));
  return [...lines, ...cellLines(pack, hanging)];
}

function windowLines(
  pack: Pack,
  { part, prefix, least, greatest, loaded }: Hanging,
  low: number,
  sagged: number | undefined,
): readonly Said[] {
  const window: VoltageWindow = { least: least ?? 0, greatest: greatest ?? Infinity };
  const misfits = misfitsOf(pack, window);
  const cure = (side: 'least' | 'greatest'): string => {
    const found = misfits.find(each => each.side === side);
    return found === undefined ? '' : `${found.words}: ${found.cure}`;
  };
  const lines: Said[] = [];
  if (greatest !== undefined)
    lines.push({
      key: `${prefix}voltage`,
      part,
      output: volts('voltage that it must bear', 'the highest of the pack'),
      value: pack.maxVoltage,
      limit: greatest,
      sharp: true,
      note: cure('greatest'),
    });
  if (least !== undefined)
    lines.push({
      key: `${prefix}voltage_least`,
      part,
      output: volts('voltage at which it must work', 'pack at the low end without load'),
      value: low,
      limit: least,
      side: 'least',
      sharp: true,
      ...(loaded && sagged !== undefined && { worst: sagged }),
      note:
        cure('least') ||
        (loaded && sagged !== undefined && sagged < least
          ? `under load the runs come down to ${sagged.toFixed(0)} V: it gives less there`
          : ''),
    });
  return lines;
}

/** How many cells in series suit everything that says its voltages. */
function cellLines(pack: Pack, hanging: readonly Hanging[]): readonly Said[] {
  const perCell = openVoltage({ series: 1, cell: pack.cell }, pack.window.low);
  const most = worstOf(
    hanging.flatMap(({ part, greatest }) =>
      greatest === undefined ? [] : [{ part, cells: Math.floor(greatest / pack.cell.maxVoltage) }],
    ),
    ({ cells }) => -cells,
  );
  const fewest = worstOf(
    hanging.flatMap(({ part, least }) => (least === undefined ? [] : [{ part, cells: Math.ceil(least / perCell) }])),
    ({ cells }) => cells,
  );
  const lines: Said[] = [];
  const part = 'cells in series';
  if (most !== null)
    lines.push({
      key: 'cells_most',
      part,
      output: number('at most', 'that everything bears when they are full'),
      value: most.cells,
      verdict: pack.series > most.cells ? 'fail' : 'pass',
      note: `for the ${most.part}; the pack has ${pack.series}`,
    });
  if (fewest !== null)
    lines.push({
      key: 'cells_fewest',
      part,
      output: number('at least', 'with which everything works down to the low end, without load'),
      value: fewest.cells,
      verdict: pack.series < fewest.cells ? 'fail' : 'pass',
      note: `for the ${fewest.part}; the pack has ${pack.series}`,
    });
  return lines;
}

export interface BackEmf {
  readonly part: string;
  readonly prefix: string;
  /** V at rad/s. */
  readonly volts: number;
  readonly at: number;
  /** rad/s of the motor at the greatest speed of the runs, and which run that is. */
  readonly speed: number;
  readonly run: string;
  readonly greatest: number | undefined;
}

export function backEmfLine(pack: Pack, { part, prefix, volts: emf, at, speed, run, greatest }: BackEmf): Said {
  const value = (emf * speed) / at;
  const low = openVoltage(pack, pack.window.low);
  return {
    key: `${prefix}back_emf`,
    part,
    output: volts(
      'voltage of the turning motor',
      'peak between two phases with nothing connected, at the greatest speed of the runs',
    ),
    value,
    run,
    limit: greatest ?? null,
    sharp: true,
    note: `at ${(speed * (30 / Math.PI)).toFixed(0)} rpm${value > low ? `; above the ${low.toFixed(0)} V of the pack at its low end: an inverter that switches off there lets it charge and brake by itself` : ''}`,
  };
}
