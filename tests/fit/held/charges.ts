/** Charges and drives of a pack that is known, between rests: voltmeter, counter and the curve of the cells off by what they say. */
import { chargeAtRest } from '../../../src/fit/season/rest-charge.ts';
import { COUNT, readPackLog } from '../../../src/fit/season/pack-log.ts';
import { capacityOf } from '../../../src/fit/season/season-fit.ts';
import type { Measured } from '../../../src/fit/coast/measured.ts';
import { normals } from '../coast-logs.ts';
import { charging, driving, packCar, packCsv, packRows, type PackWay } from '../pack-logs.ts';
import { type Counting, holds } from './counting.ts';

/** Standard uncertainties: share of a voltage, V of a cell. */
const VOLTMETER = 0.002;
const CURVE = 0.015;
const HEALTH = 0.88;

function resting(name: string, way: Pick<PackWay, 'from' | 'current' | 'step'>): Counting {
  const car = packCar();
  const { cell, series, parallel } = car.pack;
  const capacity = cell.capacity * parallel;
  return {
    name,
    figures: ['capacity'],
    repeats: 1000,
    hits: seed => {
      const normal = normals(seed);
      const [counter, before, after] = [COUNT * normal(), normal(), normal()];
      const rows = packRows(
        car,
        { ...way, health: HEALTH, rest: 2400, noise: [0.2, 0.1], gains: [counter, 0] },
        normal,
      );
      const log = readPackLog(packCsv(rows), { capacity, cell, series });
      const rest = ({ value, standard }: Measured, off: number): ReturnType<typeof chargeAtRest> => {
        const meter = VOLTMETER * value;
        const whole = Math.hypot(meter, standard) / series;
        const shown = value / series + off * Math.hypot(whole, CURVE);
        return chargeAtRest(cell, { value: shown, standard: whole }, CURVE);
      };
      const [start, end] = [rest(log.before, before), rest(log.after, after)];
      if ('short' in start || 'short' in end) return null;
      const part = {
        value: Math.abs(end.value - start.value),
        standard: Math.hypot(start.standard, end.standard),
      };
      const found = capacityOf([{ part, counted: log.counted, wall: null, into: null }]);
      return found === null ? null : [holds(found.value - HEALTH * capacity, found.standard)];
    },
  };
}

export const chargeCountings: readonly Counting[] = [
  resting('a charge between two rests', { from: 0.12, current: charging(40, 8400), step: 10 }),
  resting('a drive between two rests', { from: 0.97, current: driving(9000), step: 3 }),
];
