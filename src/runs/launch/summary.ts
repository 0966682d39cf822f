/** The numbers of a launch, in the order and with the meaning that `launch-outputs.ts` gives them. */
import { nth } from '../../columns.ts';
import type { Car } from '../../model/car.ts';
import { AXLE_LOOK, AXLE_LOOKS, LOOK } from '../../model/forward/by-products.ts';
import { atGrip, DISTANCE, SPEED } from '../../model/forward/state.ts';
import type { Wanted } from '../kind.ts';
import { closely, Figure, greatestAlong } from './extremes.ts';
import type { Closely } from './extremes.ts';
import { DISTANCE_MARKS, SPEED_MARKS } from './marks.ts';
import type { Mark } from './marks.ts';
import { launchOutputs } from './outputs.ts';
import { TARGET } from './run.ts';
import type { LaunchOptions, LaunchRun } from './run.ts';
import { TRAILS } from '../trailing-wheels.ts';
import { stateAt } from '../../solvers/noted.ts';
import { integral, shaftEnergy, terminalEnergyOf } from '../ledger.ts';
import { putInto } from '../found.ts';
import type { Put } from '../found.ts';
import type { Figures } from '../sound.ts';

/** Values by key, undefined for what is not told (yet), and for every null its reason. */
export interface Summarised {
  readonly values: { [key: string]: number | string | null | undefined };
  readonly reasons: { [key: string]: string };
}

/** A figure told at a mark: the time since the start of the clock or since another mark, or the speed there. */
interface AtMark {
  readonly tells: 'time' | 'speed';
  readonly mark: Mark;
  readonly since?: Mark;
}

const AT_MARKS: ReadonlyMap<string, AtMark> = new Map<string, AtMark>([
  ['time', { tells: 'time', mark: 'to' }],
  ...(Object.keys(SPEED_MARKS) as Mark[]).flatMap((mark): [string, AtMark][] => [
    [`time_to_${mark}`, { tells: 'time', mark }],
    [`time_to_${mark}_rollout`, { tells: 'time', mark, since: 'rollout' }],
  ]),
  ['time_50_to_80_km_h', { tells: 'time', mark: '80_km_h', since: '50_km_h' }],
  ['time_80_to_120_km_h', { tells: 'time', mark: '120_km_h', since: '80_km_h' }],
  ...(Object.keys(DISTANCE_MARKS) as Mark[]).flatMap((mark): [string, AtMark][] => [
    [`time_${mark}`, { tells: 'time', mark }],
    [`speed_${mark}`, { tells: 'speed', mark }],
    [`time_${mark}_rollout`, { tells: 'time', mark, since: 'rollout' }],
  ]),
]);

const ALL_AT_MARKS = Array.from(AT_MARKS, ([key, figure]) => ({ key, figure }));

/** All figures, none of them told: a copy of it takes them in half the time of an object that grows with each. */
const UNTOLD: Summarised['values'] = Object.fromEntries(Object.keys(launchOutputs).map(key => [key, undefined]));

/** The mark of a figure that needs no run beyond a mark, and the one that it is told since; undefined for any other figure. */
export function marksOf(key: string): readonly Mark[] | undefined {
  const figure = AT_MARKS.get(key);
  if (figure === undefined) return undefined;
  return figure.since === undefined ? [figure.mark] : [figure.since, figure.mark];
}

/** Times, distances, peaks and the part of the grip bill that the run itself tells. */
export function summarise(run: LaunchRun, car: Car, options: LaunchOptions, wanted?: Wanted): Summarised {
  const summarised = summariseMarks(run, options);
  const { values, reasons } = summarised;
  const put = putInto(values, reasons);
  peaks(run, car, wanted, values);
  temperatures(run, put);
  gripOfRun(run, (options.to ?? TARGET) < TARGET, put);
  return summarised;
}

/** What is told at the marks alone. */
function summariseMarks(run: LaunchRun, { from = 0, to = TARGET }: LaunchOptions): Summarised {
  const found: Summarised = { values: { ...UNTOLD, target_speed: to }, reasons: {} };
  for (const { key, figure } of ALL_AT_MARKS) tell(found, key, figure, run, from, to);
  return found;
}

/** Of what is told at the marks alone these figures, with the target. */
export function figuresAtMarks(
  run: LaunchRun,
  { from = 0, to = TARGET }: LaunchOptions,
  wanted: readonly string[],
): Figures {
  const values = { target_speed: to };
  const reasons = {};
  for (const key of wanted) {
    const figure = AT_MARKS.get(key);
    if (figure !== undefined) tell({ values, reasons }, key, figure, run, from, to);
  }
  return { summary: values, reasons };
}

const UNREACHED = 'not reached in this run';

/** Says of the speeds that were not reached which of them the car can not reach at all. @param to m/s, the target. @param top m/s that it can go. */
export function tellTopSpeed({ reasons }: Summarised, to: number, top: number): void {
  for (const { key, figure } of ALL_AT_MARKS) {
    const level = figure.mark === 'to' ? to : levelOf(figure.mark);
    if (reasons[key] === UNREACHED && level < Infinity && level > top) reasons[key] = 'above its top speed';
  }
}

/** Puts a figure at a mark among what is found, or the reason why it is not. */
function tell(
  { values, reasons }: Summarised,
  key: string,
  figure: AtMark,
  run: LaunchRun,
  from: number,
  to: number,
): void {
  const { tells, mark, since } = figure;
  // A level that the run starts on or above is not passed.
  const starts = !isAbove(mark, from, to) || (since !== undefined && !isAbove(since, from, to));
  const at = starts ? undefined : run.marks.get(mark);
  const before = starts || since === undefined ? undefined : run.marks.get(since);
  if (at !== undefined && (since === undefined || before !== undefined)) {
    values[key] = tells === 'speed' ? stateAt(at, SPEED) : at.time - (before?.time ?? 0);
    return;
  }
  values[key] = null;
  const early = earlyWords(run);
  reasons[key] = starts ? 'the run starts at or above that speed' : early === '' ? UNREACHED : `not reached: ${early}`;
}

/** Whether a mark lies above the speed at which the run starts. */
function isAbove(mark: Mark, from: number, to: number): boolean {
  return (mark === 'to' ? to : from > 0 ? levelOf(mark) : Infinity) > from;
}

/** Why a run ended where a motor turns faster than it may or would be held back at its top speed, or where the pack carries nothing any more; '' where it did not. */
export function earlyWords({ marks, starved }: LaunchRun): string {
  const empty = marks.get('empty');
  if (empty !== undefined && starved !== undefined)
    return `${empty.time.toPrecision(3)} s after the start ${starved.why}`;
  const over = marks.get('over');
  const end = over ?? marks.get('behind');
  if (end === undefined) return '';
  const at = `at ${(3.6 * nth(end.states, SPEED)).toFixed(0)} km/h`;
  return over === undefined
    ? `${at} a motor comes to its top speed ${TRAILS}`
    : `${at} one of the motors turns faster than it may, driven by the other one`;
}

/** m/s of a mark that is a speed, Infinity for any other. */
function levelOf(mark: Mark): number {
  return SPEEDS.get(mark) ?? Infinity;
}

const SPEEDS: ReadonlyMap<Mark, number> = new Map(Object.entries(SPEED_MARKS) as [Mark, number][]);

/**
 * Greatest and least values all along the run. Torques and slip are those of the driven axle that has the most; pack values are for the car.
 * @param wanted these alone are looked for between the steps.
 */
function peaks(run: LaunchRun, car: Car, wanted: Wanted, values: Summarised['values']): void {
  const close = closely(run);
  for (const { key, of } of OF_CAR) if (isWanted(wanted, key)) values[key] = greatestAlong(close, of);
  for (const { key, of } of OF_AXLE) {
    if (!isWanted(wanted, key)) continue;
    const { front, rear } = greatestOfAxles(close, car, of);
    values[key] = Math.max(front, rear);
  }
  if (isWanted(wanted, LOWEST)) values[LOWEST] = -greatestAlong(close, SAGGED);
  values['energy_used'] = terminalEnergyOf(run);
}

/** The greatest value of a figure at each axle; -Infinity where it is not driven. */
function greatestOfAxles(close: Closely, car: Car, of: OfAxle['of']): { front: number; rear: number } {
  const { driven, atFront } = close.run.plant;
  const greatest = { front: -Infinity, rear: -Infinity };
  for (let i = 0; i < driven.length; i++) {
    const axle = driven[i] === atFront ? 'front' : 'rear';
    greatest[axle] = greatestAlong(close, of(LOOK.axles + i * AXLE_LOOKS, 2 * car.tyres[axle].inertia));
  }
  return greatest;
}

/** N m on both half shafts of an axle together, nothing where it is not driven. */
export function greatestShaftTorques(run: LaunchRun, car: Car): { readonly front: number; readonly rear: number } {
  const { front, rear } = greatestOfAxles(closely(run), car, onShafts);
  return { front: Math.max(0, front), rear: Math.max(0, rear) };
}

function isWanted(wanted: Wanted, key: string): boolean {
  return wanted === undefined || wanted.includes(key);
}

const LOWEST = 'lowest_pack_voltage';
/** V, below nothing. */
const SAGGED = new Figure(LOOK.voltage, { factor: -1 });

interface OfCar {
  readonly key: string;
  readonly of: Figure;
}

const OF_CAR: readonly OfCar[] = [
  { key: 'peak_acceleration', of: new Figure(LOOK.acceleration) },
  { key: 'peak_pack_current', of: new Figure(LOOK.current) },
  { key: 'peak_pack_power', of: new Figure(LOOK.power) },
];

/** Of the axle whose numbers begin at a place. @param share kg m2 of both of its wheels. */
interface OfAxle {
  readonly key: string;
  readonly of: (place: number, share: number) => Figure;
}

function onShafts(place: number, share: number): Figure {
  return new Figure(place + AXLE_LOOK.wheelTorque, { other: place + AXLE_LOOK.wheelSpin, share });
}

const OF_AXLE: readonly OfAxle[] = [
  { key: 'peak_wheel_torque', of: place => new Figure(place + AXLE_LOOK.wheelTorque) },
  { key: 'peak_shaft_torque', of: onShafts },
  { key: 'peak_motor_torque', of: place => new Figure(place + AXLE_LOOK.torque) },
  {
    key: 'peak_motor_power',
    of: place => new Figure(place + AXLE_LOOK.torque, { other: place + AXLE_LOOK.motorSpeed, times: true }),
  },
  { key: 'peak_motor_speed', of: place => new Figure(place + AXLE_LOOK.motorSpeed) },
  { key: 'peak_slip', of: place => new Figure(place + AXLE_LOOK.slip) },
];

function least(looks: Float64Array, from: number, width: number): number {
  let lowest = Infinity;
  for (let place = from; place < looks.length; place += width) lowest = Math.min(lowest, nth(looks, place));
  return lowest;
}

/** N, the least load of each axle over the run: below nothing the wheels are in the air, and the model does not hold. */
export function leastLoads({ solution }: LaunchRun): { readonly front: number; readonly rear: number } {
  const { looks, nodes } = solution;
  const width = looks.length / nodes;
  return { front: least(looks, LOOK.loadFront, width), rear: least(looks, LOOK.loadRear, width) };
}

/** K at the end of the run, of the hotter drive unit and of the pack. */
function temperatures({ plant, solution }: LaunchRun, put: Put): void {
  const last = (solution.nodes - 1) * plant.states;
  const at = (state: number): number | null => (state < 0 ? null : nth(solution.states, last + state));
  const units = [at(plant.unitTemperatureState(0)), at(plant.unitTemperatureState(1))].filter(T => T !== null);
  put('unit_temperature', units.length === 0 ? null : Math.max(...units), 'its heat is not modelled');
  put('pack_temperature', at(plant.packTemperatureState), 'its heat is not modelled');
}

/** Time and distance at the grip limit, the share of the drive's energy held back, and where it ends. @param short whether the target is below the usual one. */
function gripOfRun(run: LaunchRun, short: boolean, put: Put): void {
  const { plant, solution, marks } = run;
  const { states } = plant;
  let time = 0;
  let distance = 0;
  let leftAt: number | null = null;
  for (let k = 0; k + 1 < solution.nodes; k++) {
    if (!atGrip(nth(solution.modes, k))) continue;
    time += nth(solution.times, k + 1) - nth(solution.times, k);
    distance += nth(solution.states, (k + 1) * states + DISTANCE) - nth(solution.states, k * states + DISTANCE);
    leftAt = nth(solution.states, (k + 1) * states + SPEED);
  }
  const toTheEnd = solution.nodes > 1 && atGrip(nth(solution.modes, solution.nodes - 2));
  put('grip_time', time, '');
  put('grip_distance', distance, '');
  put(
    'grip_free_speed',
    toTheEnd ? null : leftAt,
    toTheEnd ? 'grip limits to the end of the run' : 'grip never limits',
  );
  const mark = marks.get(short ? 'to' : '100_km_h');
  const missed = `${short ? 'the target speed' : '100 km/h'} is not reached in this run`;
  put('slip_energy', mark === undefined ? null : integral(mark.integrals, 'slip'), missed);
  if (mark === undefined) put('grip_withheld', null, missed);
  else {
    const withheld = integral(mark.integrals, 'withheld');
    const used = shaftEnergy(run, mark);
    put('grip_withheld', withheld / (withheld + used), '');
  }
}
