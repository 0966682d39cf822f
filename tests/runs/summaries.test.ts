/** The types of summaries are those of what is answered. */
import { describe, expect, it } from 'vitest';
import { completeCar, completeSurroundings, launch, weighOutputs } from '../../src/index.ts';
import type { LaunchSummary, Result, WeighSummary } from '../../src/index.ts';
import { SUMMARIES } from '../docs/summary-types.ts';

const { car } = completeCar({
  mass: 1240,
  tyres: { size: '165/80 R 13' },
  drive: { axle: 'rear', unit: 'unit_100kw', ratio: 8.6 },
  pack: { cell: 'cell_nmc_60ah', series: 96, parallel: 2 },
});

describe('a summary', () => {
  const result = launch(car, completeSurroundings({}));

  it('has the figures that its type has, and passes where any result may stand', () => {
    const time: number | null = result.summary.time_to_100_km_h;
    expect(time).toBeGreaterThan(5);
    const any: Result = result;
    expect(Object.keys(any.summary)).toEqual(Object.keys(SUMMARIES.get('launch') ?? {}));
  });

  it('has no others, for the compiler', () => {
    // @ts-expect-error the mark is called time_to_100_km_h
    expect(result.summary.time_to_100_kmh).toBeUndefined();
    const wrong: keyof WeighSummary | keyof LaunchSummary = 'time';
    expect(Object.keys(weighOutputs)).not.toContain(wrong);
  });

  it('of a car that does not move off has them too', () => {
    const weak = { ...car, drives: car.drives.map(drive => ({ ...drive, ratio: 0.01 })) };
    expect(Object.keys(launch(weak, completeSurroundings({})).summary)).toEqual(Object.keys(result.summary));
  });
});
