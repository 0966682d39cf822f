/**
 * The pack at a state of charge and a temperature: electromotive force and resistance (what it gives and takes at most: `limits.ts`). It stands
 * here once, for the car driven by its pedal, for the car that follows a schedule, and for the charger. Currents are positive
 * on discharge, but for those that are named a charge.
 */
import * as elementary from '../../elementary.ts';
import type { Pack } from '../car.ts';
import type { Curve } from '../tables/curve.ts';
import type { CellCurves, CellStretch, CellTable } from './cell-table.ts';
import { cellAt, curvesOf, NO_STRETCH } from './cell-table.ts';

export { NO_STRETCH };

/** K at which the resistance of the cells is stated. */
export const CELL_TEMPERATURE = 298.15;

/** At most this many RC pairs. */
const MAX_PAIRS = 2;

/** Past this change of activation over temperature the exponential is taken anew; its series is below 1e-15 off there. */
const ANCHOR_RANGE = 2e-3;

/** What does not change while a pack is used. Without a model of its heat it has no end of heat capacity, and is never derated. */
export class PackFigures {
  /** C of the whole pack, aged, and 1/C. */
  capacity = Number.NaN;
  perCapacity = Number.NaN;
  /** Cells in series. */
  series = Number.NaN;
  /** Pack ohm per cell ohm. */
  perCell = Number.NaN;
  /** ohm. */
  wiring = Number.NaN;
  /** K, activation energy of the resistance over the gas constant. */
  activation = Number.NaN;
  /** A. */
  maxCurrent = Number.NaN;
  /** A that last for ever, out and in; and 1/(A^2 s) of what is above them. Without `pulses` everything lasts. */
  pulses = false;
  continuous = Number.NaN;
  continuousCharge = Number.NaN;
  /** s that the currents above them last. */
  pulseTime = Number.NaN;
  perBudget = Number.NaN;
  perChargeBudget = Number.NaN;
  /** 1/s by which they recover without a current. */
  recovery = 0;
  chargeRecovery = 0;
  /** V. */
  minVoltage = Number.NaN;
  maxVoltage = Number.NaN;
  /** A, positive. */
  maxChargeCurrent = Number.NaN;
  /** K: discharged with nothing below the first, with all from the second on; -Infinity where the cold does not matter. */
  frostNone = Number.NaN;
  frostFull = Number.NaN;
  /** State of charge from which on it gives all, and the share at none; 0 where it does not matter. */
  lowCharge = Number.NaN;
  lowShare = Number.NaN;
  /** K: nothing may be charged below the first, all from the second on. */
  coldNone = Number.NaN;
  coldFull = Number.NaN;
  /** K from which the currents fall, and over which they fall to nothing. */
  derateAt = Number.NaN;
  derateRange = Number.NaN;
  /** J/K and W/K. */
  heatCapacity = Number.NaN;
  cooling = Number.NaN;
  /** K/J. */
  perHeat = Number.NaN;
  /** Charge that comes out again over charge that went in. */
  coulombic = Number.NaN;
  /** Number of RC pairs, and of each ohm at `CELL_TEMPERATURE` and F; 1/ohm and 1/F. */
  pairs = 0;
  ohm1 = Number.NaN;
  farad1 = Number.NaN;
  ohm2 = Number.NaN;
  farad2 = Number.NaN;
  /** s, the least of their time constants at `CELL_TEMPERATURE`; Infinity without one. */
  quickest = Number.NaN;
  siemens1 = Number.NaN;
  perFarad1 = Number.NaN;
  siemens2 = Number.NaN;
  perFarad2 = Number.NaN;
  /** V of one cell over state of charge. */
  readonly ocv: Curve;
  /** ohm of one cell over state of charge. */
  readonly ohm: Curve;
  /** Both of them. */
  readonly cell: CellTable;

  constructor({ ocv, ohm, cell }: CellCurves) {
    this.ocv = ocv;
    this.ohm = ohm;
    this.cell = cell;
  }
}

/** A pack at an instant: the state that is given, and what `packAt` finds there. */
export class PackNow {
  /** 0 to 1. */
  charge = Number.NaN;
  /** V of the RC pairs, positive after a discharge. */
  pair1 = 0;
  pair2 = 0;
  /** K. */
  temperature = Number.NaN;
  /** Shares of the budgets of current that are spent, out and in, 0 to 1. */
  spent = 0;
  spentCharge = 0;
  /** A that it gives at most as far as its budget goes. */
  most = Number.NaN;
  /** V, open circuit. */
  open = Number.NaN;
  /** V, open circuit less polarisation. */
  emf = Number.NaN;
  /** ohm. */
  resistance = Number.NaN;
  /** Resistance of the cells over that at `CELL_TEMPERATURE`. */
  warmth = Number.NaN;
  /** K that `warmth` is at. */
  warmAt = Number.NaN;
  /** K at which the exponential was last taken, and what it was. */
  anchor = Number.NaN;
  factor = Number.NaN;
  /** The stretch of the cell's table in use; V without load and ohm at `CELL_TEMPERATURE` of one cell. */
  stretch: CellStretch = NO_STRETCH;
  cellOpen = Number.NaN;
  cellOhm = Number.NaN;
  /** K of the air, and A. */
  air = Number.NaN;
  current = Number.NaN;
  /** What `packBalance` finds: 1/s, V/s, K/s, W lost inside and W at the open-circuit voltage. */
  spending = Number.NaN;
  chargeSpending = Number.NaN;
  chargeRate = Number.NaN;
  pairRate1 = 0;
  pairRate2 = 0;
  warming = Number.NaN;
  lost = Number.NaN;
  chemical = Number.NaN;
}

/** @throws RangeError when the pack has more RC pairs than are carried. */
export function packFigures(pack: Pack): PackFigures {
  const { cell, heat } = pack;
  const [first, second, third] = cell.pairs;
  if (third !== undefined) throw new RangeError(`at most ${MAX_PAIRS} RC pairs`);
  const figures = new PackFigures(curvesOf(cell));
  const perCell = (pack.series / pack.parallel) * pack.resistanceGrowth;
  figures.capacity = cell.capacity * pack.parallel * pack.health;
  figures.perCapacity = 1 / figures.capacity;
  figures.series = pack.series;
  figures.perCell = perCell;
  figures.wiring = pack.wiringResistance;
  figures.maxCurrent = pack.maxCurrent;
  figures.minVoltage = pack.minVoltage;
  figures.maxVoltage = pack.maxVoltage;
  figures.maxChargeCurrent = pack.maxChargeCurrent;
  const { pulses, weak } = pack;
  const out = pulseOver(pulses?.continuous, pack.maxCurrent);
  const back = pulseOver(pulses?.continuousCharge, pack.maxChargeCurrent);
  figures.pulses = out < Infinity || back < Infinity;
  figures.continuous = out;
  figures.continuousCharge = back;
  figures.pulseTime = pulses?.time ?? Infinity;
  figures.perBudget = budgetOf(pack.maxCurrent, figures.continuous, pulses?.time);
  figures.perChargeBudget = budgetOf(pack.maxChargeCurrent, figures.continuousCharge, pulses?.time);
  figures.recovery = out < Infinity ? out * out * figures.perBudget : 0;
  figures.chargeRecovery = back < Infinity ? back * back * figures.perChargeBudget : 0;
  figures.frostNone = weak?.cold.none ?? -Infinity;
  figures.frostFull = weak?.cold.full ?? -Infinity;
  figures.lowCharge = weak?.low.charge ?? 0;
  figures.lowShare = weak?.low.share ?? 1;
  figures.coldNone = pack.chargeCold.none;
  figures.coldFull = pack.chargeCold.full;
  figures.activation = heat?.resistanceActivation ?? 0;
  figures.derateAt = heat?.derateAt ?? CELL_TEMPERATURE;
  figures.derateRange = heat?.derateRange ?? Infinity;
  figures.heatCapacity = heat?.capacity ?? Infinity;
  figures.perHeat = 1 / figures.heatCapacity;
  figures.cooling = heat?.cooling ?? 0;
  figures.coulombic = cell.coulombicEfficiency;
  figures.pairs = cell.pairs.length;
  figures.ohm1 = (first?.resistance ?? 0) * perCell;
  figures.farad1 = (first?.timeConstant ?? 0) / figures.ohm1;
  figures.ohm2 = (second?.resistance ?? 0) * perCell;
  figures.farad2 = (second?.timeConstant ?? 0) / figures.ohm2;
  figures.quickest = Math.min(...cell.pairs.map(({ timeConstant }) => timeConstant));
  figures.siemens1 = 1 / figures.ohm1;
  figures.siemens2 = 1 / figures.ohm2;
  figures.perFarad1 = 1 / figures.farad1;
  figures.perFarad2 = 1 / figures.farad2;
  return figures;
}

/** Over the current for ever: a pulse that is less above it is none, and lasts. */
const LEAST_PULSE = 1e-3;

/** A that are given for ever, Infinity where the peak is. */
export function pulseOver(continuous = Infinity, peak: number): number {
  return peak > (1 + LEAST_PULSE) * continuous ? continuous : Infinity;
}

/** A^2 s: the heat of a pulse over what may be given for ever, (Ip^2 - Ic^2) tp. */
export function pulseBudget(continuous: number, pulse: { readonly current: number; readonly time: number }): number {
  return (pulse.current * pulse.current - continuous * continuous) * pulse.time;
}

/** 1/(A^2 s): by what a square of a current fills the budget; 0 where there is none. */
function budgetOf(peak: number, continuous: number, time = Infinity): number {
  return peak > continuous ? 1 / pulseBudget(continuous, { current: peak, time }) : 0;
}

/** Electromotive force and resistance at the charge, polarisation and temperature that stand in `now`. */
export function packAt(pack: PackFigures, now: PackNow): void {
  cellAt(pack.cell, now);
  now.open = pack.series * now.cellOpen;
  now.emf = now.open - now.pair1 - now.pair2;
  if (now.temperature !== now.warmAt) warm(pack, now);
  now.resistance = pack.perCell * now.cellOhm * now.warmth + pack.wiring;
}

/** `warmth` is exp(activation (1/T - 1/298.15 K)), carried from where it was last taken by its series. */
function warm({ activation }: PackFigures, now: PackNow): void {
  const { temperature } = now;
  now.warmAt = temperature;
  if (activation === 0) {
    now.warmth = 1;
    return;
  }
  const x = activation * (1 / temperature - 1 / now.anchor);
  if (Math.abs(x) < ANCHOR_RANGE) {
    const square = x * x;
    now.warmth = now.factor * (1 + x + square * (0.5 + x * (1 / 6) + square * (1 / 24)));
    return;
  }
  now.anchor = temperature;
  now.factor = elementary.exp(activation * (1 / temperature - 1 / CELL_TEMPERATURE));
  now.warmth = now.factor;
}

/** A for a power in W at the terminals, (E - R I) I = P: the smaller root, and where there is none the current at the most power. */
export function currentAtPower(emf: number, resistance: number, power: number): number {
  const root = emf * emf - 4 * resistance * power;
  return (2 * power) / (emf + Math.sqrt(root > 0 ? root : 0));
}

/** V at which the pack gives the most: its lowest voltage, or half its electromotive force where that is higher. */
export function lowestVoltage(pack: PackFigures, now: PackNow): number {
  return Math.max(pack.minVoltage, 0.5 * now.emf);
}

/**
 * W at the terminals at a current. Past half the electromotive force more current is less power, and the most that the pack gives
 * comes first: reflected there, so that a limit by current rises above the one by voltage.
 */
export function powerAtCurrent(now: PackNow, current: number): number {
  const { emf, resistance } = now;
  const voltage = emf - resistance * current;
  return voltage < 0.5 * emf ? (0.5 * emf * emf) / resistance - voltage * current : voltage * current;
}

/** J in the RC pairs: C V^2 / 2. */
export function polarisationEnergy(pack: PackFigures, pair1: number, pair2: number): number {
  const first = pack.pairs > 0 ? 0.5 * pack.farad1 * elementary.pow(pair1, 2) : 0;
  return pack.pairs > 1 ? first + 0.5 * pack.farad2 * elementary.pow(pair2, 2) : first;
}
