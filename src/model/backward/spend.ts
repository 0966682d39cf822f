/** What is spent of the budgets of current of a pack that is driven. */
import type { PackNow } from '../pack/state.ts';

/**
 * Adds to what is spent of the budgets. A whole budget gets no fuller: over the step the current was on one side of the continuous
 * one, as steps are cut there.
 */
export function spend(now: PackNow, spent: number, spentCharge: number): void {
  now.spent = spentAfter(now.spent, spent);
  now.spentCharge = spentAfter(now.spentCharge, spentCharge);
}

/** Of a budget: held at the continuous current it stays spent, to round-off. */
const ROUND_OFF = 1e-7;

function spentAfter(before: number, change: number): number {
  return before === 1 && change > -ROUND_OFF ? 1 : Math.max(0, before + change);
}
