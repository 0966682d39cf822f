/** Where the shares of two driven axles change their law: at the corner of a motor, n = P / M of its ratings (base speed; any textbook of drives). */
import { describe, expect, it } from 'vitest';
import type { Following, Side } from '../../../src/model/backward/state.ts';
import { keepsShares } from '../../../src/model/backward/two-axles.ts';

/** An axle that passes its corner at a speed in m/s: wheels of 0.3 m, a ratio of 9. */
function side(corner: number, driven = true, torqueShare = 0): Side {
  const axle = { driven, torqueShare, radius: 0.3 };
  return { axle, at: { gear: { ratio: 9 } }, braking: { cornerSpeed: (corner / 0.3) * 9 } } as unknown as Side;
}

const keeps = (front: Side, rear: Side, from: number, to: number): boolean =>
  keepsShares({ front, rear } as unknown as Following, { v0: from, v1: to });

describe('the shares of two axles that share freely', () => {
  it('go by one law between two speeds on the same side of both corners, whichever of them is the faster one', () => {
    const [front, rear] = [side(12), side(20)];
    for (const [from, to, same] of [
      [5, 11, true],
      [13, 19, true],
      [21, 40, true],
      [11, 13, false],
      [13, 11, false],
      [19, 21, false],
      [11, 21, false],
    ] as const) {
      expect([from, to, keeps(front, rear, from, to)]).toEqual([from, to, same]);
    }
  });

  it('are always the same where one axle drives, or where they are fixed', () => {
    expect(keeps(side(12, false), side(20), 19, 21)).toBe(true);
    expect(keeps(side(12), side(20, false), 11, 13)).toBe(true);
    expect(keeps(side(12, true, 0.4), side(20), 11, 21)).toBe(true);
  });
});
