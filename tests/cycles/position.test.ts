import { describe, expect, it } from 'vitest';
import { metresBetween } from '../../src/cycles/log/position.ts';

/** m along a meridian or a parallel for half a degree to either side. */
const along = (latitude: number): number => metresBetween(latitude - 0.005, 7, latitude + 0.005, 7)[1] * 100;
const across = (latitude: number): number => metresBetween(latitude, 7, latitude, 7.01)[0] * 100;

describe('the way between two positions', () => {
  // Length of a degree on WGS 84, as tabled in public geodesy texts (from memory), in km: along meridian and parallel.
  it.each([
    [0, 110.574, 111.32],
    [15, 110.649, 107.55],
    [30, 110.852, 96.486],
    [45, 111.132, 78.847],
    [60, 111.412, 55.8],
    [75, 111.618, 28.902],
  ])('is that of the table at %d degrees', (latitude, meridian, parallel) => {
    expect(along(latitude) / 1000).toBeCloseTo(meridian, 3);
    expect(across(latitude) / 1000).toBeCloseTo(parallel, 2);
  });

  it('goes east and north, across the date line too', () => {
    const [east, north] = metresBetween(10, 179.9995, 10.001, -179.9995);
    expect(east).toBeCloseTo(across(10) / 1000, 1);
    expect(north).toBeGreaterThan(0);
    expect(metresBetween(10, 179.9995, 10, 179.9985)[0]).toBeLessThan(0);
  });
});
