/** The figures of a car and its surroundings for following a schedule: beside those of the forward model, what braking needs. */
import { nth } from '../../columns.ts';
import type { AxleName, Car, Drive, Surroundings } from '../car.ts';
import type { AxleFigures } from '../forward/figures.ts';
import { plantParameters } from '../forward/load.ts';
import type { PlantParameters } from '../forward/load.ts';
import { BrakingFigures } from './state.ts';
import type { Following, Side } from './state.ts';

export interface FollowParameters extends PlantParameters {
  /** Of the drives; without one of no meaning. */
  readonly brakingFront: BrakingFigures;
  readonly brakingRear: BrakingFigures;
}

/**
 * A driver does not spin the wheels to keep to a schedule: without traction control the slip is kept at the peak of friction all
 * the same.
 */
export function followParameters(car: Car, surroundings: Surroundings): FollowParameters {
  const held = { ...car, drives: car.drives.map(withHeldTraction) };
  const parameters = plantParameters(held, surroundings);
  return {
    ...parameters,
    brakingFront: brakingOf(car, 'front', parameters.front),
    brakingRear: brakingOf(car, 'rear', parameters.rear),
  };
}

/** Takes the figures of a car, as its own: they change along a schedule. */
export function takeFigures(f: Following, parameters: FollowParameters): void {
  const { moving } = f;
  Object.assign(moving.car, parameters.car);
  Object.assign(moving.front, parameters.front);
  Object.assign(moving.rear, parameters.rear);
  moving.pack = parameters.pack;
  takeSide(f.front, moving.front, parameters.brakingFront);
  takeSide(f.rear, moving.rear, parameters.brakingRear);
}

function takeSide(side: Side, axle: AxleFigures, braking: BrakingFigures): void {
  side.axle = axle;
  side.braking = braking;
  side.at.anchorLoad = Number.NaN;
  side.at.gear = axle.gears[0] ?? side.at.gear;
}

function withHeldTraction(drive: Drive): Drive {
  return drive.traction.policy === 'spin' ? { ...drive, traction: { policy: 'held', share: 1 } } : drive;
}

function brakingOf(car: Car, name: AxleName, axle: AxleFigures): BrakingFigures {
  const figures = new BrakingFigures();
  const drive = car.drives.find(each => each.axle === name);
  if (drive === undefined) return figures;
  const { regeneration, unit } = drive;
  figures.torque = regeneration.torque;
  figures.power = regeneration.power;
  figures.fadeFrom = regeneration.fadeFrom;
  figures.fadeTo = regeneration.fadeTo;
  figures.gripShare = regeneration.gripShare;
  figures.share = regeneration.share;
  figures.standstill = unit.standstillLoss;
  figures.cornerSpeed = unit.peakPower / unit.peakTorque;
  const scale = axle.slipAtPeak / axle.stiffness;
  const series = slipSeries(1 / axle.shape).map(each => scale * each);
  SLIP_TERMS.forEach((term, i) => (figures[term] = series[i] ?? 0));
  return figures;
}

const SLIP_TERMS = [
  'slip1',
  'slip3',
  'slip5',
  'slip7',
  'slip9',
  'slip11',
  'slip13',
  'slip15',
  'slip17',
  'slip19',
] as const;

/** Terms of the series of slip. */
const TERMS = 10;

/** Coefficients of u, u^3 ... in tan u (Abramowitz and Stegun, 4.3.67). */
const TANGENT = [
  1,
  1 / 3,
  2 / 15,
  17 / 315,
  62 / 2835,
  1382 / 155_925,
  21_844 / 6_081_075,
  929_569 / 638_512_875,
  6_404_582 / 10_854_718_875,
  443_861_162 / 1_856_156_927_625,
];

/** Coefficients of x, x^3 ... in tan(c asin x). */
function slipSeries(c: number): number[] {
  const asin: number[] = [];
  let binomial = 1;
  for (let k = 0; k < TERMS; k++) {
    asin.push((c * binomial) / (2 * k + 1));
    binomial *= (2 * k + 1) / (2 * k + 2);
  }
  const square = product(asin, asin);
  const sum: number[] = Array.from({ length: TERMS }, () => 0);
  let power = asin;
  for (const [k, each] of TANGENT.entries()) {
    // u^(2k+1) begins with x^(2k+1).
    for (let i = 0; i + k < TERMS; i++) sum[i + k] = nth(sum, i + k) + each * nth(power, i);
    power = product(power, square);
  }
  return sum;
}

/** Product of two series in x^2, as long as the first one. */
function product(a: readonly number[], b: readonly number[]): number[] {
  return a.map((_, n) => {
    let sum = 0;
    for (let i = 0; i <= n; i++) sum += nth(a, i) * nth(b, n - i);
    return sum;
  });
}
