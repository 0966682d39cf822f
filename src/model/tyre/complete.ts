/** A tyre from what is said about it. */
import * as elementary from '../../elementary.ts';
import { type Filler, filler, notebookKey } from '../fields/filler.ts';
import type { Friction, Tyre } from '../car.ts';
import type { Input } from '../fields/input.ts';
import { tyreFields } from './fields.ts';
import type { TyreSpec } from './fields.ts';
import { SpecError } from '../fields/spec-error.ts';
import { referenceLoad, USUAL_SPREAD } from './reference-load.ts';
import { readTyreSize, TyreSizeError } from './size.ts';
import type { TyreSize } from './size.ts';

type TyreFiller = Filler<typeof tyreFields>;

const PAIRS = [
  ['drySlide', 'dryPeak'],
  ['wetSlide', 'wetPeak'],
] as const;

/** @throws SpecError */
export function completeTyre(path: string, spec: TyreSpec, inputs: Input[]): Tyre {
  const fill = filler(path, tyreFields, spec, inputs);
  const { size } = spec;
  if (size === undefined && spec.radius === undefined) {
    throw new SpecError(path, 'neither size nor radius is given', 'size: 165/80 R 13, or radius: 288 mm');
  }
  const code = size === undefined ? null : sizeOf(path, size, spec.radius !== undefined);
  const radius = fill.derived('radius', () => code?.effectiveRadius ?? Number.NaN);
  for (const [slide, peak] of PAIRS) {
    if (spec[slide] === undefined || spec[peak] !== undefined) continue;
    throw fill.error(slide, 'stands without its peak', `${notebookKey(peak)} too, or ${notebookKey(slide)}_share`);
  }
  const dryPeak = fill.number('dryPeak');
  const drySlide = spec.drySlide === undefined ? fill.number('drySlideShare') * dryPeak : fill.number('drySlide');
  const wetPeak = fill.derived('wetPeak', () => 0.68 * dryPeak, {
    kind: 'rectangular',
    low: 0.6 * dryPeak,
    high: 0.76 * dryPeak,
  });
  const wetSlide = spec.wetSlide === undefined ? fill.number('wetSlideShare') * wetPeak : fill.number('wetSlide');
  if (drySlide >= dryPeak) throw fill.error('drySlide', 'is not below the peak', `less than ${dryPeak}`);
  if (wetSlide >= wetPeak) throw fill.error('wetSlide', 'is not below the peak', `less than ${wetPeak}`);
  const load = referenceLoad(code?.loadIndex, radius);
  const usual = { kind: 'rectangular', low: (1 - USUAL_SPREAD) * load, high: (1 + USUAL_SPREAD) * load } as const;
  const pressed = pressureFactor(fill);
  return {
    radius,
    inertia: fill.derived('inertia', () => 0.9 * elementary.pow(radius / 0.3, 4)),
    rolling: {
      c0: pressed * fill.number('rollingResistance'),
      c1: pressed * fill.number('rollingLinear'),
      c2: pressed * fill.number('rollingQuadratic'),
    },
    dry: { peak: dryPeak, slide: drySlide },
    wet: { peak: wetPeak, slide: wetSlide },
    snow: slippery(fill, 'snowPeak', 'snowSlideShare'),
    ice: slippery(fill, 'icePeak', 'iceSlideShare'),
    slipAtPeak: fill.number('slipAtPeak'),
    loadExponent: fill.number('loadExponent'),
    loadReference: fill.derived('loadReference', () => load, code?.loadIndex === undefined ? usual : undefined),
    warming: {
      rise: fill.number('coldRise'),
      warmAfter: fill.number('warmAfter'),
      coldAfter: fill.number('coldAfter'),
    },
  };
}

function slippery(fill: TyreFiller, peak: 'snowPeak' | 'icePeak', share: 'snowSlideShare' | 'iceSlideShare'): Friction {
  const most = fill.number(peak);
  return { peak: most, slide: fill.number(share) * most };
}

/** Rolling resistance over that at the reference pressure: (p/p0)^-a as in SAE J2452 (from memory). */
function pressureFactor(fill: TyreFiller): number {
  const reference = fill.number('referencePressure');
  const pressure = fill.derived('pressure', () => reference, {
    kind: 'rectangular',
    low: 0.9 * reference,
    high: 1.1 * reference,
  });
  return elementary.pow(pressure / reference, -fill.number('pressureExponent'));
}

/** The thousands of cars of a study have a few sizes in all. */
const known = new Map<string, TyreSize>();
const MOST_KNOWN = 100;

/** @param measured whether a radius stands beside it: then a code that no radial tyre has, as of a cross-ply one, says nothing. */
function sizeOf(path: string, size: string, measured: boolean): TyreSize | null {
  const before = known.get(size);
  if (before !== undefined) return before;
  try {
    const read = readTyreSize(size);
    if (known.size < MOST_KNOWN) known.set(size, read);
    return read;
  } catch (cause) {
    if (!(cause instanceof TyreSizeError)) throw cause;
    if (measured) return null;
    throw new SpecError(`${path}.size`, cause.message, cause.expected);
  }
}
