/** What the cells that put one car on a road have in common. */
import type { Input } from '../../model/fields/input.ts';
import type { World } from '../context.ts';
import { entryOf, type LocatedMap, problemAt } from '../document/located.ts';
import { placeOf } from '../document/place.ts';
import { NotebookProblem } from '../document/problem.ts';
import type { FieldValue } from '../fields/read-context.ts';
import type { CellText } from './kind.ts';
import type { Product } from './yield.ts';

/** A car with the inputs behind it, what it was completed from, and what was noted then. */
export interface CarOfCell extends Omit<Extract<Product, { kind: 'car' }>, 'kind' | 'map' | 'sketch'> {
  readonly carName: string;
  readonly inputs: readonly Input[];
}

/** The car that a cell names. Throws NotebookProblem at the field `car`. */
export function carOf(value: FieldValue | undefined, cell: CellText, map: LocatedMap, world: World): CarOfCell {
  const given = typeof value === 'string' ? world.given(value) : undefined;
  if (typeof value === 'string' && given?.product?.kind === 'car') {
    return { ...given.product, carName: value, inputs: given.inputs };
  }
  const place = entryOf(map, 'car')?.value ?? placeOf(cell.text, cell.piece.line);
  throw new NotebookProblem(problemAt(place, `${cell.piece.name}.car`, 'is no car', 'the name of a car cell'));
}

/** Fields of a car that only count on the way, while slowing down, or at the wall. */
const AT_LEISURE =
  /\.(charger|cabin|regeneration)\.|\.pack\.(window_|charge_|heater_|max_charge_current$)|\.unit\.standstill_loss$|\.cell\.(max_charge_current|coulombic_efficiency)$|tyres\.(cold_rise|warm_after|cold_after)$/u;

/** Inputs that a run at full pedal has a use for: what nobody wrote down and such a run does not look at is left out. */
export function atFullPedal(inputs: readonly Input[]): readonly Input[] {
  return inputs.filter(input => leisureOf(input) !== 2);
}

/** 0: every run looks at it; 1: only those at leisure do, and somebody wrote it down; 2: nobody did. */
export function leisureOf({ path, origin }: Input): 0 | 1 | 2 {
  if (!AT_LEISURE.test(path)) return 0;
  return origin.kind === 'given' ? 1 : 2;
}
