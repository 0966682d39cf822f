/** How warm pack and drive units are at the start. */
import type { Surroundings } from '../model/car.ts';
import { filler } from '../model/fields/filler.ts';
import type { Fields } from '../model/fields/field.ts';
import { onceEach } from '../model/fields/once.ts';
import { number } from '../model/fields/table.ts';
import { surroundingsOf } from './kind.ts';
import type { Asked, RunValues } from './kind.ts';

/** To be spread into the fields of a kind of run. */
export const soakedField = {
  soaked: number('K', ['degC', 'degF'], [223.15, 343.15], 'of pack and drive unit at the start', {
    derived: 'that of the air: the car has stood in it for long',
  }),
} as const satisfies Fields;

/** K. @throws SpecError */
export function soakedOf({ name, values, inputs }: Asked, { temperature }: Surroundings): number {
  const { soaked } = values;
  const own = soaked === undefined ? {} : { soaked };
  return filler(name, soakedField, own, inputs).derived('soaked', () => temperature);
}

/** Where and when, with how warm the car is at the start. @throws SpecError */
export function soakedIn(asked: Asked, fixed?: RunValues): Surroundings {
  return placeOf(asked.values, [asked.name, fixed], asked.inputs, () => {
    const surroundings = surroundingsOf(asked, fixed);
    return { ...surroundings, soaked: soakedOf(asked, surroundings) };
  });
}

const placeOf = onceEach<Surroundings>();
