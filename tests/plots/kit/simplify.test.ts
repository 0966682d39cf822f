import { describe, expect, it } from 'vitest';
import { simplify } from '../../../src/plots/kit/simplify.ts';

describe('outline', () => {
  it('keeps the ends and the corners of straight pieces, nothing else', () => {
    const tent = Array.from({ length: 101 }, (_, x) => ({ x, y: x <= 30 ? x : 60 - x }));
    expect(simplify(tent).map(point => point.x)).toEqual([0, 30, 100]);
  });

  it('stays within a fifteen-hundredth of the height of a curve', () => {
    const curve = Array.from({ length: 1001 }, (_, i) => ({ x: i / 1000, y: Math.sin((i / 1000) * Math.PI) }));
    const kept = simplify(curve);
    expect(kept.length).toBeLessThan(100);
    for (const { x, y } of curve) {
      const after = kept.findIndex(point => point.x >= x);
      const [a, b] = [kept[Math.max(0, after - 1)], kept[after]];
      if (a === undefined || b === undefined) throw new Error('a point lies outside the line');
      const level = b.x === a.x ? b.y : a.y + ((x - a.x) / (b.x - a.x)) * (b.y - a.y);
      expect(Math.abs(level - y)).toBeLessThanOrEqual(1 / 1500 + 1e-12);
    }
  });

  it('manages a line of one point, a level line and a step', () => {
    expect(simplify([{ x: 1, y: 2 }])).toHaveLength(1);
    expect(simplify([0, 1, 2, 3].map(x => ({ x, y: 7 })))).toHaveLength(2);
    const step = [0, 1, 1, 2].map((x, i) => ({ x, y: i < 2 ? 0 : 1 }));
    expect(simplify(step)).toEqual(step);
  });
});
