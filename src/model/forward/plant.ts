/** The car driven by its pedal as a switched system, which can be loaded with one car of its shape after the other. */
import { nth } from '../../columns.ts';
import type { SwitchedSystem } from '../../solvers/system.ts';
import { NO_STRETCH, polarisationEnergy } from '../pack/state.ts';
import { standingTime } from './build-up.ts';
import { headroom, look, looksOf, powerTabled, rotorEnergy, spareForce } from './by-products.ts';
import type { AxleFigures } from './figures.ts';
import type { AxleNow, CarNow, Places } from './instant.ts';
import { Moving } from './instant.ts';
import type { PlantParameters } from './load.ts';
import { gearAt } from './gear-at.ts';
import { guard } from './guards.ts';
import { alikeAtGrip, buildsUp, evenly, knownEnd, modeAt, switched } from './modes.ts';
import { axleLeft, nothingGuards, withNothing } from './nothing-left.ts';
import { rates } from './rates.ts';
import type { PlantShape } from './shape.ts';
import { placesOf, sameShape } from './shape.ts';
import { BREAK, CHARGE, DISTANCE, nothingLeft, PUSHED, QUADRATURE_COUNT, QUADRATURES, RC, SPEED } from './state.ts';
import { windGuard, withWind } from './tail-wind.ts';

/** A relative tolerance below which it is told what slips and loads are off by. */
const SHARP = 1e-7;

export interface Plant extends SwitchedSystem {
  readonly shape: PlantShape;
  /** Takes another car. Nothing of the former car is left. */
  load(parameters: PlantParameters): void;
  /** Forgets what the rates were asked last, of the same car: what they find next does not hang on it, to the last bit. */
  forget(): void;
  /** How closely the rates settle slips and loads: as a run to that relative tolerance asks for. */
  settle(tolerance: number): void;
  /** The states at rest or rolling at a speed, with the pack charged as the car says; length `states + 1`. */
  initial(speed: number): Float64Array;
  /** The mode at a state: the plain minimum of all limits; in the gear of `kept`, a mode, where one is given. */
  modeAt(y: Float64Array, kept?: number): number;
  /** The gear that a car at a speed in m/s has come to, 0 for the first. */
  gearAt(speed: number): number;
  /** What the last call of `rates` found: for the car, for each axle, and for the driven axles, front first. */
  readonly now: CarNow;
  readonly atFront: AxleNow;
  readonly atRear: AxleNow;
  readonly driven: readonly AxleNow[];
  /** What all of it stands in. */
  readonly moving: Moving;
  /** kg that the drive accelerates, undriven wheels included. */
  inertialMass(): number;
  /** s after the pedal at which the torque that builds up holds the car at the speed of a state; 0 where it is there at once. */
  standingTime(y: Float64Array): number;
  /** J in the capacities of the RC pairs at a state. @param from where in `y` it begins; default 0. */
  polarisationEnergy(y: Float64Array, from?: number): number;
  /** Whether a torque table counts as power limited at the motor speeds of the last `rates`. */
  powerTabled(): boolean;
  /** N at the contact patches that the torque held back would add; after `rates` in a mode at the grip limit. */
  spareForce(): number;
  /** Torque left before each limit, see `headroom` of `by-products.ts`. After `rates`; `out` has `LIMIT_COUNT + 1`. */
  headroom(out: Float64Array): void;
  /** J in the rotor of a drive with a gearbox, in a gear (0 is the first) at a speed in m/s of the car, slip left aside. */
  rotorEnergy(gear: number, speed: number): number;
  /** Index of the state that is the temperature of the drive unit of an axle, K; -1 where it is no state. */
  unitTemperatureState(axle: number): number;
  /** Index of the state that is the temperature of the pack, K; -1 where it is no state. */
  readonly packTemperatureState: number;
  /** Index of the state that is the share of its budget of current that is spent; -1 where it is no state. */
  readonly budgetState: number;
}

/** @param accounts whether its energies are integrated and its nodes looked at; where only the states are read it is quicker without. */
export function createPlant(shape: PlantShape, accounts = true): Plant {
  const places = placesOf(shape);
  if (accounts) places.quadratures = QUADRATURE_COUNT;
  const m = new Moving(places, new Float64Array(places.states + places.quadratures), new Float64Array(places.guards));
  return {
    shape,
    states: places.states,
    quadratures: places.quadratures,
    guards: places.guards,
    scales: scalesOf(places, shape.pairs),
    moving: m,
    now: m.now,
    atFront: m.atFront,
    atRear: m.atRear,
    driven: [...(shape.front === 'free' ? [] : [m.atFront]), ...(shape.rear === 'free' ? [] : [m.atRear])],
    load: parameters => {
      if (!sameShape(parameters.shape, shape)) throw new RangeError('the car has another shape than the plant');
      take(m, parameters);
    },
    forget: () => forget(m),
    settle: tolerance => {
      m.sharp = tolerance < SHARP;
    },
    initial: speed => initial(m, speed),
    rates: (mode, y, out) => rates(m, mode, y, out),
    guard: (mode, y, out) => {
      guard(m, mode, y, out);
      nothingGuards(m, mode, y, out);
      windGuard(m, mode, out);
    },
    switched: (mode, fired, y) => {
      if (fired === places.guardWind) return mode ^ PUSHED;
      const axle = axleLeft(m, fired);
      return axle >= 0 ? mode ^ nothingLeft(axle) : withNothing(m, mode, switched(m, mode, fired, y), y);
    },
    looks: accounts ? looksOf({ front: shape.front !== 'free', rear: shape.rear !== 'free' }) : 0,
    ...(accounts && { look: (out: Float64Array, offset: number) => look(m, out, offset) }),
    straightIn: (mode, fired) =>
      fired === places.guardWind || (fired === places.guardShift && (mode & BREAK) === 0) ? SPEED : -1,
    alike: alikeAtGrip,
    timed: buildsUp,
    smooth: mode => evenly(m, mode),
    until: mode => knownEnd(m, mode),
    unfelt: [DISTANCE],
    modeAt: (y, kept) => withWind(m, withNothing(m, -1, modeAt(m, y, kept), y), y),
    gearAt: speed => gearAt(m, speed),
    standingTime: y => standingTime(m, y),
    inertialMass: () => m.car.inertialMass,
    polarisationEnergy: (y, from = 0) =>
      polarisationEnergy(m.pack, shape.pairs > 0 ? nth(y, from + RC) : 0, shape.pairs > 1 ? nth(y, from + RC + 1) : 0),
    powerTabled: () => powerTabled(m),
    spareForce: () => spareForce(m),
    headroom: out => headroom(m, out),
    rotorEnergy: (gear, speed) => rotorEnergy(m, gear, speed),
    unitTemperatureState: axle => (axle === 0 ? places.unitFront : places.unitRear),
    packTemperatureState: places.pack,
    budgetState: places.budget,
  };
}

/** @param pairs RC pairs of the pack. */
function scalesOf({ states, quadratures }: Places, pairs: number): Float64Array {
  const scales = new Float64Array(states + quadratures).fill(1);
  scales[SPEED] = 0.1; // m/s: a launch is timed from its first foot on, which it passes at walking pace
  scales[CHARGE] = 0.01;
  scales.fill(3, RC, RC + pairs); // V: a hundredth of what the packs of cars have, against which polarisation counts
  if (quadratures === 0) return scales;
  scales.fill(100, states); // W: what less adds to a ledger of tens of kilowatts is round-off of larger terms
  // Where a torque that builds up comes to the grip limit slip goes with a root, at walking pace: by less than a joule in all.
  scales[states + QUADRATURES.indexOf('slip')] = 1000;
  return scales;
}

function take(m: Moving, { car, pack, front, rear, charge, soaked }: PlantParameters): void {
  m.car = car;
  m.pack = pack;
  m.front = front;
  m.rear = rear;
  m.charge = charge;
  m.soaked = soaked;
  m.now.pressedAt = 0;
  m.now.pressed = 0;
  forget(m);
}

function forget(m: Moving): void {
  const { pack, soaked } = m;
  m.gear = -1;
  m.now.shiftEnd = 0;
  m.now.lost = true;
  m.packNow.most = pack.maxCurrent;
  m.packNow.pair1 = 0;
  m.packNow.pair2 = 0;
  m.packNow.temperature = soaked;
  m.packNow.air = m.car.air;
  m.packNow.anchor = Number.NaN;
  m.packNow.warmAt = Number.NaN;
  m.packNow.stretch = NO_STRETCH;
  rest(m.atFront, m.front, soaked);
  rest(m.atRear, m.rear, soaked);
}

/** What one call of the rates leaves to the next, as it is before the first. */
function rest(at: AxleNow, axle: AxleFigures, soaked: number): void {
  at.load = axle.staticLoad;
  at.force = 0;
  at.stretch = 0;
  at.stretchSpeed = 0;
  at.stretchSlope = 0;
  at.motorSpeed = 0;
  at.torque = 0;
  at.otherPower = 0;
  at.otherWheel = 0;
  at.reflected = false;
  at.otherAtPack = false;
  at.otherFollows = false;
  at.followedLimit = 0;
  at.temperature = soaked;
  at.anchor.perLoad = Number.NaN;
  at.gear = axle.gears[0] ?? at.gear;
}

function initial(m: Moving, speed: number): Float64Array {
  const { places } = m;
  const y = new Float64Array(places.states + 1);
  y[SPEED] = speed;
  y[CHARGE] = m.charge;
  for (const place of [places.unitFront, places.unitRear, places.pack]) if (place >= 0) y[place] = m.soaked;
  if (places.spinFront >= 0) y[places.spinFront] = speed / m.front.radius;
  if (places.spinRear >= 0) y[places.spinRear] = speed / m.rear.radius;
  return y;
}

/** A plant for one car, loaded with it. */
export function plantFor(parameters: PlantParameters): Plant {
  const plant = createPlant(parameters.shape);
  plant.load(parameters);
  return plant;
}
