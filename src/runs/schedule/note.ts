/** What a car on its schedule leaves on its trail, step by step. */
import { CarFigures } from '../../model/forward/figures.ts';
import { createPlant } from '../../model/forward/plant.ts';
import type { Plant } from '../../model/forward/plant.ts';
import { sameShape } from '../../model/forward/shape.ts';
import { currentAtPower } from '../../model/pack/state.ts';
import type { DrivenPack } from '../../model/backward/pack-step.ts';
import type { Side } from '../../model/backward/state.ts';
import type { Solution } from '../../solvers/system.ts';
import { addStretch, halfShafts } from '../trail/forward.ts';
import type { Wheels } from '../trail/forward.ts';
import { Trail } from '../trail/trail.ts';
import type { TrailPoint } from '../trail/trail.ts';
import { consume } from './free-drive.ts';
import type { Machine } from './free-drive.ts';
import { FIRST, SECOND } from '../../solvers/gauss.ts';
import type { Journey } from './journey.ts';

/** A trail, and what it takes to find what a car at full pedal leaves on it. */
export class Track {
  readonly trail = new Trail();
  readonly wheels: Wheels;
  /** Apart from the one that drives: what is asked of that one must not hang on who else looks. */
  plant: Plant | null = null;

  constructor(wheels: Wheels) {
    this.wheels = wheels;
  }
}

/** The powers at a point of the step at hand, in W: they become currents when the pack is known at its end. */
export function notePoint({ following }: Journey, { trail, wheels }: Track, second: boolean, stands: boolean): void {
  const point = second ? trail.second : trail.first;
  const { front, rear, powers, speed } = following;
  point.pack = powers.power;
  point.consumers = powers.auxiliaries;
  point.front = powerOf(front, stands);
  point.rear = powerOf(rear, stands);
  point.frontTorque = stands ? 0 : halfShafts(front.axle, front.at, front.roll, wheels.front);
  point.rearTorque = stands ? 0 : halfShafts(rear.axle, rear.at, rear.roll, wheels.rear);
  point.speed = stands ? 0 : speed;
  point.heat = powers.unitHeat;
  point.wall = 0;
}

function powerOf({ axle, at, braking }: Side, stands: boolean): number {
  if (!axle.driven) return 0;
  return stands ? braking.standstill : at.power;
}

/** The step at hand is done. @param emf @param ohm V and ohm of the pack where it began: within a step they change in a straight line. */
export function noteStep(pack: DrivenPack, { trail }: Track, emf: number, ohm: number): void {
  toCurrents(trail.first, emf + FIRST * (pack.emf - emf), ohm + FIRST * (pack.resistance - ohm));
  toCurrents(trail.second, emf + SECOND * (pack.emf - emf), ohm + SECOND * (pack.resistance - ohm));
  trail.add(pack.span);
}

function toCurrents(point: TrailPoint, emf: number, ohm: number): void {
  point.pack = currentAtPower(emf, ohm, point.pack);
  point.voltage = emf - ohm * point.pack;
  const per = 1 / point.voltage;
  point.front *= per;
  point.rear *= per;
  point.consumers *= per;
}

/** A stretch at full pedal. @param from @param to s of the solution. */
export function noteStretch(
  { plant: own, drain }: Machine,
  track: Track,
  solution: Solution,
  from: number,
  to: number,
): void {
  if (track.plant === null || !sameShape(track.plant.shape, own.shape)) track.plant = createPlant(own.shape);
  const { plant } = track;
  const { pack, front, rear, charge, soaked } = own.moving;
  // Consumers change along the way: what the driving plant reckons with stays what it is.
  const car = Object.assign(new CarFigures(), own.moving.car);
  plant.load({ shape: own.shape, car, pack, front, rear, charge, soaked });
  addStretch(track.trail, plant, track.wheels, solution, [from, to], (mode, y, out) =>
    consume(drain, plant, mode, y, out),
  );
}
