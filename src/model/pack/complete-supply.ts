/** The supply on the wall from what is said about it. */
import { filler } from '../fields/filler.ts';
import type { Input } from '../fields/input.ts';
import type { SpecOf } from '../fields/table.ts';
import { pilotCurrent } from './supply.ts';
import type { Supply } from './supply.ts';
import { supplyFields } from './supply-fields.ts';

/** A where neither a current nor a pilot is given. */
const SOCKET = 10;

/**
 * Where a pilot and a current are given, the lesser counts.
 * @throws SpecError
 */
export function completeSupply(path: string, spec: SpecOf<typeof supplyFields>, inputs: Input[]): Supply {
  const fill = filler(path, supplyFields, spec, inputs);
  const allowed = spec.pilot === undefined ? null : pilotCurrent(fill.number('pilot'));
  if (spec.pilot !== undefined && allowed === null) {
    throw fill.error('pilot', 'allows no charging by itself', 'a duty cycle from 8 % to 97 %');
  }
  const phases = fill.number('phases');
  if (!Number.isInteger(phases)) throw fill.error('phases', `${phases} is not a whole number`);
  const current = fill.derived('current', () => allowed ?? SOCKET);
  return { voltage: fill.number('voltage'), current: Math.min(current, allowed ?? current), phases };
}
