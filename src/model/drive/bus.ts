/** The voltages between which an inverter works, held against those of its pack. */
import type { Pack, VoltageWindow } from '../car.ts';
import type { Filler } from '../fields/filler.ts';
import { misfitsOf } from '../pack/voltage-window.ts';
import type { UnitSpec, unitFields } from './fields.ts';

/** Of the reference voltage: see the fields. */
const LEAST = 0.6;
const GREATEST = 1.35;

/**
 * A window that is written down refuses a pack that it does not fit; one that is assumed questions it.
 * @throws SpecError
 */
export function completeBus(
  fill: Filler<typeof unitFields>,
  spec: UnitSpec,
  reference: number,
  pack: Pack,
): { readonly voltage: VoltageWindow; readonly notes: readonly string[] } {
  const least = fill.derived('leastVoltage', () => LEAST * reference, {
    kind: 'rectangular',
    low: 0.5 * reference,
    high: 0.7 * reference,
  });
  const greatest = fill.derived('greatestVoltage', () => GREATEST * reference);
  if (least >= greatest) throw fill.error('leastVoltage', 'is not below greatest_voltage');
  const notes = misfitsOf(pack, { least, greatest }).map(({ side, words, cure, fatal }) => {
    const key = side === 'least' ? 'leastVoltage' : 'greatestVoltage';
    if (fatal && spec[key] !== undefined) throw fill.error(key, words, cure);
    return `the ${side} voltage ${words}; ${cure}${spec[key] === undefined ? ' (it is assumed: give it)' : ''}`;
  });
  return { voltage: { least, greatest }, notes };
}
