import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partFile, readShard, shardRows, wholeFile } from '../../src/batch/shard.ts';

describe('shards', () => {
  it('reads k/n and nothing else', () => {
    expect(readShard(' 2/8 ')).toEqual({ number: 2, count: 8 });
    for (const text of ['0/8', '9/8', '2', '2/', '-1/8', '2/8/9', '1.5/2', '1/0', '1/10000000']) {
      expect(() => readShard(text), text).toThrow(`"${text}" is no shard`);
    }
  });

  it('shares every row out once', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), fc.integer({ min: 1, max: 40 }), (rows, count) => {
        const dealt = Array.from({ length: count }, (_, k) =>
          Array.from({ length: shardRows(rows, { number: k + 1, count }) }, (_, place) => k + place * count),
        ).flat();
        expect(dealt.toSorted((a, b) => a - b)).toEqual(Array.from({ length: rows }, (_, row) => row));
      }),
    );
  });

  it('names part files so that the whole can be found', () => {
    expect(partFile('out/tour.spread.rows', { number: 2, count: 8 })).toBe('out/tour.spread.2-of-8.rows');
    expect(wholeFile('out/tour.spread.2-of-8.rows')).toBe('out/tour.spread.rows');
    expect(wholeFile('out/tour.spread.rows')).toBe('out/tour.spread.rows');
    expect(partFile('out/a.rows', { number: 1, count: 1 })).toBe('out/a.rows');
  });
});
