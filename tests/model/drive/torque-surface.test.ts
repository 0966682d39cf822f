import { describe, expect, it } from 'vitest';
import { evaluateGrid } from '../../../src/model/tables/grid.ts';
import { torqueSurface, torqueCover, torqueRowAt, type TorqueTable } from '../../../src/model/drive/torque-surface.ts';

const table: TorqueTable = {
  voltage: [250, 300, 350],
  speed: [0, 400, 800],
  torque: [200, 180, 80, 200, 200, 100, 200, 200, 120],
};

describe('a torque table of several voltages', () => {
  it('gives its points back, and torque that grows with voltage between them', () => {
    const grid = torqueSurface(table);
    const out = new Float64Array(3);
    table.voltage.forEach((V, k) =>
      table.speed.forEach((w, i) => {
        evaluateGrid(grid, w, V, out);
        expect(out[0]).toBeCloseTo(table.torque[3 * k + i]!, 12);
      }),
    );
    evaluateGrid(grid, 700, 310, out);
    expect(out[1]).toBeLessThan(0);
    expect(out[2]).toBeGreaterThan(0);
    expect(torqueSurface(table)).toBe(grid);
  });

  it('is a row over the speeds at one voltage', () => {
    const row = torqueRowAt(table, 325);
    expect(row[0]).toBeCloseTo(200, 12);
    expect(row[2]).toBeCloseTo(110, 12);
    const single = { voltage: [], speed: [0, 10], torque: [5, 4] };
    expect(torqueRowAt(single, 325)).toEqual([5, 4]);
    expect(() => torqueSurface(single)).toThrow(RangeError);
  });

  it('covers a pack, covers it nearly, or does not', () => {
    expect(torqueCover(table, 250, 350)).toEqual({ missing: '', notes: [] });
    expect(torqueCover({ ...table, voltage: [] }, 10, 900)).toEqual({ missing: '', notes: [] });
    const near = torqueCover(table, 240, 360);
    expect(near.missing).toBe('');
    expect(near.notes).toEqual([expect.stringContaining('is for 250 V to 350 V, but the pack has 240 V to 360 V')]);
    expect(torqueCover(table, 200, 350).missing).toMatch(/the pack has 200 V to 350 V$/);
    expect(torqueCover(table, 250, 400).missing).not.toBe('');
  });
});
