/** What parts must stand in the runs that are named: requirements, and where data sheets are entered what they say to them. */
import type { Car } from '../../model/car.ts';
import type { Input } from '../../model/fields/input.ts';
import type { DutySpec } from '../../model/duty/fields.ts';
import { prospectiveCurrent } from '../../model/duty/fuse.ts';
import type { Result, Series } from '../result.ts';
import { column, textColumn } from '../column.ts';
import { sound } from '../sound.ts';
import { WINDOWS } from '../../model/duty/windows.ts';
import { item } from '../../columns.ts';
import { backEmfLine, packStanding, voltageLines, worn } from './lines/voltages.ts';
import type { Hanging } from './lines/voltages.ts';
import { brakeLines, chargerLines, converterLine, coolantLine } from './lines/beside.ts';
import { currentLines } from './lines/currents.ts';
import type { Rating } from './lines/currents.ts';
import { dischargeLines, prechargeLines } from './lines/bus.ts';
import { shaftLines } from './lines/shafts.ts';
import type { AxleDuty } from './lines/shafts.ts';
import { cableLines, fuseLines } from './lines/wires.ts';
import { judge } from './line.ts';
import type { Said } from './line.ts';
import { allFlows, channelsOf } from './runs.ts';
import type { Channel, Flow, NamedRun } from './runs.ts';
import { sheetsOf } from './sheets.ts';
import type { Sheets } from './sheets.ts';
import { tellLines } from './told-lines.ts';

export interface DutyQuestion {
  /** Of the cell: the head of paths in complaints. */
  readonly name: string;
  readonly car: Car;
  /** At least one. */
  readonly runs: readonly NamedRun[];
  readonly spec: DutySpec;
  /** What is assumed is appended. */
  readonly inputs: Input[];
  /** What was written, with its spreads; left out: without any. */
  readonly given?: readonly Input[];
}

/** @throws SpecError */
export function duty({ name, car, runs, spec, inputs, given = [] }: DutyQuestion): Result {
  const sheets = sheetsOf(name, spec, inputs, given);
  const axles = car.drives.map(({ axle }) => axle);
  const channels = channelsOf(axles, car.pack.parallel);
  const flows = allFlows(channels, runs);
  const shafts = axles.map(axle =>
    shaftLines(runs, axle, axles.length > 1 ? `${axle}_` : '', car.tyres[axle].radius, sheets.shafts),
  );
  const said = [
    ...flows.flatMap(each =>
      each.channel.part === 'charger' ? [] : currentLines(each.flows, ratingFor(each.channel, sheets)),
    ),
    ...contactorLines(flows, sheets),
    ...shafts.flatMap(({ lines }) => lines),
    ...busLines(car, sheets),
    ...wireLines(car, runs, sheets),
    ...standing(car, runs, sheets, flows),
    ...besides(car, runs, spec, flows),
    ...brakeLines(car, sheets.brakes.speed, sheets.brakes.deceleration),
  ];
  const told = tellLines(said.map(judge(sheets.lookFrom)));
  return sound({
    kind: 'duty',
    ...told,
    series: {
      ...told.series,
      currents: currentSeries(flows.flatMap(each => each.flows)),
      cycles: cycleSeries(axles, shafts),
    },
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    opinion: null,
  });
}

type Flowing = readonly { readonly channel: Channel; readonly flows: readonly Flow[] }[];

const NO_RATING: Rating = { continuous: undefined, pulses: [] };

function ratingFor({ part }: Channel, sheets: Sheets): Rating {
  if (part === 'pack' || part === 'string') return sheets.rating(part);
  if (part === 'pack, charged') return sheets.charge;
  return part.includes('inverter') ? sheets.rating('inverter') : NO_RATING;
}

/** The contactor carries what the pack gives. */
function contactorLines(flows: Flowing, sheets: Sheets): readonly Said[] {
  const pack = flows.find(({ channel }) => channel.part === 'pack');
  const rating = sheets.rating('contactor');
  if (pack === undefined || rating.continuous === undefined) return [];
  const channel = { ...pack.channel, part: 'contactor', prefix: 'contactor_', words: 'through it' };
  return currentLines(
    pack.flows.map(flow => ({ ...flow, channel })),
    rating,
  );
}

function busLines(car: Car, sheets: Sheets): readonly Said[] {
  const { pack } = car;
  const { ohm } = packStanding(pack, pack.window.high, 298.15);
  const charge = sheets.precharge(pack.maxVoltage, ohm);
  const discharge = sheets.discharge(pack.maxVoltage);
  return [...(charge === null ? [] : prechargeLines(charge)), ...(discharge === null ? [] : dischargeLines(discharge))];
}

function wireLines({ pack }: Car, runs: readonly NamedRun[], { fuse, cable, weakest }: Sheets): readonly Said[] {
  const full = packStanding(pack, pack.window.high, 298.15);
  const weak = packStanding(worn(pack, weakest), pack.window.low, weakest.temperature);
  const of = (emf: number, ohm: number): number | null => (ohm > 0 ? prospectiveCurrent(emf, ohm) : null);
  const short = { most: of(pack.maxVoltage, full.ohm), least: of(weak.emf, weak.ohm), voltage: pack.maxVoltage };
  return [...(fuse === null ? [] : fuseLines(runs, fuse, short)), ...(cable === null ? [] : cableLines(runs, cable))];
}

function standing(car: Car, runs: readonly NamedRun[], sheets: Sheets, flows: Flowing): readonly Said[] {
  const { inverter, charger, converter, contactor } = sheets.spec;
  const hanging: readonly Hanging[] = [
    {
      part: 'inverter',
      prefix: 'inverter_',
      least: inverter?.leastVoltage,
      greatest: inverter?.greatestVoltage,
      loaded: true,
    },
    {
      part: 'charger',
      prefix: 'charger_',
      least: charger?.leastVoltage,
      greatest: charger?.greatestVoltage,
      loaded: false,
    },
    {
      part: 'converter',
      prefix: 'converter_',
      least: converter?.leastVoltage,
      greatest: converter?.greatestVoltage,
      loaded: true,
    },
    { part: 'contactor', prefix: 'contactor_', least: undefined, greatest: contactor?.greatestVoltage, loaded: true },
  ];
  const pack = flows.find(({ channel }) => channel.part === 'pack')?.flows ?? [];
  const ten = WINDOWS.indexOf(10);
  const current = Math.max(0, ...pack.map(({ windows }) => item(windows, ten).once));
  return [...voltageLines(car, runs, hanging, sheets.weakest, current), ...emfLines(car, runs, sheets)];
}

function emfLines(car: Car, runs: readonly NamedRun[], { backEmf, spec }: Sheets): readonly Said[] {
  if (backEmf === null) return [];
  const fastest = runs
    .map(({ name, result, trail }) => {
      const { top_speed } = result.summary;
      const own = trail.track('speed');
      const driven = own.to.reduce((most, speed) => Math.max(most, speed), 0);
      return { run: name, speed: Math.max(driven, typeof top_speed === 'number' ? top_speed : 0) };
    })
    .reduce((a, b) => (b.speed > a.speed ? b : a));
  return car.drives.map(({ axle, ratio, gearbox }) => {
    const whole = ratio * (gearbox?.gears.at(-1)?.ratio ?? 1);
    const [part, prefix] = car.drives.length > 1 ? [`${axle} inverter`, `${axle}_`] : ['inverter', ''];
    const speed = (fastest.speed / car.tyres[axle].radius) * whole;
    return backEmfLine(car.pack, {
      part,
      prefix,
      ...backEmf,
      speed,
      run: fastest.run,
      greatest: spec.inverter?.greatestVoltage,
    });
  });
}

function besides(car: Car, runs: readonly NamedRun[], spec: DutySpec, flows: Flowing): readonly Said[] {
  const charger = flows.find(({ channel }) => channel.part === 'charger')?.flows ?? [];
  const coolant = coolantLine(runs, spec.coolant?.power);
  return [
    ...chargerLines(charger, runs, { direct: spec.charger?.current, phase: spec.charger?.phaseCurrent }),
    converterLine(car, spec.converter?.power),
    ...(coolant === null ? [] : [coolant]),
  ];
}

/** Of every channel in every run: instant, windows once and repeated, root mean square. */
function currentSeries(flows: readonly Flow[]): Series {
  const amps = (label: string, of: (flow: Flow) => number) =>
    column(label, 'A', 'A', 'A', Float64Array.from(flows, of));
  const windows = WINDOWS.flatMap((window, i) => [
    [`current_${window}_s_A`, amps(`over ${window} s`, flow => item(flow.windows, i).once)] as const,
    [`repeated_${window}_s_A`, amps(`over ${window} s, repeated`, flow => item(flow.windows, i).repeated)] as const,
  ]);
  return {
    channel: textColumn(
      'current',
      flows.map(({ channel }) => channel.words),
    ),
    run: textColumn(
      'run',
      flows.map(({ run }) => run),
    ),
    duration_s: column(
      'lasts',
      's',
      's',
      's',
      Float64Array.from(flows, ({ duration }) => duration),
    ),
    current_A: amps('at any instant', ({ instant }) => instant),
    ...Object.fromEntries(windows),
    rms_A: amps('r.m.s.', ({ rms }) => rms),
  };
}

function cycleSeries(axles: readonly string[], shafts: readonly AxleDuty[]): Series {
  const rows = shafts.flatMap(({ cycles }, i) =>
    (cycles?.classes ?? []).map(each => ({ ...each, axle: axles[i] ?? '', run: cycles?.run ?? '' })),
  );
  const torques = (label: string, of: (row: (typeof rows)[number]) => number) =>
    column(label, 'N m', 'N m', 'lbf ft', Float64Array.from(rows, of));
  return {
    axle: textColumn(
      'axle',
      rows.map(({ axle }) => axle),
    ),
    run: textColumn(
      'run',
      rows.map(({ run }) => run),
    ),
    range_N_m: torques('range', ({ range }) => range),
    mean_N_m: torques('mean', ({ mean }) => mean),
    count_1: column(
      'cycles in 1000 km',
      '1',
      '1',
      '1',
      Float64Array.from(rows, ({ count }) => count),
    ),
  };
}
