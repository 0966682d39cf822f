/** Launches of a car that is known: what comes out of their logs, and what can not. */
import { describe, expect, it } from 'vitest';
import { item, nth } from '../../src/columns.ts';
import { launchFit } from '../../src/fit/launch/launch-fit.ts';
import type { LaunchFit, LaunchMeasurement, Nuisance } from '../../src/fit/launch/measurement.ts';
import type { LaunchParameter } from '../../src/fit/launch/parameters.ts';
import type { Car } from '../../src/model/car.ts';
import { LEVEL, launchCar, launchLog, normals } from './launch-logs.ts';

const TEN = { rate: 10, noise: 0.06, over: 0.1, to: 110 };
const truth = { power: 0.92, torque: 0.95, torque_rise: 0.3 };

function measured(
  car: Car,
  wanted: readonly LaunchParameter[],
  real: { readonly [key in LaunchParameter]?: number },
  { count = 1, seed = 3, drag = TEN, nuisances = [] as readonly Nuisance[] } = {},
): LaunchMeasurement {
  const normal = normals(seed);
  const logs = Array.from({ length: count }, () => launchLog(car, real, drag, normal));
  return { logs, car, surroundings: LEVEL, wanted, over: drag.over, nuisances };
}

function fitted(asked: LaunchMeasurement): LaunchFit {
  const found = launchFit(asked);
  if ('short' in found) throw new Error(found.short[0]?.what);
  return found;
}

const off = (found: LaunchFit, parameter: LaunchParameter, wanted: number): number => {
  const place = found.parameters.indexOf(parameter);
  return (nth(found.values, place) - wanted) / Math.sqrt(nth(item(found.covariance, place), place));
};

describe('logs of launches', () => {
  const car = launchCar();

  it.each([1, 5, 25])('give power, torque and build-up time at %d rows a second, with the time zero of each', rate => {
    const drag = { ...TEN, rate, over: Math.min(0.2, 1 / rate) };
    const wanted: readonly LaunchParameter[] = rate < 5 ? ['power', 'torque'] : ['power', 'torque', 'torque_rise'];
    const real = rate < 5 ? { power: 0.92, torque: 0.95 } : truth;
    const found = fitted(measured(car, wanted, real, { drag, count: 2 }));
    for (const each of found.parameters)
      expect(Math.abs(off(found, each, real[each as 'power'] ?? 1))).toBeLessThan(3.5);
    const zeros = found.launches.map(({ zero }) => zero);
    expect(Math.abs(nth(zeros, 0) - nth(zeros, 1))).toBeLessThan(0.4);
  });

  it('hold the truth in their interval about as often as they say', () => {
    const repeats = Number(process.env['AXLEWATT_REPEATS'] ?? 30);
    let [power, torque] = [0, 0];
    for (let seed = 1; seed <= repeats; seed++) {
      const found = fitted(measured(car, ['power', 'torque'], { power: 0.92, torque: 0.95 }, { seed: 100 + seed }));
      power += Math.abs(off(found, 'power', 0.92)) <= 1.96 ? 1 : 0;
      torque += Math.abs(off(found, 'torque', 0.95)) <= 1.96 ? 1 : 0;
    }
    if (repeats >= 1000) console.log(power / repeats, torque / repeats);
    const [least, most] = repeats >= 1000 ? [0.93, 0.97] : [0.95 - 3.7 * Math.sqrt((0.95 * 0.05) / repeats), 1];
    for (const share of [power / repeats, torque / repeats]) {
      expect(share).toBeGreaterThanOrEqual(least);
      expect(share).toBeLessThanOrEqual(most);
    }
  }, 3_600_000);

  it('never give power and mass at once', () => {
    const found = launchFit(measured(car, ['power', 'mass'], { power: 0.92 }));
    expect('short' in found ? found.short[0]?.what : '').toContain('speed over time gives power over mass, never both');
    expect('short' in found ? found.short[0]?.cure : '').toContain('the mass from the scales');
  });

  it('give grip where the tyres hold the car back, and leave torque as it was', () => {
    const strong = launchCar(120_000, 300);
    const found = fitted(measured(strong, ['power', 'grip', 'torque'], { power: 0.92, grip: 1.05 }));
    expect(found.parameters).toEqual(['power', 'grip']);
    expect(Math.abs(off(found, 'grip', 1.05))).toBeLessThan(3.5);
    expect(found.untold.join(' ')).toContain('only the speed of the driven wheels tells');
  });

  it('say that grip can not be told where it never held the car back', () => {
    const found = fitted(measured(car, ['power', 'grip'], { power: 0.92 }));
    expect(found.parameters).toEqual(['power']);
    expect(found.untold.join(' ')).toContain('the tyres never hold it back');
  });

  it('pass the uncertainty of the mass on to the power: as many per cent', () => {
    const heavier = (by: number): Nuisance['up'] => ({
      car: { ...car, body: { ...car.body, mass: car.body.mass + by } },
      surroundings: LEVEL,
    });
    const mass = car.body.mass + car.body.driver + car.body.load;
    const nuisances = [{ name: 'mass', input: null, up: heavier(0.02 * mass), down: heavier(-0.02 * mass) }];
    const asked = measured(car, ['power', 'torque'], { power: 0.92, torque: 0.95 }, { nuisances });
    const found = fitted(asked);
    const u = Math.sqrt(nth(item(found.covariance, 0), 0));
    // Rolling resistance goes with the mass as well, drag and what turns do not.
    expect(u / 0.92).toBeGreaterThan(0.014);
    expect(u / 0.92).toBeLessThan(0.022);
    expect(found.greatest?.name).toBe('mass');
  });
});
