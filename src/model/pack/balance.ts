/**
 * What a current does to a pack: the rates of its charge, its polarisation and its temperature, and what is lost. It stands here once,
 * whoever drives or charges the pack. Numbers come and go in fields: one that a call returns is boxed where it is not inlined.
 */
import type { PackFigures, PackNow } from './state.ts';

/**
 * At `now.current`, right after `packAt`. Of what is charged a share never comes out again (coulombic losses) and is heat. The
 * capacities of the RC pairs stay what they are when the cells get warm or cold; their resistances follow the temperature as the
 * ohmic one does.
 */
export function packBalance(pack: PackFigures, now: PackNow): void {
  const { current, open, warmth } = now;
  const kept = current < 0 ? pack.coulombic * current : current;
  now.chargeRate = -kept * pack.perCapacity;
  now.chemical = open * kept;
  // What does not wait for the current comes first.
  let leaks = 0;
  if (pack.pairs > 0) {
    const through = (now.pair1 * pack.siemens1) / warmth;
    now.pairRate1 = (current - through) * pack.perFarad1;
    leaks = now.pair1 * through;
  } else now.pairRate1 = 0;
  if (pack.pairs > 1) {
    const through = (now.pair2 * pack.siemens2) / warmth;
    now.pairRate2 = (current - through) * pack.perFarad2;
    leaks += now.pair2 * through;
  } else now.pairRate2 = 0;
  const shed = leaks - pack.cooling * (now.temperature - now.air);
  const lost = now.resistance * (current * current) + open * (kept - current);
  now.lost = lost + leaks;
  now.warming = (lost + shed) * pack.perHeat;
  if (pack.pulses) {
    const out = current > 0 ? current : 0;
    const back = current < 0 ? current : 0;
    now.spending = out * out * pack.perBudget - pack.recovery;
    now.chargeSpending = back * back * pack.perChargeBudget - pack.chargeRecovery;
  }
}

/** Budgets after so many seconds without a current, from a share that is spent. */
export function recovered(pack: PackFigures, spent: number, spentCharge: number, seconds: number): [number, number] {
  if (!pack.pulses) return [0, 0];
  return [Math.max(0, spent - seconds * pack.recovery), Math.max(0, spentCharge - seconds * pack.chargeRecovery)];
}

/** The same as `packBalance` at a power in W at the terminals: finds `now.current` first. */
export function balanceAtPower(pack: PackFigures, now: PackNow, power: number): void {
  const { emf } = now;
  const root = emf * emf - now.resistance * (4 * power);
  // (E - R I) I = P: the smaller root, and where there is none the current at the most power.
  now.current = (2 * power) / (emf + Math.sqrt(root > 0 ? root : 0));
  packBalance(pack, now);
}
