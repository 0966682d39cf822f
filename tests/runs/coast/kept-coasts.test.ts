/** Random cars off the pedal that once went wrong: each stands in `kept/` with what was. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Car, Surroundings } from '../../../src/model/car.ts';
import { coast } from '../../../src/runs/coast/coast.ts';
import { doubtsOf } from '../../../src/runs/doubts.ts';

interface Kept {
  readonly what: string;
  readonly car: Car;
  readonly surroundings: Surroundings;
  readonly lift: number | null;
  /** m/s. */
  readonly from: number;
}

const folder = new URL('kept/', import.meta.url);

/** JSON has no Infinity. */
const kept = (file: string): Kept =>
  JSON.parse(readFileSync(new URL(file, folder), 'utf8'), (_, value) => (value === 'Infinity' ? Infinity : value));

describe('a kept car', () => {
  it.each(readdirSync(folder))('%s coasts without a doubt', file => {
    const { what, car, surroundings, lift, from } = kept(file);
    const result = coast(car, { surroundings, from, to: 3, lift });
    expect(doubtsOf(result), what).toEqual([]);
    expect(Math.abs(result.ledger.gap), what).toBeLessThan(1e-8);
  });
});
