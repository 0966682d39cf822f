/** Reads columns of numbers, lists and tables of names, where a place or a name that is not there is a fault, and never an undefined number. */

/**
 * A number of a column. Apart from `item`: the engine keeps numbers plain where it meets nothing else.
 * @throws RangeError for a place that the column does not have.
 */
export function nth(column: ArrayLike<number>, place: number): number {
  // Apart: where the engine meets nothing but columns of one kind it reads them at once, and these are read the most.
  if (column instanceof Float64Array) return nthOfFloats(column, place);
  const found = column[place];
  if (found === undefined) throw absent(column, place);
  return found;
}

function nthOfFloats(column: Float64Array, place: number): number {
  const found = column[place];
  if (found === undefined) throw absent(column, place);
  return found;
}

/** The last of a column. @throws RangeError for one that is empty. */
export function lastOf(column: ArrayLike<number>): number {
  return nth(column, column.length - 1);
}

/** One of a list of anything. @throws RangeError for a place that the list does not have. */
export function item<T>(list: readonly T[], place: number): T {
  const found = list[place];
  if (found === undefined) throw absent(list, place);
  return found;
}

/** One of things that have names. @throws RangeError for a name that none of them has. */
export function named<T>(things: { readonly [name: string]: T }, name: string): T {
  const found = things[name];
  if (found === undefined) throw new RangeError(`there is no "${name}" among ${Object.keys(things).join(', ')}`);
  return found;
}

function absent({ length }: ArrayLike<unknown>, place: number): RangeError {
  return new RangeError(`there is no place ${place} among ${length}`);
}
