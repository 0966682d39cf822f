/** The trail of a car at full pedal: its solution, looked at closely. */
import { nth } from '../../columns.ts';
import type { Car } from '../../model/car.ts';
import { SPEED } from '../../model/forward/state.ts';
import type { AxleFigures } from '../../model/forward/figures.ts';
import type { AxleNow } from '../../model/forward/instant.ts';
import type { Plant } from '../../model/forward/plant.ts';
import type { Solution } from '../../solvers/system.ts';
import { FIRST, SECOND } from '../../solvers/gauss.ts';
import { TrailPoint } from './trail.ts';
import type { Trail } from './trail.ts';

/** s; steps of the solution that are longer are looked at in parts, but where all goes straight along them, for such a share of it. */
const LONGEST = 0.25;
const STRAIGHT = 1e-8;

/** kg m2 of both wheels of each axle: they stand behind the half shafts. */
export interface Wheels {
  readonly front: number;
  readonly rear: number;
}

export function wheelsOf({ tyres }: Car): Wheels {
  return { front: 2 * tyres.front.inertia, rear: 2 * tyres.rear.inertia };
}

/**
 * N m on both half shafts together: what the wheels push with, their rolling resistance, and what spins them up.
 * @param roll N of the rolling resistance of the axle.
 */
export function halfShafts(axle: AxleFigures, at: AxleNow, roll: number, inertia: number): number {
  return axle.driven ? (at.force + roll) * axle.radius + inertia * at.wheelSpin : 0;
}

/**
 * Adds the stretch of a solution between two of its times. The plant is left as it was loaded, not as it was: nothing may be read off
 * it afterwards.
 * @param plant loaded as for the solution. @param prepare called with every mode and state before the plant is looked at.
 */
export function addStretch(
  trail: Trail,
  plant: Plant,
  wheels: Wheels,
  solution: Solution,
  [from, to]: readonly [number, number],
  prepare: (mode: number, y: Float64Array, out: Float64Array) => void = () => undefined,
): void {
  const { car, pack, front, rear, charge, soaked } = plant.moving;
  const pressedAt = plant.now.pressedAt;
  // What is found must not hang on what the plant was asked last.
  plant.load({ shape: plant.shape, car, pack, front, rear, charge, soaked });
  plant.now.pressedAt = pressedAt;
  const row = new Float64Array(plant.states + plant.quadratures);
  const y = new Float64Array(plant.states + 1);
  let mode = 0;
  const look = (time: number, point: TrailPoint): void => {
    solution.at(time, row);
    y.set(row.subarray(0, plant.states));
    y[plant.states] = time;
    prepare(mode, y, row);
    plant.rates(mode, y, row);
    lookAt(plant, wheels, nth(y, SPEED), point);
  };
  for (let k = 0; k + 1 < solution.nodes; k++) {
    const start = Math.max(from, nth(solution.times, k));
    const end = Math.min(to, nth(solution.times, k + 1));
    if (!(end > start)) continue;
    mode = nth(solution.modes, k);
    trail.addBetween(start, end, isStraight(trail, start, end, look) ? end - start : LONGEST, look);
  }
}

/** s; a shorter step is not worth to be asked. */
const WORTH = 1;

const middle = new TrailPoint();

/** Whether currents and torques go straight between two instants: then two points say all. */
function isStraight(
  { first, second }: Trail,
  start: number,
  end: number,
  look: (time: number, point: TrailPoint) => void,
): boolean {
  const h = end - start;
  if (!(h > WORTH)) return false;
  look(start + FIRST * h, first);
  look(start + SECOND * h, second);
  look(start + 0.5 * h, middle);
  for (const key of STRAIGHTENED) {
    if (!(Math.abs(first[key] + second[key] - 2 * middle[key]) <= STRAIGHT * Math.abs(middle[key]))) return false;
  }
  return true;
}

const STRAIGHTENED = ['pack', 'voltage', 'frontTorque', 'rearTorque'] as const;

/** What the rates found, at a speed in m/s. */
export function lookAt(
  { now, moving, atFront, atRear }: Plant,
  wheels: Wheels,
  speed: number,
  point: TrailPoint,
): void {
  const { front, rear, car } = moving;
  point.pack = now.current;
  point.voltage = now.voltage;
  point.front = front.driven ? atFront.power / now.voltage : 0;
  point.rear = rear.driven ? atRear.power / now.voltage : 0;
  point.consumers = car.auxiliaryPower / now.voltage;
  point.frontTorque = halfShafts(front, atFront, rollOf(front, atFront), wheels.front);
  point.rearTorque = halfShafts(rear, atRear, rollOf(rear, atRear), wheels.rear);
  point.speed = speed;
  point.heat = (front.driven ? atFront.heat : 0) + (rear.driven ? atRear.heat : 0);
  point.wall = 0;
}

/** N. */
function rollOf({ hubDrag }: AxleFigures, { rolling, load }: AxleNow): number {
  return rolling * load + hubDrag;
}
