/** Reads the numbers of a packed table by place. */

/** A place that the table does not have is a fault, and never an undefined number. @throws RangeError */
export function nth(table: ArrayLike<number>, place: number): number {
  const found = table[place];
  if (found === undefined) throw new RangeError(`there is no place ${place} among ${table.length}`);
  return found;
}
