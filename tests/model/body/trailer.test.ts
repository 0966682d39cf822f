/** A trailer by statics: moments about the axles of the car, with the pull at the hitch. Closed forms of our own, as in any text on statics. */
import { describe, expect, it } from 'vitest';
import type { AxleName, Car, Trailer } from '../../../src/model/car.ts';
import { towed } from '../../../src/model/body/trailer.ts';
import { Following } from '../../../src/model/backward/state.ts';
import { followParameters, takeFigures } from '../../../src/model/backward/load.ts';
import { plantParameters } from '../../../src/model/forward/load.ts';
import { plantFor } from '../../../src/model/forward/plant.ts';
import { climb } from '../../../src/runs/schedule/slope.ts';
import { steepestStart } from '../../../src/runs/sheet/hill.ts';
import { idealCar, testDay } from '../../cars.ts';
import { demanded } from '../demanded.ts';

const g = 9.80665;
const mass = 1100;
const L = 2.4;
const h = 0.55;
const trailer: Trailer = { mass: 750, hitchLoad: 50, hitchHeight: 0.4, overhang: 0.9, dragArea: 0, rolling: 0.015 };
const rolling = 0.012;
/** Rolling resistance at the 20 degC of the day, ISO 28580: coefficients are those at 25 degC. */
const warm = 1 / (1 - 0.008 * 5);

function car(axle: AxleName, friction: number, frontShare: number, towing = true): Car {
  const ideal = { mass, force: 1e5, power: 1e9, axle, friction, frontShare, wheelbase: L, cgHeight: h, rolling };
  return { ...idealCar(ideal), ...(towing && { trailer }) };
}

/** Steepest start: mu N = train weight sin + rolling of the undriven axle and of the trailer, N with all that leans on it. */
function slopeOf(axle: AxleName, mu: number, frontShare: number, towing = true): number {
  const { mass: mt, hitchLoad, hitchHeight, overhang, rolling: ct } = trailer;
  const tow = towing ? 1 : 0;
  const lifted = (tow * hitchLoad * overhang) / L;
  const level = axle === 'rear' ? mass * (1 - frontShare) + tow * hitchLoad + lifted : mass * frontShare - lifted;
  const other = mass + tow * hitchLoad - level;
  const lever = (mass * h + tow * mt * hitchHeight) / L;
  const towRoll = tow * ct * warm * (mt - hitchLoad);
  const c = rolling * warm;
  // Per g: (sign) the slope loads the rear axle by lever sin; the trailer's rolling pulls at the hitch too.
  const sign = axle === 'rear' ? 1 : -1;
  const lean = (sign * towRoll * hitchHeight) / L;
  const cos = mu * (level + lean) - c * (other - lean) - towRoll;
  const sin = mass + tow * mt - sign * lever * (mu + c);
  return cos / sin;
}

describe('a start on a slope', () => {
  it.each<[AxleName, number, number, number]>([
    ['rear', 0.2, 0.5, 0.06],
    ['front', 0.55, 0.58, 0.16],
  ])('%s drive on a friction of %f', (axle, mu, share, about) => {
    const { slope } = steepestStart(car(axle, mu, share), testDay).grip;
    expect(slope).toBeCloseTo(slopeOf(axle, mu, share), 9);
    expect(Math.abs((slope ?? 0) - about)).toBeLessThan(0.01);
    const alone = steepestStart(car(axle, mu, share, false), testDay).grip.slope ?? 0;
    expect(alone).toBeCloseTo(slopeOf(axle, mu, share, false), 9);
    expect(alone).toBeGreaterThan(1.3 * (slope ?? 0));
  });
});

it('loads the axles as a beam does', () => {
  const { front, rear, own } = towed(trailer, car('rear', 1, 0.5).body);
  expect(front + rear + own).toBeCloseTo(trailer.mass, 12);
  expect(rear * L).toBeCloseTo(trailer.hitchLoad * (L + trailer.overhang), 9);
});

it('is pulled by what it weighs, drags and rolls with, in both models', () => {
  const towing: Car = { ...car('rear', 1e6, 0.5), trailer: { ...trailer, dragArea: 1.5 } };
  const plant = plantFor(plantParameters(towing, { ...testDay, slope: 0.05 }, 0.05));
  const y = plant.initial(20);
  plant.rates(plant.modeAt(y), y, new Float64Array(plant.states + plant.quadratures));
  const a = plant.now.acceleration;
  const angle = Math.atan(0.05);
  const air = 0.5 * 1.199 * 1.5 * 400;
  const roll = trailer.rolling * warm * (trailer.mass - trailer.hitchLoad) * g * Math.cos(angle);
  const pull = trailer.mass * (a + g * Math.sin(angle)) + air + roll;
  const { hitchLoad, hitchHeight, overhang } = trailer;
  const rear =
    mass * g * Math.cos(angle) * 0.5 +
    hitchLoad * g * Math.cos(angle) * (1 + overhang / L) +
    (mass * (a + g * Math.sin(angle)) * h + pull * hitchHeight) / L;
  expect(plant.atRear.load / rear).toBeCloseTo(1, 4);
  const back = demanded(towing, { ...testDay, slope: 0.05 }, 20, a, Infinity, 0);
  expect(back.axles[0]?.load).toBeCloseTo(plant.atRear.load, 8);
  expect(back.power.power).toBeCloseTo(plant.now.busPower, 4);
});

it('leans on a slope of the schedule as on one of the day', () => {
  const towing = car('rear', 0.5, 0.5);
  const along = new Following();
  const parameters = followParameters(towing, { ...testDay, slope: 0.02 });
  takeFigures(along, parameters);
  const steep = Math.tan(Math.atan(0.02) + Math.atan(0.07));
  climb(along, parameters, 0.07);
  const { car: figures, front, rear } = plantParameters(towing, { ...testDay, slope: steep });
  expect(along.moving.car.gradeForce).toBeCloseTo(figures.gradeForce, 8);
  expect(along.moving.car.towedRoll).toBeCloseTo(figures.towedRoll, 8);
  expect(along.front.axle.staticLoad).toBeCloseTo(front.staticLoad, 8);
  expect(along.rear.axle.staticLoad).toBeCloseTo(rear.staticLoad, 8);
});

it('hubs and brakes that rub take their force times the way, at driven and at undriven wheels', () => {
  const [without, with40] = [0, 40].map(hubDrag => {
    const plain = car('rear', 1e6, 0.5, false);
    return demanded({ ...plain, body: { ...plain.body, hubDrag } }, testDay, 25, 0);
  });
  expect((with40?.power.power ?? 0) - (without?.power.power ?? 0)).toBeCloseTo(40 * 25, 6);
  expect((with40?.power.rolling ?? 0) - (without?.power.rolling ?? 0)).toBeCloseTo(40 * 25, 6);
});
