import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { createChunkSize } from '../../src/batch/chunk-size.ts';

it('orders at least one row, never more than are left, nor more than a megabyte', () => {
  const step = fc.record({
    seconds: fc.double({ min: 0, max: 100, noNaN: true }),
    left: fc.integer({ min: 1, max: 10_000_000 }),
    workers: fc.integer({ min: 1, max: 200 }),
  });
  fc.assert(
    fc.property(fc.array(step, { minLength: 1 }), fc.integer({ min: 20, max: 5_000_000 }), (steps, rowBytes) => {
      const chunk = createChunkSize(rowBytes);
      for (const { seconds, left, workers } of steps) {
        const rows = chunk.next(left, workers, 0.1);
        expect(Number.isInteger(rows)).toBe(true);
        expect(rows).toBeGreaterThanOrEqual(1);
        expect(rows).toBeLessThanOrEqual(left);
        expect((rows - 1) * rowBytes).toBeLessThanOrEqual(1 << 20);
        chunk.learn(rows, seconds);
      }
    }),
  );
});

it('comes to batches of a tenth of a second', () => {
  const chunk = createChunkSize(36);
  // The first rows are slow: nothing is compiled yet.
  for (let k = 0; k < 12; k++) {
    const rows = chunk.next(10_000_000, 2, 0.1);
    chunk.learn(rows, rows * (k < 3 ? 5e-3 : 40e-6));
  }
  expect(chunk.next(10_000_000, 2, 0.1) * 40e-6).toBeCloseTo(0.1, 2);
});
