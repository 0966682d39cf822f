/** What a drive takes back, from what is said about it. */
import { filler } from '../fields/filler.ts';
import type { DriveUnit, Regeneration } from '../car.ts';
import type { Input } from '../fields/input.ts';
import { regenerationFields } from './fields.ts';
import type { RegenerationSpec } from './fields.ts';

/** @throws SpecError */
export function completeRegeneration(
  path: string,
  spec: RegenerationSpec,
  { peakTorque, peakPower }: Pick<DriveUnit, 'peakTorque' | 'peakPower'>,
  inputs: Input[],
): Regeneration {
  const fill = filler(path, regenerationFields, spec, inputs);
  const word = fill.choice('kind');
  const kind = word === 'lift' || word === 'none' ? word : 'blended';
  if (kind === 'none') return { kind, share: 0, torque: 0, power: 0, fadeFrom: 1, fadeTo: 0, gripShare: 0 };
  const usual = (kind === 'lift' ? 0.25 : 0.6) * peakTorque;
  const torque = fill.derived('torque', () => usual, { kind: 'rectangular', low: 0.6 * usual, high: 1.4 * usual });
  const power = fill.derived('power', () => 0.5 * peakPower, {
    kind: 'rectangular',
    low: 0.3 * peakPower,
    high: 0.7 * peakPower,
  });
  const fadeFrom = fill.number('fadeFrom');
  const fadeTo = fill.number('fadeTo');
  if (fadeTo >= fadeFrom) throw fill.error('fadeTo', 'is not below fade_from');
  return { kind, share: fill.number('share'), torque, power, fadeFrom, fadeTo, gripShare: fill.number('gripShare') };
}
