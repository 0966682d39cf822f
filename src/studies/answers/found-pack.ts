/** What the pack that a search found holds and weighs: its count of cells alone buys nothing. */
import { completeCar } from '../../model/complete.ts';
import { UNLISTED } from '../../model/fields/filler.ts';
import { packEnergy } from '../../model/pack/energy.ts';
import type { OtherCar } from '../../runs/answer/ask.ts';
import { carried } from '../../runs/answer/carried-mass.ts';
import { type Change, isBelow, withOwnChanges } from '../../runs/answer/change.ts';
import type { Question } from '../../runs/answer/question.ts';
import { figure } from '../../units/rounding.ts';
import type { System } from '../../units.ts';

const ENERGY = { unit: 'J', display: { metric: 'kWh', imperial: 'kWh' } };
const MASS = { unit: 'kg', display: { metric: 'kg', imperial: 'lb' } };

/** ` (pack of 42.9 kWh, car of 1340 kg)`; '' where the changes leave all packs alone. @throws SpecError for a car that makes no sense. */
export function foundPack(questions: readonly Question[], changes: readonly Change[], system: System): string {
  const cars = new Map(questions.map(question => [question.car, question]));
  const told = [...cars].flatMap(([name, { spec, measured }]) => {
    const other = changes.find(({ path }) => path === name)?.value as OtherCar | undefined;
    if (other === undefined && !changes.some(change => isBelow(`${name}.pack`, change))) return [];
    const base = other?.spec ?? spec;
    const after = carried(base, withOwnChanges(base, name, changes));
    const { car } = completeCar(after, name, new Map(other?.measured ?? measured), UNLISTED);
    const whose = cars.size > 1 ? `${name}: ` : '';
    return `${whose}pack of ${figure(packEnergy(car.pack).whole, ENERGY, system)}, car of ${figure(car.body.mass, MASS, system, 0)}`;
  });
  return told.length === 0 ? '' : ` (${told.join('; ')})`;
}
