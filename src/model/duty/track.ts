/**
 * A quantity over a run, piece by piece: along each it goes in a straight line, between two it may jump. A straight line through
 * the values at the two Gauss-Legendre points of a step has the same integrals, of itself and of its square, as the quantity to
 * the order four of the step.
 */
export interface Track {
  /** s of each piece, none negative. */
  readonly length: Float64Array;
  /** The value where a piece begins and where it ends. */
  readonly from: Float64Array;
  readonly to: Float64Array;
}

/** Of a column of a track. A reader of one kind of table alone costs nothing: `columns.ts` reads all kinds. */
export function valueAt(column: Float64Array, place: number): number {
  const found = column[place];
  if (found === undefined) throw new RangeError(`there is no piece ${place} among ${column.length}`);
  return found;
}

const ROOT_3 = Math.sqrt(3);

/** The track through the values at the two Gauss-Legendre points of each piece. */
export function trackThrough(length: Float64Array, first: Float64Array, second: Float64Array): Track {
  const from = new Float64Array(length.length);
  const to = new Float64Array(length.length);
  for (let i = 0; i < length.length; i++) {
    const middle = 0.5 * (valueAt(first, i) + valueAt(second, i));
    const half = 0.5 * ROOT_3 * (valueAt(second, i) - valueAt(first, i));
    from[i] = middle - half;
    to[i] = middle + half;
  }
  return { length, from, to };
}

/** A track of pieces at one value each. */
export function trackOfLevels(pieces: readonly (readonly [seconds: number, value: number])[]): Track {
  const values = Float64Array.from(pieces, ([, value]) => value);
  return { length: Float64Array.from(pieces, ([seconds]) => seconds), from: values, to: values };
}

/** s. */
export function durationOf({ length }: Track): number {
  return length.reduce((sum, seconds) => sum + seconds, 0);
}

/** The same in another measure, or for a part of it. */
export function scaled({ length, from, to }: Track, factor: number): Track {
  return { length, from: times(factor, from), to: times(factor, to) };
}

function times(factor: number, column: Float64Array): Float64Array {
  const found = new Float64Array(column.length);
  for (let i = 0; i < found.length; i++) found[i] = factor * valueAt(column, i);
  return found;
}

/** One after the other. */
export function joined(tracks: readonly Track[]): Track {
  const all = (of: (track: Track) => Float64Array): Float64Array => {
    const columns = tracks.map(of);
    const whole = new Float64Array(columns.reduce((sum, column) => sum + column.length, 0));
    let place = 0;
    for (const column of columns) {
      whole.set(column, place);
      place += column.length;
    }
    return whole;
  };
  return { length: all(track => track.length), from: all(track => track.from), to: all(track => track.to) };
}

/** What of it is above nothing, and nothing where it is below: a piece that passes nothing is cut there, and idle ones are one. */
export function above({ length, from, to }: Track): Track {
  const found = {
    length: new Float64Array(2 * length.length),
    from: new Float64Array(2 * length.length),
    to: new Float64Array(2 * length.length),
  };
  let pieces = 0;
  const add = (h: number, a: number, b: number): void => {
    const idle = a === 0 && b === 0;
    const last = pieces - 1;
    if (idle && last >= 0 && valueAt(found.from, last) === 0 && valueAt(found.to, last) === 0) {
      found.length[last] = valueAt(found.length, last) + h;
      return;
    }
    found.length[pieces] = h;
    found.from[pieces] = a;
    found.to[pieces] = b;
    pieces++;
  };
  for (let i = 0; i < length.length; i++) {
    const h = valueAt(length, i);
    const a = valueAt(from, i);
    const b = valueAt(to, i);
    if (a < 0 !== b < 0 && a !== 0 && b !== 0) {
      const share = a / (a - b);
      add(share * h, Math.max(0, a), 0);
      add((1 - share) * h, 0, Math.max(0, b));
    } else add(h, Math.max(0, a), Math.max(0, b));
  }
  return {
    length: found.length.subarray(0, pieces),
    from: found.from.subarray(0, pieces),
    to: found.to.subarray(0, pieces),
  };
}

/** What of it is below nothing, turned around. */
export function below(track: Track): Track {
  return above(scaled(track, -1));
}

/** The greatest value at any instant, and the least. */
export function extremesOf({ from, to }: Track): { readonly greatest: number; readonly least: number } {
  let [greatest, least] = [-Infinity, Infinity];
  for (let i = 0; i < from.length; i++) {
    const [a, b] = [valueAt(from, i), valueAt(to, i)];
    greatest = Math.max(greatest, a, b);
    least = Math.min(least, a, b);
  }
  return { greatest, least };
}

/** Of a straight piece, the integral of its square over the seconds that it lasts. */
export function squareOf(seconds: number, from: number, to: number): number {
  return (seconds * (from * from + from * to + to * to)) / 3;
}

/** The mean over the whole of it. */
export function meanOf(track: Track): number {
  const { length, from, to } = track;
  let sum = 0;
  for (let i = 0; i < length.length; i++) sum += 0.5 * valueAt(length, i) * (valueAt(from, i) + valueAt(to, i));
  return sum / durationOf(track);
}

/** s of the longest stretch in which it is above a level, and its root mean square there; null where it never is. */
export function longestAbove(
  { length, from, to }: Track,
  level: number,
): { readonly time: number; readonly current: number } | null {
  let [most, heat, time, square] = [0, 0, 0, 0];
  const close = (): void => {
    if (time > most) [most, heat] = [time, square];
    [time, square] = [0, 0];
  };
  const add = (h: number, a: number, b: number): void => {
    time += h;
    square += (h * (a * a + a * b + b * b)) / 3;
  };
  for (let i = 0; i < length.length; i++) {
    const [h, a, b] = [valueAt(length, i), valueAt(from, i), valueAt(to, i)];
    if (a > level && b > level) add(h, a, b);
    else if (a > level) {
      add((h * (a - level)) / (a - b), a, level);
      close();
    } else {
      close();
      if (b > level) add((h * (b - level)) / (b - a), level, b);
    }
  }
  close();
  return most > 0 ? { time: most, current: Math.sqrt(heat / most) } : null;
}
