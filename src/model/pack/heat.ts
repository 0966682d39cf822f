/** A pack whose heat is a state, for runs that last long enough to matter. */
import type { Car, Pack } from '../car.ts';
import { CELL_HEAT } from '../drive/heat.ts';
import type { Input } from '../fields/input.ts';

/** Cells with boxes and busbars over cells alone: common practice, no source. */
const BOX = 1.4;

/** W/(K kg of cells): a closed box without a coolant loses its warmth in some ten hours; common practice, no source. */
const COOLING = 0.03;

/** As `resistanceActivation` of `packFields`. */
const ACTIVATION = 2400;

/**
 * The car with the heat of its pack, assumed where it is not given: warm-up changes the resistance over an hour, and the cold
 * limits what braking gives back. What was assumed is listed. The derating of the defaults holds.
 */
export function withPackHeat(car: Car, name: string): { readonly car: Car; readonly inputs: readonly Input[] } {
  const { pack } = car;
  if (pack.heat !== undefined) return { car, inputs: [] };
  const mass = pack.series * pack.parallel * pack.cell.mass;
  const heat: Pack['heat'] = {
    capacity: BOX * mass * CELL_HEAT,
    cooling: COOLING * mass,
    derateAt: 323.15,
    derateRange: 10,
    resistanceActivation: ACTIVATION,
  };
  const path = (key: string): string => (name === '' ? `pack.${key}` : `${name}.pack.${key}`);
  const inputs: Input[] = [
    {
      path: path('heat_capacity'),
      value: heat.capacity,
      unit: 'J/K',
      display: 'kJ/K',
      origin: { kind: 'assumed', source: '1.4 times the mass of the cells times 1000 J/(kg K) (from memory)' },
      spread: { kind: 'rectangular', low: 0.8 * heat.capacity, high: 1.3 * heat.capacity },
    },
    {
      path: path('cooling'),
      value: heat.cooling,
      unit: 'W/K',
      display: 'W/K',
      origin: {
        kind: 'assumed',
        source: '0.03 W/K for each kg of cells: a closed box in still air; common practice, no source',
      },
      spread: { kind: 'rectangular', low: 0.3 * heat.cooling, high: 3 * heat.cooling },
    },
  ];
  return { car: { ...car, pack: { ...pack, heat } }, inputs };
}
