/** The figures of a car and its surroundings for following a schedule: beside those of the forward model, what braking needs. */
import { nth } from '../../columns.ts';
import type { AxleName, Car, Drive, Surroundings, Tyre, Warming } from '../car.ts';
import type { AxleFigures } from '../forward/figures.ts';
import { plantParameters } from '../forward/load.ts';
import type { PlantParameters } from '../forward/load.ts';
import { BrakingFigures } from './state.ts';
import type { Following, Side } from './state.ts';

export interface FollowParameters extends PlantParameters {
  /** Of the drives; without one of no meaning. */
  readonly brakingFront: BrakingFigures;
  readonly brakingRear: BrakingFigures;
  /** Of the tyres, where they roll harder while they are cold. */
  readonly warmingFront: Warming | null;
  readonly warmingRear: Warming | null;
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
    warmingFront: warmingOf(car.tyres.front),
    warmingRear: warmingOf(car.tyres.rear),
  };
}

function warmingOf({ warming }: Tyre): Warming | null {
  return warming === undefined || warming.rise === 0 ? null : warming;
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
  side.at.anchor.perLoad = Number.NaN;
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
  const series = slipSeries(1 / axle.shape);
  SLIP_TERMS.forEach((term, i) => (figures[term] = scale * nth(series, i)));
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

/**
 * Coefficients of x, x^3 ... in y = tan(c asin x): those of its equation (1 - x^2) y'' - x y' = 2 c^2 y (1 + y^2), one after the other.
 */
function slipSeries(c: number): Float64Array {
  const y = new Float64Array(TERMS);
  const square = new Float64Array(TERMS);
  y[0] = c;
  for (let k = 0; k + 1 < TERMS; k++) {
    // The coefficients of x^(2k+2) in y^2, and of x^(2k+1) in y^3.
    square[k] = product(y, y, k);
    const cube = k === 0 ? 0 : product(square, y, k - 1);
    const odd = 2 * k + 1;
    y[k + 1] = (odd * odd * nth(y, k) + 2 * c * c * (nth(y, k) + cube)) / ((odd + 2) * (odd + 1));
  }
  return y;
}

/** A coefficient of the product of two series. */
function product(a: Float64Array, b: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i <= n; i++) sum += nth(a, i) * nth(b, n - i);
  return sum;
}
