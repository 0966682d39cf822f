/** What the pack does while its power is prescribed, and what it takes when the car slows down. */
import { EFFORT, effort } from '../effort.ts';
import { balanceAtPower } from '../pack/balance.ts';
import { budgetAt, chargePower, dischargePower } from '../pack/limits.ts';
import { NO_STRETCH, packAt, PackNow } from '../pack/state.ts';
import type { PackFigures } from '../pack/state.ts';
import { spend } from './spend.ts';

/** The pack of a car that follows a schedule: what it is at an instant, and what it is asked for next. */
export class DrivenPack extends PackNow {
  /** J, integral of the losses inside. */
  heat = 0;
  /** W that the pack takes at most, positive, at the state. */
  limit = 0;
  /** W that it gives at most at the state. */
  gives = 0;
  /** s of the next step, and W at its two Gauss-Legendre points. */
  span = 0;
  first = 0;
  second = 0;
}

/** Takes over the state of another, with what is known at it. */
export function copyPack(from: DrivenPack, to: DrivenPack): void {
  to.charge = from.charge;
  to.pair1 = from.pair1;
  to.pair2 = from.pair2;
  to.temperature = from.temperature;
  to.open = from.open;
  to.emf = from.emf;
  to.resistance = from.resistance;
  to.warmth = from.warmth;
  to.warmAt = from.warmAt;
  to.anchor = from.anchor;
  to.factor = from.factor;
  to.stretch = from.stretch;
  to.air = from.air;
  to.spent = from.spent;
  to.spentCharge = from.spentCharge;
  to.most = from.most;
  to.heat = from.heat;
  to.limit = from.limit;
  to.gives = from.gives;
}

/** Another pack, or a state out of the blue: nothing of what was known holds. */
export function forgetStretch(now: DrivenPack): void {
  now.stretch = NO_STRETCH;
  now.anchor = Number.NaN;
  now.warmAt = Number.NaN;
}

const ROOT_3 = Math.sqrt(3);

/** Electromotive force, resistance, and what the pack takes and gives at most at the present state. */
export function drivenPackAt(pack: PackFigures, now: DrivenPack): void {
  packAt(pack, now);
  budgetAt(pack, now);
  takesAtMost(pack, now);
  givesAtMost(pack, now);
}

function takesAtMost(pack: PackFigures, now: DrivenPack): void {
  now.limit = chargePower(pack, now);
}

function givesAtMost(pack: PackFigures, now: DrivenPack): void {
  now.gives = dischargePower(pack, now);
}

/** The pack at a stage. */
const stage = new DrivenPack();

/** Of the time constant of an RC pair: a step that is longer is taken in parts, for what is off in it grows by the fourth power, and past 2.8 without end. */
const LONGEST_PART = 0.25;

/** Enough for any pair that a user may write, up to 60 degC; one that is quicker yet shows in the ledger. */
const MOST_PARTS = 2000;

/** How many parts a step of the pack is taken in. The time constants fall with the resistances as the cells get warm. */
function partsOf(pack: PackFigures, now: DrivenPack): number {
  const longest = LONGEST_PART * pack.quickest * now.warmth;
  return now.span <= longest ? 1 : Math.min(MOST_PARTS, Math.ceil(now.span / longest));
}

/**
 * One step of `now.span` seconds with a power at the terminals that goes linearly through `now.first` and `now.second`, W,
 * at the two Gauss-Legendre points: the classical Runge-Kutta method of order four, less what is known of its error. The straight line
 * through these points has the same integrals as the power itself to that order. Right after `drivenPackAt` at the same state. Where an
 * RC pair is quicker than the step it is taken in parts along that line.
 */
export function respond(pack: PackFigures, now: DrivenPack): void {
  const { span, first, second } = now;
  const parts = partsOf(pack, now);
  const charges = 0.5 * (first + second) < 0;
  if (parts === 1) {
    respondOnce(pack, now, charges);
    return;
  }
  const middle = 0.5 * (first + second);
  const slope = ROOT_3 * (second - first);
  now.span = span / parts;
  for (let part = 0; part < parts; part++) {
    if (part > 0) packAt(pack, now);
    const at = middle + slope * ((part + 0.5) / parts - 0.5);
    now.first = at + (first - middle) / parts;
    now.second = at + (second - middle) / parts;
    respondOnce(pack, now, charges);
  }
  now.span = span;
  now.first = first;
  now.second = second;
}

/**
 * Within the step the cells go on along the stretch of their table in which they begin, and their warmth by its series: of steps of some
 * seconds the charge is less than a hundredth, and where a stretch ends within one the next begins with the same value and slope.
 * @param charges the way the current goes.
 */
function respondOnce(pack: PackFigures, now: DrivenPack, charges: boolean): void {
  effort.spent += EFFORT.pack;
  const h = now.span;
  const middle = 0.5 * (now.first + now.second);
  const low = middle - 0.5 * ROOT_3 * (now.second - now.first);
  const slope = 2 * (middle - low);
  const { charge, pair1, pair2, temperature, warmth } = now;
  const { openFrom, open0, open1, open2, open3, ohmFrom, ohm0, ohm1, ohm2, ohm3 } = now.stretch;
  const { series, perCell, wiring } = pack;
  // Of exp(activation (1/T - 1/T0)): its series over the rise of the temperature.
  const per = 1 / temperature;
  const warm1 = -pack.activation * per * per;
  const warm2 = warm1 * (0.5 * warm1 - per);
  const warm3 = warm1 * (warm1 * (warm1 / 6 - per) + per * per);
  stage.air = now.air;
  stage.open = now.open;
  stage.emf = now.emf;
  stage.resistance = now.resistance;
  stage.warmth = warmth;
  stage.pair1 = pair1;
  stage.pair2 = pair2;
  stage.temperature = temperature;
  const loses = pack.coulombic < 1;
  let q = 0;
  let u = 0;
  let z = 0;
  let T = 0;
  let heat = 0;
  let spending = 0;
  let chargeSpending = 0;
  for (let i = 0; i < 4; i++) {
    const c = i === 0 ? 0 : i === 3 ? 1 : 0.5;
    if (i > 0) {
      const s = c * h;
      const held = charge + s * stage.chargeRate;
      const rise = s * stage.warming;
      // In pairs, that the processor works on side by side: each stage waits for the one before.
      const change = 1 + warm1 * rise + rise * rise * (warm2 + warm3 * rise);
      const d = held - openFrom;
      const e = held - ohmFrom;
      stage.pair1 = pair1 + s * stage.pairRate1;
      stage.pair2 = pair2 + s * stage.pairRate2;
      stage.temperature = temperature + rise;
      stage.open = series * (open0 + open1 * d + d * d * (open2 + open3 * d));
      stage.emf = stage.open - (stage.pair1 + stage.pair2);
      stage.warmth = warmth * change;
      stage.resistance = perCell * (ohm0 + ohm1 * e + e * e * (ohm2 + ohm3 * e)) * stage.warmth + wiring;
    }
    balanceAtPower(pack, stage, low + slope * c);
    if (loses && stage.current < 0 !== charges) keepDirection(pack, stage);
    const weight = i === 0 || i === 3 ? 1 : 2;
    q += weight * stage.chargeRate;
    u += weight * stage.pairRate1;
    z += weight * stage.pairRate2;
    T += weight * stage.warming;
    heat += weight * stage.lost;
    if (pack.pulses) {
      spending += weight * stage.spending;
      chargeSpending += weight * stage.chargeSpending;
    }
  }
  const sixth = h / 6;
  now.charge = charge + sixth * q;
  now.pair1 = pair1 + sixth * u;
  now.pair2 = pair2 + sixth * z;
  now.temperature = temperature + sixth * T;
  now.heat += sixth * heat;
  if (pack.pulses) spend(now, sixth * spending, sixth * chargeSpending);
  straighten(pack, now);
}

/**
 * The current goes one way all along a step, as steps are cut where it turns; the straight line of the powers may yet pass nothing at an end.
 * There a share of it gets lost as in all of the step, else the corner would be one of the step itself.
 */
function keepDirection(pack: PackFigures, now: DrivenPack): void {
  const { current, open } = now;
  const kept = current < 0 ? current : pack.coulombic * current;
  const more = open * kept - now.chemical;
  now.chargeRate = -kept * pack.perCapacity;
  now.chemical += more;
  now.lost += more;
  now.warming += more * pack.perHeat;
}

/**
 * What the fourth derivative of the current by the power makes of a quadrature of order four: of (E - R I) I = P along a straight line of
 * powers it is 15/16 E / 2R of the fourth power of that line over E^2 / 4R, over the 3.5th power of what is left to that greatest power.
 * Simpson's rule takes 1/2880 of it too much.
 */
const SIMPSON = -6144;

/** Of the greatest power, between the two points of a step: where the power changes by less it makes less than 1e-8 of the current. */
const STRAIGHT = 0.01;

/** Of the greatest power: closer to it the series of the current has no say any more. */
const LEAST_LEFT = 0.1;

/** Takes that away from a step that was driven so. */
function straighten(pack: PackFigures, now: DrivenPack): void {
  const { emf, resistance, first, second } = now;
  const square = emf * emf;
  if (4 * Math.abs(second - first) * resistance < STRAIGHT * square) return;
  const perSquare = 4 / square;
  const across = ROOT_3 * (second - first) * perSquare;
  const left = Math.max(LEAST_LEFT, 1 - 0.5 * (first + second) * resistance * perSquare);
  const share = across * across * resistance;
  const charge = (now.span * share * share * resistance * emf) / (SIMPSON * left * left * left * Math.sqrt(left));
  const heat = emf * charge;
  now.charge -= charge * pack.perCapacity;
  now.heat += heat;
  now.temperature += heat * pack.perHeat;
  if (pack.pairs > 0) now.pair1 += charge * pack.perFarad1;
  if (pack.pairs > 1) now.pair2 += charge * pack.perFarad2;
}

/** State of charge next to a full pack: where it is full a step is cut, up to there its limit goes on as it began. */
export const ALMOST_FULL = 1 - Number.EPSILON;

/** A pack that takes all that it may, at a stage. */
const filling = new DrivenPack();

/**
 * Charge, polarisation and temperature after `now.span` seconds in which the pack takes all that it may, and that limit then: the
 * classical Runge-Kutta method, of which every stage has a limit of its own, in parts as in `respond`. Budgets are left as they are.
 */
export function respondAtLimit(pack: PackFigures, now: DrivenPack): void {
  const { span } = now;
  const parts = partsOf(pack, now);
  now.span = span / parts;
  for (let part = 0; part < parts; part++) takeAllOnce(pack, now);
  now.span = span;
}

function takeAllOnce(pack: PackFigures, now: DrivenPack): void {
  effort.spent += EFFORT.pack;
  const h = now.span;
  const { charge, pair1, pair2, temperature } = now;
  const most = charge < 1 ? ALMOST_FULL : charge;
  copyPack(now, filling);
  let q = 0;
  let u = 0;
  let z = 0;
  let T = 0;
  for (let i = 0; i < 4; i++) {
    if (i > 0) {
      const s = i === 3 ? h : 0.5 * h;
      filling.charge = Math.min(most, charge + s * filling.chargeRate);
      filling.pair1 = pair1 + s * filling.pairRate1;
      filling.pair2 = pair2 + s * filling.pairRate2;
      filling.temperature = temperature + s * filling.warming;
      packAt(pack, filling);
      takesAtMost(pack, filling);
    }
    balanceAtPower(pack, filling, -filling.limit);
    const weight = i === 0 || i === 3 ? 1 : 2;
    q += weight * filling.chargeRate;
    u += weight * filling.pairRate1;
    z += weight * filling.pairRate2;
    T += weight * filling.warming;
  }
  const sixth = h / 6;
  now.charge = Math.min(most, charge + sixth * q);
  now.pair1 = pair1 + sixth * u;
  now.pair2 = pair2 + sixth * z;
  now.temperature = temperature + sixth * T;
  packAt(pack, now);
  takesAtMost(pack, now);
}

/**
 * Rates of charge, polarisation and temperature at the present state, at a power in W at the terminals; for methods other than
 * `respond`. Right after `packAt`.
 */
export function packRates(pack: PackFigures, now: DrivenPack, power: number, out: Float64Array): void {
  balanceAtPower(pack, now, power);
  out[0] = now.chargeRate;
  out[1] = now.pairRate1;
  out[2] = now.pairRate2;
  out[3] = now.warming;
}
