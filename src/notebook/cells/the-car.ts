/** What the cells that put one car on a road have in common. */
import type { Car } from '../../model/car.ts';
import type { Input } from '../../model/quantity.ts';
import type { World } from '../context.ts';
import { entryOf, type LocatedMap, problemAt } from '../located.ts';
import { placeOf } from '../place.ts';
import { NotebookProblem } from '../problem.ts';
import type { CellText } from './kind.ts';

/** The car that a cell names, with the inputs behind it. Throws NotebookProblem at the field `car`. */
export function carOf(
  name: string | undefined,
  cell: CellText,
  map: LocatedMap,
  world: World,
): { readonly car: Car; readonly inputs: readonly Input[] } {
  const given = name === undefined ? undefined : world.given(name);
  if (given?.product?.kind === 'car') return { car: given.product.car, inputs: given.inputs };
  const place = entryOf(map, 'car')?.value ?? placeOf(cell.text, cell.piece.line);
  throw new NotebookProblem(problemAt(place, `${cell.piece.name}.car`, 'is no car', 'the name of a car cell'));
}
