/** One coast-down, integrated; what the other files of it read from. */
import { nth } from '../../columns.ts';
import { COAST, coastingCar } from '../../model/backward/coasting.ts';
import type { CoastingCar } from '../../model/backward/coasting.ts';
import { followParameters } from '../../model/backward/load.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { whyStarved } from '../starved.ts';
import { solveExplicit } from '../../solvers/explicit.ts';
import type { Level, Solution, Solve } from '../../solvers/system.ts';

export interface CoastOptions {
  readonly surroundings: Surroundings;
  /** m/s. */
  readonly from: number;
  /** m/s, below `from`. */
  readonly to: number;
  /** Share of what its drives brake with at most; null: in neutral. */
  readonly lift: number | null;
  /** Of a kept gearbox, 1 for the first; the highest where left out. */
  readonly gear?: number;
}

export interface CoastRun {
  readonly coasting: CoastingCar;
  readonly solution: Solution;
  /** kg that the car moves with its undriven wheels. */
  readonly mass: number;
  /** The start, each ten kilometres an hour passed, and the end. */
  readonly marks: readonly CoastMark[];
  readonly end: CoastMark;
}

export interface CoastMark {
  /** m/s. */
  readonly speed: number;
  /** s. */
  readonly time: number;
  readonly states: Float64Array;
  readonly integrals: Float64Array;
  readonly mode: number;
}

const TOLERANCE = 1e-11;
/** s after which it is given up. */
const LONGEST = 4 * 3600;
/** s; a limit that comes and goes within one step would not be seen. */
const LONGEST_STEP = 5;
/** A coast takes a hundred or two; four hours of the longest step take three thousand. */
const MOST_STEPS = 4000;
/** m/s between two marks. */
const TEN = 10 / 3.6;

/** Of a car whose motors may turn that fast: `whyNot` says so before. Null where it does not slow down. @throws RangeError */
export function coastOnce(car: Car, options: CoastOptions, solve: Solve = solveExplicit): CoastRun | null {
  const { from, to } = options;
  if (!(to >= 0 && to < from))
    throw new RangeError(`a car coasts down to a lower speed, found from ${from} to ${to} m/s`);
  const { coasting, mass } = coastStart(car, options);
  const initial = coasting.initial(from);
  const mode = coasting.modeAt(initial);
  if (mode < 0) return null;
  const solution = solve(coasting, {
    start: 0,
    end: LONGEST,
    initial: initial.subarray(0, coasting.states),
    mode,
    tolerance: TOLERANCE,
    maxStep: LONGEST_STEP,
    maxSteps: MOST_STEPS,
    levels: levelsOf(from, to),
  });
  return { coasting, solution, mass, ...marksOf(coasting, solution) };
}

/** The car before its foot comes off. */
export function coastStart(car: Car, { surroundings, lift, gear }: CoastOptions): Pick<CoastRun, 'coasting' | 'mass'> {
  const parameters = followParameters(car, surroundings);
  const most = Math.max(parameters.front.gears.length, parameters.rear.gears.length);
  const coasting = coastingCar(parameters, lift === null ? null : (gear ?? most) - 1, lift ?? 0);
  return { coasting, mass: parameters.car.inertialMass };
}

/** Why what is drawn is more than the pack gives at one of the marks; '' where it is not. */
export function whyCoastStarved({ coasting, marks }: CoastRun): string {
  const out = new Float64Array(coasting.states + coasting.quadratures);
  for (const { mode, states, time } of marks) {
    coasting.rates(mode, Float64Array.of(...states, time), out);
    const { pack, powers } = coasting.following;
    const why = whyStarved(pack.gives, powers.power);
    if (why !== '') return why;
  }
  return '';
}

function levelsOf(from: number, to: number): Level[] {
  const falls = (name: string, value: number, action: Level['action']): Level => ({
    name,
    state: COAST.speed,
    value,
    direction: 'falling',
    action,
  });
  const levels: Level[] = [];
  for (let k = Math.ceil(from / TEN) - 1; k > 0; k--) {
    const value = (10 * k) / 3.6;
    if (value > to + NEAR && value < from - NEAR) levels.push(falls(`${10 * k} km/h`, value, 'record'));
  }
  return [...levels, falls('to', to, 'stop')];
}

/** m/s: a mark this close to an end is none of its own. */
const NEAR = 1e-6;

function marksOf(coasting: CoastingCar, solution: Solution): Pick<CoastRun, 'marks' | 'end'> {
  const { states, quadratures } = coasting;
  const node = (k: number): CoastMark => {
    const row = solution.states.slice(k * states, (k + 1) * states);
    const integrals = solution.integrals.slice(k * quadratures, (k + 1) * quadratures);
    const speed = nth(row, COAST.speed);
    return { speed, time: nth(solution.times, k), states: row, integrals, mode: nth(solution.modes, k) };
  };
  const end = node(solution.nodes - 1);
  const passed = solution.events
    .filter(({ kind, time }) => kind === 'level' && time < end.time)
    .map(({ time, states: row, integrals, from }) => ({
      speed: nth(row, COAST.speed),
      time,
      states: row,
      integrals,
      mode: from,
    }));
  return { marks: [node(0), ...passed, end], end };
}
