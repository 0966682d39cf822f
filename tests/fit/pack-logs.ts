/** Logs of a pack that is known, from a rest to a rest: cells of a curve with a resistance and one slow pair. All invented. */
import { item } from '../../src/columns.ts';
import { completeCar } from '../../src/model/complete.ts';
import type { Car } from '../../src/model/car.ts';
import { curvesOf } from '../../src/model/pack/cell-table.ts';
import { curveAt } from '../../src/model/tables/curve.ts';
import { shippedPart } from '../../src/model/parts/shipped.ts';

export function packCar(name: 'cell_nmc_60ah' | 'cell_lfp_100ah' = 'cell_nmc_60ah'): Car {
  const cell = shippedPart('cell', name)?.values ?? {};
  const { car } = completeCar({
    mass: 1155,
    tyres: { radius: 0.29 },
    drive: { axle: 'rear', ratio: 8, unit: { peakTorque: 200, peakPower: 60_000, maxSpeed: 1200 } },
    pack: { cell, series: 90, parallel: 2 },
  });
  return car;
}

export interface PackWay {
  /** True capacity over the one when new. */
  readonly health: number;
  /** State of charge where the log begins. */
  readonly from: number;
  /** A out of the pack over s since the first rest; it ends where this is null. */
  readonly current: (time: number) => number | null;
  /** s between rows, and of each rest. */
  readonly step: number;
  readonly rest: number;
  /** A and V of white noise of a row, shares by which both meters read too much, A that the current reads at rest. */
  readonly noise?: readonly [number, number];
  readonly gains?: readonly [number, number];
  readonly offset?: number;
  /** V by which the curve of these cells lies higher than that of the car cell. */
  readonly curve?: number;
}

/** Of the pack as a whole; V less than at rest per A, and of a pair that takes `SLOW` s. */
const OHM = 0.06;
const SLOW_OHM = 0.03;
const SLOW = 400;

/** Rows of s, V and A. */
export function packRows(car: Car, way: PackWay, normal: () => number): readonly (readonly [number, number, number])[] {
  const { cell, series, parallel } = car.pack;
  const { ocv } = curvesOf(cell);
  const capacity = way.health * cell.capacity * parallel;
  const [noise, gains] = [way.noise ?? [0, 0], way.gains ?? [0, 0]];
  const rows: (readonly [number, number, number])[] = [];
  let [charge, lag, ends] = [way.from, 0, Number.POSITIVE_INFINITY];
  let before = 0;
  for (let t = 0; t <= ends + way.rest; t += way.step) {
    const asked = t < way.rest ? 0 : way.current(t - way.rest);
    if (asked === null && ends === Number.POSITIVE_INFINITY) ends = t;
    const now = asked ?? 0;
    charge -= ((now + before) / 2) * (way.step / capacity);
    lag += (SLOW_OHM * now - lag) * (1 - Math.exp(-way.step / SLOW));
    before = now;
    const volts = series * (curveAt(ocv, charge) + (way.curve ?? 0)) - OHM * now - lag;
    rows.push([
      t,
      (1 + item(gains, 1)) * volts + item(noise, 1) * normal(),
      (1 + item(gains, 0)) * now + (way.offset ?? 0) + item(noise, 0) * normal(),
    ]);
  }
  return rows;
}

/** As a logger writes it. */
export function packCsv(
  rows: readonly (readonly [number, number, number])[],
  header = 'time_s,voltage_V,current_A',
): string {
  return `${header}\n${rows.map(([t, v, a]) => `${t},${v.toFixed(2)},${a.toFixed(2)}`).join('\n')}\n`;
}

/** A charge of so many A in, s long. */
export const charging =
  (amperes: number, seconds: number) =>
  (time: number): number | null =>
    time < seconds ? -amperes : null;

/** A drive in town and out of it: pulls, brakes that give back and stops, s long. */
export const driving =
  (seconds: number) =>
  (time: number): number | null => {
    if (time >= seconds) return null;
    const [round, phase] = [Math.floor(time / 60), time % 60];
    const pull = 60 + 40 * Math.sin(round);
    if (phase < 12) return 1.6 * pull;
    if (phase < 40) return 0.5 * pull;
    if (phase < 48) return -0.7 * pull;
    return 2;
  };
