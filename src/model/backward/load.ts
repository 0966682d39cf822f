/** Packs a car and its surroundings for following a schedule: beside the plant's block, what braking and charging need. */
import type { Car, Drive, Surroundings } from '../car.ts';
import { FA, FA_SIZE, F, F_COUNT } from './state.ts';
import { A, AXLE_SIZE, P, blockOf } from './blocks.ts';
import { packPlant } from '../forward/load.ts';
import type { PlantParameters } from '../forward/load.ts';
import type { PackedLoss } from '../drive/efficiency-map.ts';
import type { Curve } from '../tables/curve.ts';

export interface FollowParameters extends PlantParameters {
  /** Laid out as `P`, `A` and `G` of `blocks.ts` say. */
  readonly block: Float64Array;
  /** V and ohm of one cell over state of charge. */
  readonly ocv: Curve;
  readonly resistance: Curve;
  /** N m over rad/s of front and rear drive unit, where it has a table. */
  readonly torque: readonly [Curve | null, Curve | null];
  /** W over rad/s and N m of front and rear drive unit, where it has a map. */
  readonly loss: readonly [PackedLoss | null, PackedLoss | null];
  /** Laid out as `F` and `FA` say. */
  readonly follow: Float64Array;
}

/**
 * A driver does not spin the wheels to keep to a schedule: without traction control the slip is kept at the peak of friction all
 * the same.
 */
export function packFollow(car: Car, surroundings: Surroundings): FollowParameters {
  const held = { ...car, drives: car.drives.map(withHeldTraction) };
  const parameters = packPlant(held, surroundings);
  const block = blockOf(parameters);
  const follow = new Float64Array(F_COUNT);
  const { pack } = car;
  follow[F.maxVoltage] = pack.maxVoltage;
  follow[F.maxCharge] = pack.maxChargeCurrent;
  follow[F.coldNone] = pack.chargeCold.none;
  follow[F.coldFull] = pack.chargeCold.full;
  pack.cell.pairs.forEach((pair, i) => {
    const ohm = block[P.pair0 + 2 * i]!;
    follow[F.pairRate + i] = 1 / pair.timeConstant;
    follow[F.pairOhm + i] = ohm;
    follow[F.pairSiemens + i] = 1 / ohm;
  });
  for (const drive of car.drives) packAxle(follow, block, drive);
  const tables = [parameters.front, parameters.rear].map(axle => (axle.tabled ? axle.torque : null));
  return {
    ...parameters,
    block,
    ocv: parameters.pack.ocv,
    resistance: parameters.pack.ohm,
    torque: [tables[0] ?? null, tables[1] ?? null],
    loss: [parameters.front.loss, parameters.rear.loss],
    follow,
  };
}

function withHeldTraction(drive: Drive): Drive {
  return drive.traction.policy === 'spin' ? { ...drive, traction: { policy: 'held', share: 1 } } : drive;
}

function packAxle(follow: Float64Array, block: Float64Array, drive: Drive): void {
  const axle = drive.axle === 'front' ? 0 : 1;
  const o = P.axle0 + axle * AXLE_SIZE;
  const g = F.axle0 + axle * FA_SIZE;
  const { regeneration, unit } = drive;
  follow[g + FA.torque] = regeneration.torque;
  follow[g + FA.power] = regeneration.power;
  follow[g + FA.fadeFrom] = regeneration.fadeFrom;
  follow[g + FA.fadeTo] = regeneration.fadeTo;
  follow[g + FA.gripShare] = regeneration.gripShare;
  follow[g + FA.share] = regeneration.share;
  follow[g + FA.standstill] = unit.standstillLoss;
  follow[g + FA.cornerSpeed] = unit.peakPower / unit.peakTorque;
  follow[g + FA.perRadius] = 1 / block[o + A.radius]!;
  followGear(follow, block, axle);
  const scale = block[o + A.slipAtPeak]! / block[o + A.stiffness]!;
  slipSeries(1 / block[o + A.shape]!).forEach((each, i) => (follow[g + FA.slip + i] = scale * each));
}

/** The figures of `FA` that go with the gear in the axle's own places of the plant's block. */
export function followGear(follow: Float64Array, block: Float64Array, axle: number): void {
  const o = P.axle0 + axle * AXLE_SIZE;
  const g = F.axle0 + axle * FA_SIZE;
  follow[g + FA.forward] = 1 / (block[o + A.efficiency]! * block[o + A.ratio]!);
  follow[g + FA.backward] = block[o + A.efficiency]! / block[o + A.ratio]!;
}

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
    for (let i = 0; i + k < TERMS; i++) sum[i + k] = sum[i + k]! + each * power[i]!;
    power = product(power, square);
  }
  return sum;
}

/** Product of two series in x^2, as long as the first one. */
function product(a: readonly number[], b: readonly number[]): number[] {
  return a.map((_, n) => {
    let sum = 0;
    for (let i = 0; i <= n; i++) sum += a[i]! * b[n - i]!;
    return sum;
  });
}
