/** The forward model at full pedal, which takes over from a schedule that the car can not follow and hands the car back. */
import { nth } from '../../columns.ts';
import type { FollowParameters } from '../../model/backward/load.ts';
import { drivenPackAt } from '../../model/backward/pack-step.ts';
import { recovered } from '../../model/pack/balance.ts';
import { createPlant } from '../../model/forward/plant.ts';
import type { Plant } from '../../model/forward/plant.ts';
import { sameShape } from '../../model/forward/shape.ts';
import type { PlantShape } from '../../model/forward/shape.ts';
import { leastPower, packGives } from '../../model/forward/idle.ts';
import { isHeat } from '../../model/forward/limits.ts';
import {
  axleMode,
  GRIP,
  CHARGE,
  DISTANCE,
  isPackLimit,
  L,
  LIMIT_BITS,
  QUADRATURES,
  RC,
  SPEED,
} from '../../model/forward/state.ts';
import { createUntilStiff } from '../../solvers/until-stiff.ts';
import type { Level, Solution, Solve, SolveOptions, SwitchedSystem } from '../../solvers/system.ts';
import { terminalEnergy } from '../ledger.ts';
import { Ahead } from './ahead.ts';
import { Consumers, drawnAt } from './consumers.ts';
import { CONSUMED } from './instant.ts';
import type { Journey } from './journey.ts';

/** Of one step. */
export const TOLERANCE = 1e-8;

type Run = (options: SolveOptions) => Solution;

/** A line in time that the speed may come up to: m/s at the start of the interval, m/s2. */
class Line {
  from = 0;
  rise = 0;
}

/** What consumers draw along a stretch, s since the heater was switched on at the time 0 of the plant. */
export class Drain {
  readonly consumers = new Consumers();
  heaterFrom = Number.NaN;
  /** They ask for more than they get. */
  short = false;
  /** The last stretch ended where the pack ceases to carry what is drawn without any torque. */
  starves = false;
}

/** What the plant of one shape of car is driven by. */
export interface Machine {
  readonly plant: Plant;
  readonly line: Line;
  readonly drain: Drain;
  /** Up to the line at most, its last guard. */
  readonly pursue: Run;
  /** In one mode, whatever the schedule asks. */
  readonly alone: Run;
  /** States, then integrals at the ends of a stretch; what the integrals gained. */
  readonly before: Float64Array;
  readonly after: Float64Array;
  readonly gained: Float64Array;
}

/** Where a stretch ends as well: at a state of charge that it falls to, and at a speed in m/s that it rises to. */
export interface FreeEnds {
  readonly low: number;
  readonly fastest: number;
}

/** It lasts for many cars. */
export class FreeDrive {
  /** In place of the explicit one, for the second opinion. */
  readonly method: Solve | undefined;
  machine: Machine | null = null;
  readonly ahead = new Ahead();

  constructor(method: Solve | undefined) {
    this.method = method;
  }
}

/** The machine for a car, the one of before if it fits. */
export function machineOf(free: FreeDrive, { shape }: FollowParameters): Machine {
  if (free.machine === null || !sameShape(free.machine.plant.shape, shape)) free.machine = build(shape, free.method);
  return free.machine;
}

function build(shape: PlantShape, method: Solve | undefined): Machine {
  const plant = createPlant(shape);
  const line = new Line();
  const drain = new Drain();
  const trial = new Float64Array(plant.states + plant.quadratures);
  const { states, quadratures, guards, scales } = plant;
  const driven = (mode: number, y: Float64Array, out: Float64Array): void => {
    consume(drain, plant, mode, y, out);
    plant.rates(mode, y, out);
  };
  // `guard` of the plant fills the whole of `out`.
  const bounded = (mode: number, y: Float64Array, out: Float64Array): void => {
    plant.guard?.(mode, y, out);
    if (mayStarve(mode)) out[guards] = 1e-4 * spareOf(plant);
  };
  const { unfelt } = plant;
  const timed = (mode: number): boolean => drain.consumers.extra !== 0 || plant.timed?.(mode) !== false;
  const pursuit: SwitchedSystem = {
    ...(unfelt !== undefined && { unfelt }),
    timed,
    states,
    quadratures,
    guards: guards + 2,
    scales,
    rates: driven,
    guard(mode, y, out) {
      bounded(mode, y, out);
      out[guards + 1] = (line.from + line.rise * nth(y, states) - nth(y, SPEED)) * 0.1;
    },
    switched(mode, fired, y) {
      drain.starves = fired === guards;
      if (fired >= guards) return -1;
      const next = plant.switched?.(mode, fired, y) ?? mode;
      // A budget that is spent may leave too little at once.
      if (!mayStarve(next)) return next;
      plant.rates(next, y, trial);
      drain.starves = spareOf(plant) < 0;
      return drain.starves ? -1 : next;
    },
  };
  const alone: SwitchedSystem = {
    ...(unfelt !== undefined && { unfelt }),
    timed,
    states,
    quadratures,
    guards: guards + 1,
    scales,
    rates: driven,
    guard: bounded,
    switched: () => -1,
  };
  return {
    plant,
    line,
    drain,
    pursue: method === undefined ? createUntilStiff(pursuit) : options => method(pursuit, options),
    alone: createUntilStiff(alone),
    before: new Float64Array(states + quadratures),
    after: new Float64Array(states + quadratures),
    gained: new Float64Array(quadratures),
  };
}

/** Sets what consumers get at a state, with the time in its place. @param out for rates. */
export function consume(drain: Drain, plant: Plant, mode: number, y: Float64Array, out: Float64Array): void {
  const { consumers, heaterFrom, short } = drain;
  if (consumers.extra === 0 && !short) return;
  const { car } = plant.moving;
  const asked = drawnAt(consumers, heaterFrom + nth(y, plant.states));
  if (!short) {
    car.auxiliaryPower = asked;
    return;
  }
  // For the state of the pack.
  plant.rates(mode, y, out);
  car.auxiliaryPower = Math.min(asked, CONSUMED * packGives(plant.moving));
}

/** Whether the pack holds the car back in a mode of the forward model. An axle that its grip holds is not held by what the pack would leave it beyond that. */
export function isHeldByPack(mode: number): boolean {
  return isHeld(mode, 0) || isHeld(mode, 1);
}

function isHeld(mode: number, axle: number): boolean {
  const bits = axleMode(mode, axle);
  const limit = bits & LIMIT_BITS;
  return (bits & GRIP) === 0 && (isPackLimit(limit) || limit === L.busVoltage);
}

/**
 * Whether the pack may cease to carry what is drawn at least in a mode: the pack holds the car back, or something else leaves it no torque,
 * heat or the greatest speed of a motor, so that a pack that leaves it none does not come next.
 */
export function mayStarve(mode: number): boolean {
  return isHeldByPack(mode) || hasNoTorque(mode, 0) || hasNoTorque(mode, 1);
}

function hasNoTorque(mode: number, axle: number): boolean {
  const bits = axleMode(mode, axle);
  const limit = bits & LIMIT_BITS;
  return (bits & GRIP) === 0 && (limit === L.speed || isHeat(limit));
}

/** W that the pack gives beyond what is drawn at least. After `rates`. */
function spareOf({ moving }: Plant): number {
  return packGives(moving) - leastPower(moving);
}

/**
 * The plant as the car is, with the slope of the present interval.
 * @param start s in the interval of the time 0 of the plant. @returns its states.
 */
export function loadPlant(
  { plant, drain }: Machine,
  parameters: FollowParameters,
  car: Journey,
  start: number,
): Float64Array {
  const { moving, powers, pack, front, rear } = car.following;
  Object.assign(drain.consumers, car.consumers);
  drain.short = car.short;
  drain.heaterFrom = car.interval.heaterFrom + start;
  moving.car.auxiliaryPower = powers.auxiliaries;
  plant.load({ ...parameters, car: moving.car, front: moving.front, rear: moving.rear });
  const y = plant.initial(car.speed);
  y[DISTANCE] = car.distance;
  y[CHARGE] = pack.charge;
  if (plant.shape.pairs > 0) y[RC] = pack.pair1;
  if (plant.shape.pairs > 1) y[RC + 1] = pack.pair2;
  [front, rear].forEach(({ at }, axle) => {
    const state = plant.unitTemperatureState(axle);
    if (state >= 0) y[state] = at.temperature;
  });
  if (plant.packTemperatureState >= 0) y[plant.packTemperatureState] = pack.temperature;
  if (plant.budgetState >= 0) y[plant.budgetState] = pack.spent;
  return y;
}

const AT = {
  packHeat: QUADRATURES.indexOf('packHeat'),
  unitHeat: QUADRATURES.indexOf('unitHeat'),
  gearHeat: QUADRATURES.indexOf('gearHeat'),
  spinUp: QUADRATURES.indexOf('spinUp'),
  slip: QUADRATURES.indexOf('slip'),
  rolling: QUADRATURES.indexOf('rolling'),
  drag: QUADRATURES.indexOf('drag'),
  grade: QUADRATURES.indexOf('grade'),
  auxiliaries: QUADRATURES.indexOf('auxiliaries'),
};

/** Of a budget: the instant at which it is spent is found to less. */
const ROUND_OFF = 1e-9;

/** What is left to the budgets of current: at full pedal nothing comes back. */
function takeBudgets({ plant, after }: Machine, { following: { pack, moving } }: Journey, seconds: number): void {
  const { budgetState } = plant;
  const rested = recovered(moving.pack, pack.spent, pack.spentCharge, seconds);
  const left = budgetState < 0 ? rested[0] : Math.max(0, nth(after, budgetState));
  pack.spent = left > 1 - ROUND_OFF ? 1 : left;
  pack.spentCharge = rested[1];
}

/** Takes the car along from `before` to `after` of a machine, so many seconds: states, sums and distance. */
export function takeStretch(machine: Machine, car: Journey, seconds: number): void {
  const { plant, before, after } = machine;
  const { following } = car;
  const { pack, front, rear } = following;
  car.speed = Math.max(0, nth(after, SPEED));
  car.distance += nth(after, DISTANCE) - nth(before, DISTANCE);
  pack.charge = nth(after, CHARGE);
  if (plant.shape.pairs > 0) pack.pair1 = nth(after, RC);
  if (plant.shape.pairs > 1) pack.pair2 = nth(after, RC + 1);
  const ofFront = plant.unitTemperatureState(0);
  if (ofFront >= 0) front.at.temperature = nth(after, ofFront);
  const ofRear = plant.unitTemperatureState(1);
  if (ofRear >= 0) rear.at.temperature = nth(after, ofRear);
  if (plant.packTemperatureState >= 0) pack.temperature = nth(after, plant.packTemperatureState);
  takeBudgets(machine, car, seconds);
  addGained(machine, car, 1);
  drivenPackAt(following.moving.pack, pack);
}

/** Adds a share of the energies from `before` to `after` of a machine. */
export function addGained({ plant, before, after, gained }: Machine, car: Journey, share: number): void {
  const { following, sums } = car;
  const { states } = plant;
  for (let i = 0; i < gained.length; i++) gained[i] = nth(after, states + i) - nth(before, states + i);
  sums.power += share * terminalEnergy(plant, before, after, gained);
  following.pack.heat += share * nth(gained, AT.packHeat);
  sums.unitHeat += share * nth(gained, AT.unitHeat);
  sums.gearHeat += share * nth(gained, AT.gearHeat);
  sums.spinUp += share * nth(gained, AT.spinUp);
  sums.slip += share * nth(gained, AT.slip);
  sums.rolling += share * nth(gained, AT.rolling);
  sums.drag += share * nth(gained, AT.drag);
  sums.grade += share * nth(gained, AT.grade);
  sums.auxiliaries += share * nth(gained, AT.auxiliaries);
}

/** In the order of their outcomes, see `falling-behind.ts`. */
export function levelsAt({ low, fastest }: FreeEnds): Level[] {
  const levels: Level[] = [
    { name: 'rest', state: SPEED, value: 0, direction: 'falling', action: 'stop' },
    { name: 'too fast', state: SPEED, value: fastest, direction: 'rising', action: 'stop' },
  ];
  if (low > -Infinity) levels.push({ name: 'empty', state: CHARGE, value: low, direction: 'falling', action: 'stop' });
  return levels;
}
