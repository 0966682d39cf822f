/** What may be promised about a launch before it was measured, and after. */
import * as elementary from '../../elementary.ts';
import { nth } from '../../columns.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { createLauncher } from '../../runs/launch/run.ts';
import type { Measured } from '../coast/measured.ts';
import { propagated } from '../../studies/sampling/joint.ts';
import { carWith } from './fit-logs.ts';
import type { LaunchFit, Nuisance } from './measurement.ts';
import { PARAMETER_KINDS } from './parameters.ts';

export interface Promised {
  /** s from the pedal to the speed; null where the car does not get there. */
  readonly before: Measured | null;
  readonly after: Measured | null;
}

/** Share of the scale of a parameter by which it is moved to see what it does. */
const STEP = 0.02;

/** @param nuisances all that is uncertain about car and day, what was fitted among it. @param to m/s. */
export function promiseOf(
  found: LaunchFit,
  car: Car,
  surroundings: Surroundings,
  nuisances: readonly Nuisance[],
  to: number,
): Promised {
  const launch = createLauncher();
  const time = (of: Car, day: Surroundings): number =>
    launch(of, { surroundings: day, to, stop: 'to', tolerance: 1e-7 }).marks.get('to')?.time ?? Number.NaN;
  const half = ({ up, down }: Nuisance, measured: boolean): number => {
    const changed = (each: Car): Car => (measured ? carWith(each, found.parameters, found.values) : each);
    return (time(changed(up.car), up.surroundings) - time(changed(down.car), down.surroundings)) / 2;
  };
  const before = nuisances.reduce((all, each) => all + elementary.pow(half(each, false), 2), 0);
  const slopes = found.parameters.map((parameter, k) => {
    const step = STEP * PARAMETER_KINDS[parameter].scale;
    const at = (by: number): number =>
      time(carWith(car, found.parameters, found.values.with(k, nth(found.values, k) + by)), surroundings);
    return (at(step) - at(-step)) / (2 * step);
  });
  // What an input does to the time by itself and by way of what was fitted beside it hang together.
  const beside = found.effects.reduce((all, { name, shift }) => {
    const nuisance = nuisances.find(each => each.name === name);
    if (nuisance === undefined) return all;
    const direct = half(nuisance, true);
    const across = shift.reduce((sum, each, k) => sum + each * nth(slopes, k), 0);
    return all + elementary.pow(direct, 2) + 2 * direct * across;
  }, 0);
  const after = elementary.pow(propagated(slopes, found.covariance), 2) + beside;
  return {
    before: told(time(car, surroundings), before),
    after: told(time(found.car, surroundings), after),
  };
}

function told(value: number, variance: number): Measured | null {
  return Number.isFinite(value) && variance >= 0 ? { value, standard: Math.sqrt(variance) } : null;
}
