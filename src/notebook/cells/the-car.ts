/** What the cells that put one car on a road have in common. */
import type { Car } from '../../model/car.ts';
import type { Input } from '../../model/fields/input.ts';
import type { World } from '../context.ts';
import { entryOf, type LocatedMap, problemAt } from '../document/located.ts';
import { placeOf } from '../document/place.ts';
import { NotebookProblem } from '../document/problem.ts';
import type { FieldValue } from '../fields/read-context.ts';
import type { CellText } from './kind.ts';

/** A car with the inputs behind it, and what was noted while it was completed. */
export interface CarOfCell {
  readonly car: Car;
  readonly inputs: readonly Input[];
  readonly notes: readonly string[];
}

/** The car that a cell names. Throws NotebookProblem at the field `car`. */
export function carOf(value: FieldValue | undefined, cell: CellText, map: LocatedMap, world: World): CarOfCell {
  const given = typeof value === 'string' ? world.given(value) : undefined;
  if (given?.product?.kind === 'car') {
    return { car: given.product.car, inputs: given.inputs, notes: given.product.notes };
  }
  const place = entryOf(map, 'car')?.value ?? placeOf(cell.text, cell.piece.line);
  throw new NotebookProblem(problemAt(place, `${cell.piece.name}.car`, 'is no car', 'the name of a car cell'));
}

/** Fields of a car that only count on the way, while slowing down, or at the wall. */
const AT_LEISURE =
  /\.(charger|cabin|regeneration)\.|\.pack\.(window_|charge_|max_charge_current$)|\.unit\.standstill_loss$|\.cell\.max_charge_current$/u;

/** Inputs that a run at full pedal has a use for: what nobody wrote down and such a run does not look at is left out. */
export function atFullPedal(inputs: readonly Input[]): readonly Input[] {
  return inputs.filter(({ path, origin }) => origin.kind === 'given' || !AT_LEISURE.test(path));
}
