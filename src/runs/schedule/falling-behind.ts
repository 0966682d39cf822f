/**
 * The car that can not do what its schedule asks: the forward model at full pedal, with speed as a state, until it has the speed
 * of the schedule again or the interval ends.
 */
import { item, nth } from '../../columns.ts';
import type { FollowParameters } from '../../model/backward/load.ts';
import { idlePower, leastPower, packGives } from '../../model/forward/idle.ts';
import { BREAK, gearOf } from '../../model/forward/state.ts';
import type { Solution } from '../../solvers/system.ts';
import { shiftsOf } from '../ledger.ts';
import type { FreeDrive, FreeEnds, Machine } from './free-drive.ts';
import { levelsAt, loadPlant, machineOf, mayStarve, TOLERANCE, takeStretch } from './free-drive.ts';
import { isStarved, starvedWords } from '../starved.ts';
import { setOutIn } from './gear-choice.ts';
import { noteStretch } from './note.ts';
import type { Journey } from './journey.ts';
import type { KeptStretch, Outcome } from './kept-stretch.ts';
import type { Stretch } from './shortfall.ts';
import { stretchesOf } from './shortfall.ts';

/** m/s; a car slower than this that does not gain speed stands. */
const STANDSTILL = 1e-3;

/** Of the speed at which a gear was taken: below it the car goes back to the gear before. Common practice, no source. */
const SLOWER = 0.9;

/** How a stretch at full pedal ended. */
export interface FreeEnd {
  readonly outcome: Outcome;
  readonly reason: string;
  /** s in the interval. */
  readonly at: number;
  /** Of one mode each. */
  readonly stretches: readonly Stretch[];
  /** Gear at its end, 0 for the first. */
  readonly gear: number;
  /** What was integrated, between which of its times, and s from its start to that of the interval; or the stretch that it was taken from. */
  readonly driven?: { readonly solution: Solution; readonly from: number; readonly to: number; readonly shift: number };
  readonly kept?: KeptStretch;
}

const OUTCOMES = ['stuck', 'too fast', 'empty'] as const;

/**
 * The plant as the car is, as `loadPlant`: in the gear that it was left in, let go or not, where it was at full pedal until now.
 * @param at time of the plant. @returns its states and its mode.
 */
export function setOut(
  machine: Machine,
  parameters: FollowParameters,
  car: Journey,
  start: number,
  at: number,
): { readonly y: Float64Array; readonly mode: number } {
  const { plant } = machine;
  const keeps = car.breakLeft > 0 || plant.gearAt(car.speed / SLOWER) >= gearOf(car.mode);
  const kept = car.mode > 0 && keeps ? car.mode : undefined;
  const load = (): Float64Array => {
    const y = loadPlant(machine, parameters, car, start);
    y[plant.states] = at;
    plant.now.shiftEnd = at + car.breakLeft;
    return y;
  };
  let y = load();
  let mode = plant.modeAt(y, kept);
  if (setOutIn(car, gearOf(mode), car.speed)) {
    y = load();
    mode = plant.modeAt(y, mode);
  }
  return { y, mode };
}

/** What changes of gear cost along a stretch; what is under way at its end goes on in the next one. @param at end of the stretch. */
function takeShifts({ plant }: Machine, car: Journey, solution: Solution, at: number): void {
  const { lost, letGo } = shiftsOf({ plant, solution }, car.letGo);
  car.totals.synchronised += lost;
  car.letGo = letGo;
  car.breakLeft = (car.mode & BREAK) === 0 ? 0 : Math.max(0, plant.now.shiftEnd - at);
}

/** A car that is not at full pedal any more takes the gear again that it had let go. */
export function takeUp(free: FreeDrive, car: Journey): void {
  if (free.machine !== null && (car.mode & BREAK) !== 0) {
    car.totals.synchronised += car.letGo - free.machine.plant.rotorEnergy(gearOf(car.mode), car.speed);
  }
  car.breakLeft = 0;
}

/**
 * From `s` seconds into the interval, at the speed of the car, to the end of the interval at most. States, sums and the distance of
 * the car are taken along.
 */
export function pursue(free: FreeDrive, car: Journey, s: number, ends: FreeEnds): FreeEnd {
  const { parameters, interval, totals } = car;
  if (parameters === null) throw new Error('no car has been loaded');
  const machine = machineOf(free, parameters);
  const { plant, line, before, after } = machine;
  line.from = interval.from;
  line.rise = interval.rise;
  const { y, mode } = setOut(machine, parameters, car, 0, s);
  plant.rates(mode, y, after);
  if (mayStarve(mode) && isStarved(packGives(plant.moving), leastPower(plant.moving))) {
    return { outcome: 'starved', reason: whyOf(machine), at: s, stretches: [], gear: gearOf(mode) };
  }
  if (car.speed < STANDSTILL && !(plant.now.acceleration > 0)) {
    car.mode = mode;
    return { outcome: 'stuck', reason: '', at: s, stretches: [], gear: gearOf(mode) };
  }
  const solution = machine.pursue({
    start: s,
    end: interval.length,
    initial: y.subarray(0, plant.states),
    mode,
    tolerance: TOLERANCE,
    maxStep: 1,
    levels: levelsAt(ends),
  });
  const last = solution.nodes - 1;
  const at = nth(solution.times, last);
  solution.at(s, before);
  solution.at(at, after);
  takeStretch(machine, car, at - s);
  if (car.track !== null) noteStretch(machine, car.track, solution, s, at);
  car.mode = nth(solution.modes, Math.max(0, last - 1));
  totals.stretches++;
  totals.evaluations += solution.statistics.evaluations;
  takeShifts(machine, car, solution, at);
  totals.lateSwitches += solution.statistics.lateSwitches;
  totals.beyond += at - s;
  const rest = {
    at,
    reason: solution.reason,
    stretches: stretchesOf(solution),
    gear: gearOf(car.mode),
    driven: { solution, from: s, to: at, shift: 0 },
  };
  if (solution.status === 'failed') return { ...rest, outcome: 'failed' };
  if (solution.status === 'level') {
    const event = item(solution.events, solution.events.length - 1);
    return { ...rest, outcome: OUTCOMES[event.index] ?? 'failed' };
  }
  if (solution.status !== 'switched') return { ...rest, outcome: 'interval over' };
  if (!machine.drain.starves) return { ...rest, outcome: 'caught up' };
  return { ...rest, outcome: 'starved', reason: whyOf(machine) };
}

/** Of a pack that does not carry what is drawn. After `rates`. */
function whyOf({ plant: { moving } }: Machine): string {
  return starvedWords(packGives(moving), idlePower(moving));
}
