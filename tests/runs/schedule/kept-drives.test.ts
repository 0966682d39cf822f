/** Random cars on schedules that once went wrong: each stands in `kept/` with what was. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { ScheduleName } from '../../../src/cycles/schedules.ts';
import type { Car, Surroundings } from '../../../src/model/car.ts';
import { travelLedger } from '../../../src/runs/schedule/ledger.ts';
import { travelOnce } from '../../../src/runs/schedule/trip.ts';
import { withPackHeat } from '../../cars.ts';
import { beginning, hilly, trip } from '../../trips.ts';

interface Kept {
  readonly what: string;
  readonly car: Car;
  readonly surroundings: Surroundings;
  readonly schedule: ScheduleName;
  /** Slope of its steepest hill. */
  readonly steepest: number;
}

const folder = new URL('kept/', import.meta.url);

/** JSON has no Infinity. */
const kept = (file: string): Kept =>
  JSON.parse(readFileSync(new URL(file, folder), 'utf8'), (_, value) => (value === 'Infinity' ? Infinity : value));

describe('a kept car', () => {
  it.each(readdirSync(folder))('%s is driven with a ledger that closes', file => {
    const { what, car, surroundings, schedule, steepest } = kept(file);
    const run = travelOnce(withPackHeat(car), trip(hilly(beginning(schedule, 500), steepest)), { surroundings });
    expect(run.status, what).not.toBe('failed');
    expect(Math.abs(travelLedger(run).gap), what).toBeLessThan(1e-6);
  });
});
