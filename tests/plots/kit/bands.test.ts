import { describe, expect, it } from 'vitest';
import { cutBands, longest, shares } from '../../../src/plots/kit/bands.ts';
import type { Band } from '../../../src/runs/result.ts';

const bands: readonly Band[] = [
  { from: 0, to: 2, limiter: 'grip' },
  { from: 2, to: 3, limiter: 'motor torque' },
  { from: 3, to: 3, limiter: 'heat' },
  { from: 3, to: 4, limiter: 'grip' },
  { from: 4, to: 10, limiter: 'motor power' },
];

describe('bands', () => {
  it('are cut at the end of the span; empty ones go', () => {
    expect(cutBands(bands, 3.5)).toEqual([
      { from: 0, to: 2, limiter: 'grip' },
      { from: 2, to: 3, limiter: 'motor torque' },
      { from: 3, to: 3.5, limiter: 'grip' },
    ]);
  });

  it('become one with a neighbour of the same limiter', () => {
    const split: Band[] = [
      { from: 0, to: 1, limiter: 'grip' },
      { from: 1, to: 1, limiter: 'heat' },
      { from: 1, to: 2, limiter: 'grip' },
    ];
    expect(cutBands(split, 5)).toEqual([{ from: 0, to: 2, limiter: 'grip' }]);
  });

  it('add up per limiter, in the order of their first appearance', () => {
    const found = shares(bands, 5);
    expect(found.map(share => share.limiter)).toEqual(['grip', 'motor torque', 'motor power']);
    expect(found.map(share => share.time)).toEqual([3, 1, 1]);
    expect(found.reduce((sum, share) => sum + share.share, 0)).toBeCloseTo(1, 12);
  });

  it('name the one that held longest', () => {
    expect(longest(bands, 5)?.limiter).toBe('grip');
    expect(longest(bands, 10)?.limiter).toBe('motor power');
    expect(longest([], 10)).toBeNull();
  });
});
