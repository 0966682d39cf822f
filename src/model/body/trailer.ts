/** A trailer behind the car: what it does to mass, axle loads and resistance. */
import { type Filler, filler } from '../fields/filler.ts';
import type { Body, Trailer } from '../car.ts';
import type { Input } from '../fields/input.ts';
import type { SpecOf } from '../fields/table.ts';
import { trailerFields } from './trailer-fields.ts';

/** @throws SpecError */
export function completeTrailer(
  path: string,
  spec: SpecOf<typeof trailerFields> | undefined,
  inputs: Input[],
): Trailer | undefined {
  if (spec === undefined) return undefined;
  const fill = filler(path, trailerFields, spec, inputs);
  fill.need('mass');
  const mass = fill.number('mass');
  return {
    mass,
    hitchLoad: hitchLoad(fill, mass),
    hitchHeight: fill.number('hitchHeight'),
    overhang: fill.number('overhang'),
    dragArea: fill.number('dragArea'),
    rolling: fill.number('rollingResistance'),
  };
}

/** kg, given or the usual share of the trailer's mass in kg. @throws SpecError */
export function hitchLoad(fill: Pick<Filler<typeof trailerFields>, 'derived' | 'error'>, mass: number): number {
  const load = fill.derived('hitchLoad', () => 0.06 * mass, {
    kind: 'rectangular',
    low: 0.04 * mass,
    high: 0.08 * mass,
  });
  if (load >= mass) throw fill.error('hitchLoad', 'is as much as the whole trailer weighs', `less than ${mass} kg`);
  return load;
}

/** What a trailer puts on the axles of its car; the forces along the road act at the hitch. */
export interface Towed {
  /** kg. */
  readonly mass: number;
  /** kg on the front and on the rear axle, on a level road: what rests on the hitch lifts the front and more than rests on the rear. */
  readonly front: number;
  readonly rear: number;
  /** kg on its own wheels, on a level road. */
  readonly own: number;
  /** Height of the hitch over the wheelbase of the car: N that move from front to rear for each N that pulls there. */
  readonly lever: number;
}

const NOTHING: Towed = { mass: 0, front: 0, rear: 0, own: 0, lever: 0 };

/**
 * Moments about the two axles of the car. The trailer pulls at the hitch with what its mass, slope, drag and rolling ask for. Its centre
 * of gravity and its drag are taken to lie at the height of the hitch, so that what rests there does not change as it is pulled
 * (else it would, by their distance over the length of the drawbar); its wheels turn without inertia.
 */
export function towed({ overhang, hitchHeight, hitchLoad, mass }: Trailer | undefined = NO_TRAILER, body: Body): Towed {
  if (mass === 0) return NOTHING;
  const lifted = (hitchLoad * overhang) / body.wheelbase;
  return {
    mass,
    front: -lifted,
    rear: hitchLoad + lifted,
    own: mass - hitchLoad,
    lever: hitchHeight / body.wheelbase,
  };
}

const NO_TRAILER: Trailer = { mass: 0, hitchLoad: 0, hitchHeight: 0, overhang: 0, dragArea: 0, rolling: 0 };
