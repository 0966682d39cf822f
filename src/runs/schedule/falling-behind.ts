/**
 * The car that can not do what its schedule asks: the forward model at full pedal, with speed as a state, until it has the speed
 * of the schedule again or the interval ends.
 */
import { item, nth } from '../../columns.ts';
import { gearOf } from '../../model/forward/state.ts';
import { shiftLosses } from '../ledger.ts';
import { levelsAt, loadPlant, machineOf, takeStretch, TOLERANCE } from './free-drive.ts';
import type { FreeDrive, FreeEnds } from './free-drive.ts';
import type { Journey } from './journey.ts';
import { stretchesOf } from './shortfall.ts';
import type { Stretch } from './shortfall.ts';

/** m/s; a car slower than this that does not gain speed stands. */
const STANDSTILL = 1e-3;

/** How a stretch at full pedal ended. */
export interface FreeEnd {
  readonly outcome: 'caught up' | 'interval over' | 'stuck' | 'empty' | 'too fast' | 'failed';
  readonly reason: string;
  /** s in the interval. */
  readonly at: number;
  /** Of one mode each. */
  readonly stretches: readonly Stretch[];
  /** Gear at its end, 0 for the first. */
  readonly gear: number;
}

const OUTCOMES = ['stuck', 'too fast', 'empty'] as const;

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
  const y = loadPlant(machine, parameters, car, 0);
  y[plant.states] = s;
  const mode = plant.modeAt(y);
  plant.rates(mode, y, after);
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
  car.mode = nth(solution.modes, Math.max(0, last - 1));
  totals.stretches++;
  totals.evaluations += solution.statistics.evaluations;
  totals.synchronised += shiftLosses({ plant, solution });
  totals.lateSwitches += solution.statistics.lateSwitches;
  totals.beyond += at - s;
  const rest = { at, reason: solution.reason, stretches: stretchesOf(solution), gear: gearOf(car.mode) };
  if (solution.status === 'failed') return { ...rest, outcome: 'failed' };
  if (solution.status === 'level') {
    const event = item(solution.events, solution.events.length - 1);
    return { ...rest, outcome: OUTCOMES[event.index] ?? 'failed' };
  }
  return { ...rest, outcome: solution.status === 'switched' ? 'caught up' : 'interval over' };
}
