/** A tyre from what is said about it. */
import { filler } from '../fields/filler.ts';
import type { Tyre } from '../car.ts';
import type { Input } from '../fields/input.ts';
import { tyreFields } from './fields.ts';
import type { TyreSpec } from './fields.ts';
import { SpecError } from '../fields/spec-error.ts';
import { readTyreSize, TyreSizeError } from './size.ts';

/**
 * @param axleLoad N, static load of the axle the tyre stands on.
 * @throws SpecError
 */
export function completeTyre(path: string, spec: TyreSpec, axleLoad: number, inputs: Input[]): Tyre {
  const fill = filler(path, tyreFields, spec, inputs);
  const { size } = spec;
  if (size === undefined && spec.radius === undefined) {
    throw new SpecError(path, 'neither size nor radius is given', 'size: 165/80 R 13, or radius: 288 mm');
  }
  const radius = fill.derived('radius', () => radiusFromSize(path, size ?? ''));
  const dryPeak = fill.number('dryPeak');
  const drySlide = fill.derived('drySlide', () => 0.85 * dryPeak);
  const wetPeak = fill.derived('wetPeak', () => 0.68 * dryPeak);
  const wetSlide = fill.derived('wetSlide', () => 0.85 * wetPeak);
  if (drySlide >= dryPeak) throw fill.error('drySlide', 'is not below the peak', `less than ${dryPeak}`);
  if (wetSlide >= wetPeak) throw fill.error('wetSlide', 'is not below the peak', `less than ${wetPeak}`);
  return {
    radius,
    inertia: fill.derived('inertia', () => 0.9 * (radius / 0.3) ** 4),
    rolling: {
      c0: fill.number('rollingResistance'),
      c1: fill.number('rollingLinear'),
      c2: fill.number('rollingQuadratic'),
    },
    dry: { peak: dryPeak, slide: drySlide },
    wet: { peak: wetPeak, slide: wetSlide },
    slipAtPeak: fill.number('slipAtPeak'),
    loadExponent: fill.number('loadExponent'),
    loadReference: fill.derived('loadReference', () => axleLoad),
  };
}

function radiusFromSize(path: string, size: string): number {
  try {
    return readTyreSize(size).effectiveRadius;
  } catch (cause) {
    if (cause instanceof TyreSizeError) throw new SpecError(`${path}.size`, cause.message, cause.expected);
    throw cause;
  }
}
