/** A live axle with an open differential against the closed form of Gillespie, *Fundamentals of Vehicle Dynamics*, ch. 2 (from memory). */
import { describe, expect, it } from 'vitest';
import type { AxleName, Car } from '../../../src/model/car.ts';
import { completeCar } from '../../../src/model/complete.ts';
import { plantParameters } from '../../../src/model/forward/load.ts';
import { plantFor } from '../../../src/model/forward/plant.ts';
import { shippedPart } from '../../../src/model/parts/shipped.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import { steepestStart } from '../../../src/runs/sheet/hill.ts';
import { idealCar, testDay } from '../../cars.ts';
import { demanded } from '../demanded.ts';

const g = 9.80665;
const L = 2.4;
const h = 0.55;
const track = 1.3;
const share = 0.62;
const ratio = 4.1;
const mass = 1050;
const r = 1;

function car(axle: AxleName, mu: number, live: boolean): Car {
  const ideal = idealCar({
    mass,
    force: 1e5,
    power: 1e9,
    axle,
    friction: mu,
    wheelbase: L,
    cgHeight: h,
    frontShare: 0.5,
  });
  const body = { ...ideal.body, track, frontRollShare: share };
  return { ...ideal, body, drives: ideal.drives.map(each => ({ ...each, ...(live && { liveAxle: { ratio } }) })) };
}

/** N: mu W / (1 -+ mu h / L + 2 mu r K' / (Nf t K)), K' of the other axle. */
function most(axle: AxleName, mu: number): number {
  const [sign, other] = axle === 'rear' ? [-1, share] : [1, 1 - share];
  return (mu * 0.5 * mass * g) / (1 + (sign * mu * h) / L + (2 * mu * r * other) / (ratio * track));
}

function accelerationOf(built: Car): number {
  const plant = plantFor(plantParameters(built, testDay));
  const y = plant.initial(1);
  plant.rates(plant.modeAt(y), y, new Float64Array(plant.states + plant.quadratures));
  return plant.now.acceleration;
}

describe.each(['front', 'rear'] as const)('a driven %s axle', axle => {
  it.each([0.2, 0.5, 0.9])('pulls on friction %f what the closed form says', mu => {
    expect(mass * accelerationOf(car(axle, mu, true))).toBeCloseTo(most(axle, mu), 6);
    expect(accelerationOf(car(axle, mu, true))).toBeLessThan(accelerationOf(car(axle, mu, false)));
  });

  it('leaves the model that goes backwards the same grip', () => {
    const built = car(axle, 0.7, true);
    const a = accelerationOf(built);
    const [asked] = demanded(built, testDay, 1, a, Infinity, 0).axles;
    expect(asked?.grip).toBeCloseTo(most(axle, 0.7), 6);
  });
});

it('costs a hill start what it costs a launch', () => {
  const slope = (live: boolean): number => steepestStart(car('rear', 0.2, live), testDay).grip.slope ?? Number.NaN;
  // mu N = m g sin, N = m g (cos / 2 + sin h / L), friction less by the lighter wheel.
  const mu = 0.2 / (1 + (2 * 0.2 * r * share) / (ratio * track));
  expect(slope(true)).toBeCloseTo((0.5 * mu) / (1 - (mu * h) / L), 9);
  expect(slope(false)).toBeCloseTo(0.1 / (1 - (0.2 * h) / L), 9);
});

it('takes a twentieth of the grip of a usual old car, and a locking differential gives it back', () => {
  const built = (drive: object): Car =>
    completeCar({
      mass: 1000,
      tyres: { size: '165/80 R 13' },
      drive: {
        axle: 'rear',
        ratio: 3.9,
        gearbox: { gears: [2.2, 1.4], shift: 'none', gear: 1 },
        unit: { peakTorque: 250, peakPower: 110_000 },
        ...drive,
      },
      pack: { cell: shippedPart('cell', 'cell_nmc_60ah')?.values ?? {}, series: 96, parallel: 2 },
    }).car;
  const time = (of: Car): number =>
    launchOnce(of, { surroundings: testDay, stop: '100_km_h' }).marks.get('100_km_h')?.time ?? Number.NaN;
  const [live, locking, independent] = [
    { suspension: 'live' },
    { suspension: 'live', differential: 'locking' },
    {},
  ].map(drive => time(built(drive))) as [number, number, number];
  expect(locking).toBe(independent);
  expect(live - independent).toBeGreaterThan(0.1);
  expect(live - independent).toBeLessThan(0.5);
});
