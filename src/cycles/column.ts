/** Reads columns of numbers and lists by place, where a place that is not there is a fault, and never an undefined number. */

/** @throws RangeError for a place that the column does not have. */
export function nth<T>(column: ArrayLike<T>, place: number): T {
  const found = column[place];
  if (found === undefined) throw new RangeError(`there is no place ${place} among ${column.length}`);
  return found;
}

/** The last of a column. @throws RangeError for one that is empty. */
export function lastOf<T>(column: ArrayLike<T>): T {
  return nth(column, column.length - 1);
}
