/** Generic cabins: what is lost through glass, walls and with fresh air, per kelvin. */
import { between } from '../parts/part.ts';
import type { CabinPart } from '../parts/part.ts';

export const cabins: readonly CabinPart[] = [
  {
    kind: 'cabin',
    name: 'cabin_single_glazed',
    title: 'An old car: single glass, bare sheet, draughty doors',
    values: { loss: 100 },
    spreads: { loss: between(70, 130) },
    source:
      '2.6 m^2 of single glass at 5.8 W/(m^2 K) (EN 673, from memory), 9 m^2 of sheet with its lining at 4 W/(m^2 K), 0.05 kg/s of fresh air and leaks; areas, sheet and air common practice, no source',
  },
  {
    kind: 'cabin',
    name: 'cabin_lined',
    title: 'The same with laminated or double glass, walls and floor lined, doors sealed',
    values: { loss: 65 },
    spreads: { loss: between(50, 80) },
    source:
      '2.6 m^2 of glass at 3.5 W/(m^2 K) (from memory), 9 m^2 of lined sheet at 2 W/(m^2 K), 0.038 kg/s of fresh air; common practice, no source but for the glass',
  },
];
