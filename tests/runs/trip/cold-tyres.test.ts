/** What tyres that have stood cost on the way. */
import { describe, expect, it } from 'vitest';
import { scheduleNamed } from '../../../src/cycles/schedules.ts';
import { steadySchedule } from '../../../src/cycles/steady.ts';
import type { Stop, Trip } from '../../../src/cycles/trip.ts';
import type { Car } from '../../../src/model/car.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import { travelLedger } from '../../../src/runs/schedule/ledger.ts';
import { drive } from '../../../src/runs/trip/drive.ts';
import { range } from '../../../src/runs/trip/range.ts';
import { steady } from '../../../src/runs/trip/steady.ts';
import { standardTest } from '../../../src/runs/standard/range-test.ts';
import { testCar, testDay } from '../../cars.ts';

const RISE = 0.2;
const warming = { rise: RISE, warmAfter: 1800, coldAfter: 10_800 };
const cold: Car = {
  ...testCar,
  tyres: { front: { ...testCar.tyres.front, warming }, rear: { ...testCar.tyres.rear, warming } },
};

const level = (seconds: number): Trip['parts'][number] => ({
  kind: 'leg',
  schedule: steadySchedule(20, seconds),
  load: null,
});
const stand = (seconds: number): Stop => ({ kind: 'stop', seconds });
const trip = (...parts: Trip['parts']): Trip => ({ title: 'way', parts });

/** J of rolling resistance, against that of warm tyres. */
function more(way: Trip): number {
  const rolled = (car: Car): number =>
    travelLedger(travelOnce(car, way, { surroundings: testDay, charge: 0.9 })).out['rolling resistance'] ?? Number.NaN;
  return rolled(cold) / rolled(testCar) - 1;
}

describe('tyres that have stood', () => {
  it('cost in all what a decay with a time constant of ten minutes does, by the time that is driven', () => {
    // Driven wheels slip a little more for it, 1e-4 of the energy. At a steady speed the mean of (1 - t/T)^2: 1 - t/T + (t/T)^2/3 over a way within T, T/(3 t) over a longer one.
    expect(more(trip(level(300)))).toBeCloseTo(RISE * (1 - 1 / 6 + 1 / 108), 3);
    expect(more(trip(level(1800)))).toBeCloseTo(RISE / 3, 3);
    expect(more(trip(level(5400)))).toBeCloseTo(RISE / 9, 3);
    // One leg or many: the warmth is carried along.
    expect(more(trip(level(600), level(600), level(600)))).toBeCloseTo(RISE / 3, 3);
  });

  it('are cold again in the morning, and half cold after a short stop', () => {
    const twice = (rest: number): number => more(trip(level(1800), stand(rest), level(1800)));
    expect(twice(0)).toBeCloseTo(RISE / 6, 3);
    expect(twice(8 * 3600)).toBeCloseTo(RISE / 3, 3);
    // After half an hour 1 - (5/6)^2 of the cold is there: from its root on, a drive has a third of root cubed.
    expect(twice(1800)).toBeCloseTo((RISE * (1 + (1 - 25 / 36) ** 1.5)) / 6, 3);
  });

  it('cost in every energy what another method says, and the ledger closes', () => {
    for (const way of [
      trip({ kind: 'leg', schedule: scheduleNamed('wltc'), load: null }),
      trip(level(100), stand(900), level(4000)),
    ]) {
      const result = drive(cold, way, { surroundings: testDay });
      expect(Math.abs(result.ledger.gap)).toBeLessThan(1e-8);
      expect(result.opinion?.agrees).toBe(true);
      expect(result.opinion?.difference ?? 1).toBeLessThan(1e-6);
    }
  });

  it('shorten a range by their first half hour, after which it is driven from memory as ever', () => {
    const way = trip({ kind: 'leg', schedule: scheduleNamed('wltc'), load: null });
    const [warm, stood] = [testCar, cold].map(car => range(car, way, { surroundings: testDay }));
    const lost = 1 - Number(stood?.summary.range) / Number(warm?.summary.range);
    expect(lost).toBeGreaterThan(0.001);
    expect(lost).toBeLessThan(0.01);
    expect(stood?.opinion?.agrees).toBe(true);
  });

  it('have no say where a speed is held for long, nor on rollers, which are set to warm tyres', () => {
    const held = (car: Car): unknown => steady(car, { surroundings: testDay, speed: 25, speeds: [25] }).summary;
    expect(held(cold)).toEqual(held(testCar));
    expect(standardTest(cold, 'wltp').summary).toEqual(standardTest(testCar, 'wltp').summary);
  });
});
