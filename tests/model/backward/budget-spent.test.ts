/** What is spent of the budget of a current above the continuous one: it adds up, gets no fuller than whole, and comes back. */
import { describe, expect, it } from 'vitest';
import type { DrivenPack } from '../../../src/model/backward/pack-step.ts';
import { spend } from '../../../src/model/backward/spend.ts';

function after(before: number, change: number): readonly [number, number] {
  const now = { spent: before, spentCharge: before } as DrivenPack;
  spend(now, change, 2 * change);
  return [now.spent, now.spentCharge];
}

describe('a budget of current', () => {
  it('is spent and comes back by what flows', () => {
    expect(after(0.25, 0.125)).toEqual([0.375, 0.5]);
    expect(after(0.75, -0.125)).toEqual([0.625, 0.5]);
  });

  it('comes back from being spent altogether as well', () => {
    expect(after(1, -0.125)).toEqual([0.875, 0.75]);
  });

  it('stays spent at the very continuous current, whatever round-off says', () => {
    expect(after(1, -4e-8)).toEqual([1, 1]);
    expect(after(1, 0.5)).toEqual([1, 1]);
  });

  it('gets no fuller than whole', () => {
    expect(after(0.25, -0.5)).toEqual([0, 0]);
  });
});
