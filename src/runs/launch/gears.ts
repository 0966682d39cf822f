/** A kept gearbox gear by gear: what the car does when it is left in one, against changing gears. */
import type { Car } from '../../model/car.ts';
import { steepestSlope } from '../sheet/hill.ts';
import { createLauncher } from './run.ts';
import type { LaunchOptions } from './run.ts';
import type { Column, Series } from '../result.ts';
import { topSpeedOf } from '../sheet/top-speed.ts';
import { inGear } from '../variant.ts';

/** What the last row of `gears` is called. */
export const SHIFTING = 'changing gears';

interface Row {
  readonly gear: string;
  readonly to50: number;
  readonly to100: number;
  readonly top: number;
  readonly limiter: string;
  readonly slope: number;
}

/** The series `gears` of a launch: one row for each gear, a last one for changing gears; nothing without a choice of gears. */
export function gearsSeries(car: Car, options: LaunchOptions): { readonly [name: string]: Series } {
  const count = Math.max(0, ...car.drives.map(drive => drive.gearbox?.gears.length ?? 0));
  if (count < 2) return {};
  const launcher = createLauncher();
  const row = (gear: string, variant: Car): Row => {
    const top = topSpeedOf(variant, options.surroundings);
    const { marks } = launcher(variant, { ...options, stop: '100_km_h' });
    const time = (mark: '50_km_h' | '100_km_h'): number => marks.get(mark)?.time ?? Number.NaN;
    return {
      gear,
      to50: time('50_km_h'),
      to100: time('100_km_h'),
      top: top?.speed ?? Number.NaN,
      limiter: top?.limiter ?? '',
      slope: steepestSlope(variant, options.surroundings).slope ?? Number.NaN,
    };
  };
  const rows = Array.from({ length: count }, (_, i) => row(String(i + 1), inGear(car, i)));
  rows.push(row(SHIFTING, car));
  const numbers = (label: string, unit: string, metric: string, imperial: string, of: (r: Row) => number): Column => ({
    label,
    unit,
    display: { metric, imperial },
    values: Float64Array.from(rows, of),
  });
  const words = (label: string, of: (r: Row) => string): Column => ({
    label,
    unit: '',
    display: { metric: '', imperial: '' },
    values: rows.map(of),
  });
  return {
    gears: {
      gear: words('gear', r => r.gear),
      time_to_50_km_h_s: numbers('to 50 km/h', 's', 's', 's', r => r.to50),
      time_to_100_km_h_s: numbers('to 100 km/h', 's', 's', 's', r => r.to100),
      top_speed_m_s: numbers('top speed', 'm/s', 'km/h', 'mph', r => r.top),
      top_speed_limiter: words('top speed set by', r => r.limiter),
      start_slope_1: numbers('steepest start', '1', '%', '%', r => r.slope),
    },
  };
}
