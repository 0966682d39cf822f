/** What a pack gives and takes at most, as warm and as full as it is: once, for the car driven by its pedal, for the one that follows a schedule, and for the charger. */
import { lowestVoltage, type PackFigures, type PackNow, powerAtCurrent } from './state.ts';

/**
 * Share of its currents that a warm pack gives and takes: a line through 1 where derating begins, that goes on above 1 and below 0;
 * Infinity where the heat is not modelled. @param temperature K.
 */
export function warmShare(pack: PackFigures, temperature: number): number {
  return pack.derateRange === Infinity ? Infinity : 1 - (temperature - pack.derateAt) / pack.derateRange;
}

/** The same of the charge current of a cold pack. */
export function coldShare(pack: PackFigures, temperature: number): number {
  return (temperature - pack.coldNone) / (pack.coldFull - pack.coldNone);
}

/** Share of its discharge limit that a cold pack gives; goes on above 1. @param temperature K. */
export function frostShare(pack: PackFigures, temperature: number): number {
  return pack.frostFull === -Infinity ? Infinity : (temperature - pack.frostNone) / (pack.frostFull - pack.frostNone);
}

/** The same of a nearly empty one. */
export function lowShare(pack: PackFigures, charge: number): number {
  return pack.lowCharge > 0 ? pack.lowShare + ((1 - pack.lowShare) * charge) / pack.lowCharge : Infinity;
}

/** What the limits of a pack are by its budgets: `now.most`. */
export function budgetAt(pack: PackFigures, now: PackNow): void {
  now.most = pack.pulses && now.spent >= 1 ? Math.min(pack.continuous, pack.maxCurrent) : pack.maxCurrent;
}

/** A that the pack gives at most: by its budget, its temperature and its charge. After `budgetAt`. */
export function dischargeCurrent(pack: PackFigures, now: PackNow): number {
  // What holds a pack back is far away nearly always, and its shares cost more than the currents themselves.
  if (isTemperate(pack, now, pack.frostFull) && now.charge >= pack.lowCharge) return now.most;
  return Math.max(0, Math.min(now.most, pack.maxCurrent * shareGiven(pack, now)));
}

/** Share of its currents that cold, heat and a low charge leave a pack; goes on above 1. */
function shareGiven(pack: PackFigures, { temperature, charge }: PackNow): number {
  const cold = Math.min(frostShare(pack, temperature), lowShare(pack, charge));
  return Math.min(cold, warmShare(pack, temperature));
}

/** Whether neither cold nor heat holds the pack back. @param from K from which on the cold does not. */
function isTemperate(pack: PackFigures, { temperature }: PackNow, from: number): boolean {
  return temperature >= from && (temperature <= pack.derateAt || pack.derateRange === Infinity);
}

/** W at the terminals at the lowest voltage. */
export function powerAtLowestVoltage(pack: PackFigures, now: PackNow): number {
  const lowest = lowestVoltage(pack, now);
  return now.resistance > 0 ? (lowest * (now.emf - lowest)) / now.resistance : Infinity;
}

/** W at the terminals that the pack gives at most: by its currents and by its lowest voltage, below which it is none. After `budgetAt`. */
export function dischargePower(pack: PackFigures, now: PackNow): number {
  const byCurrent = powerAtCurrent(now, dischargeCurrent(pack, now));
  const byVoltage = powerAtLowestVoltage(pack, now);
  const least = byCurrent < byVoltage ? byCurrent : byVoltage;
  return least > 0 ? least : 0;
}

/** A that a pack gives at most as warm as it is, above `maxCurrent` where that is less than it could. @param temperature K. */
export function warmCurrent(pack: PackFigures, temperature: number): number {
  return pack.maxCurrent * Math.max(0, warmShare(pack, temperature));
}

/**
 * Share of the greatest charge current that a pack takes at a temperature in K, 0 to 1: nothing below `coldNone`, all from
 * `coldFull` on, and falling again over its derating range.
 */
export function shareCharged(pack: PackFigures, temperature: number): number {
  return Math.min(1, Math.max(0, Math.min(coldShare(pack, temperature), warmShare(pack, temperature))));
}

/** A that charge the pack up to its highest voltage; negative above it. Without a resistance nothing holds them until it is there. */
export function chargeToVoltage(pack: PackFigures, now: PackNow): number {
  const left = pack.maxVoltage - now.emf;
  return now.resistance > 0 ? left / now.resistance : left >= 0 ? Infinity : 0;
}

/** A that the pack takes at most, positive: by its temperature, its highest voltage, and nothing when it is full. After `packAt`. */
export function chargeCurrent(pack: PackFigures, now: PackNow): number {
  if (now.charge >= 1) return 0;
  let most = pack.maxChargeCurrent;
  if (!isTemperate(pack, now, pack.coldFull)) most *= shareCharged(pack, now.temperature);
  if (pack.pulses && now.spentCharge >= 1 && pack.continuousCharge < most) most = pack.continuousCharge;
  const left = chargeToVoltage(pack, now);
  if (left < most) most = left;
  return most > 0 ? most : 0;
}

/** W at the terminals that the pack takes at most, positive. After `packAt`. */
export function chargePower(pack: PackFigures, now: PackNow): number {
  const current = chargeCurrent(pack, now);
  return current * (now.emf + now.resistance * current);
}
