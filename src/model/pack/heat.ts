/** The lumped heat of a pack: warm-up changes its resistance within minutes, and the cold limits what it gives and takes. */
import type { Cell, Pack } from '../car.ts';
import type { Filler } from '../fields/filler.ts';
import type { packFields } from './fields.ts';

/** Specific heat of cells, J/(kg K): 900 to 1100 (from memory). */
const CELL_HEAT = 1000;

/** Cells with boxes and busbars over cells alone: common practice, no source. */
const BOX = 1.4;

/** W/(K kg of cells): a closed box without a coolant loses its warmth in some ten hours; common practice, no source. */
const COOLING = 0.03;

/**
 * @param cells of the whole pack.
 * @throws SpecError
 */
export function completePackHeat(
  fill: Filler<typeof packFields>,
  cell: Cell,
  cells: number,
): NonNullable<Pack['heat']> {
  const mass = cells * cell.mass;
  const capacity = BOX * mass * CELL_HEAT;
  const cooling = COOLING * mass;
  return {
    capacity: fill.derived('heatCapacity', () => capacity, {
      kind: 'rectangular',
      low: 0.8 * capacity,
      high: 1.3 * capacity,
    }),
    cooling: fill.derived('cooling', () => cooling, { kind: 'rectangular', low: 0.3 * cooling, high: 3 * cooling }),
    derateAt: fill.number('derateTemperature'),
    derateRange: fill.number('derateRange'),
    resistanceActivation: fill.number('resistanceActivation'),
  };
}
