/** What a car that follows a schedule does, point by point, in columns that grow. */
import { nth } from '../../columns.ts';
import { modeOf } from './held-mode.ts';
import type { Journey } from './journey.ts';

/** Columns of a record. Energies are J since the pack was loaded. */
export const R = {
  time: 0, // s of driving since the record began
  asked: 1, // m/s of the schedule
  speed: 2, // m/s
  distance: 3, // m since the record began
  charge: 4,
  emf: 5, // V, open circuit less polarisation
  resistance: 6, // ohm
  pack: 7, // K
  unitFront: 8, // K
  unitRear: 9,
  energy: 10, // J out of the terminals
  brakes: 11, // J
  mode: 12, // of the forward model at the end of the interval, -1 while the car follows
  length: 13, // s of the interval that ends here
} as const;
const COLUMNS = 14;

export interface FollowRecord {
  /** Rows so far. */
  rows(): number;
  push(time: number, asked: number, car: Journey, length: number): void;
  /** The next schedule begins: its times and distances go on from here. */
  next(): void;
  /** Takes rows back: so many are left. */
  truncate(rows: number): void;
  /** s in the present schedule of the last row. */
  last(): number;
  column(index: number): Float64Array;
}

export function createFollowRecord(): FollowRecord {
  let data = new Float64Array(COLUMNS * 2048);
  let rows = 0;
  let time = 0;
  let distance = 0;
  const last = (column: number): number => (rows === 0 ? 0 : nth(data, (rows - 1) * COLUMNS + column));
  return {
    rows: () => rows,
    push(at, asked, car, length) {
      if ((rows + 1) * COLUMNS > data.length) {
        const more = new Float64Array(2 * data.length);
        more.set(data);
        data = more;
      }
      const o = rows * COLUMNS;
      const { following, sums } = car;
      const { pack: k, front, rear } = following;
      data[o + R.time] = time + at;
      data[o + R.asked] = asked;
      data[o + R.speed] = car.speed;
      data[o + R.distance] = distance + car.distance;
      data[o + R.charge] = k.charge;
      data[o + R.emf] = k.emf;
      data[o + R.resistance] = k.resistance;
      data[o + R.pack] = k.temperature;
      data[o + R.unitFront] = front.at.temperature;
      data[o + R.unitRear] = rear.at.temperature;
      data[o + R.energy] = sums.power;
      data[o + R.brakes] = sums.brakes;
      data[o + R.mode] = modeOf(car);
      data[o + R.length] = length;
      rows++;
    },
    next() {
      time = last(R.time);
      distance = last(R.distance);
    },
    truncate(left) {
      rows = Math.min(rows, left);
    },
    last: () => last(R.time) - time,
    column(index) {
      const column = new Float64Array(rows);
      for (let row = 0, o = index; row < rows; row++, o += COLUMNS) column[row] = data[o] ?? Number.NaN;
      return column;
    },
  };
}
