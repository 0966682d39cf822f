import { describe, expect, it } from 'vitest';
import {
  indexForLoad,
  LOAD_INDICES,
  loadOfIndex,
  SPEED_SYMBOLS,
  speedOfSymbol,
  symbolForSpeed,
} from '../../../src/model/tyre/load-index.ts';

describe('load index', () => {
  it.each([
    [78, 425],
    [82, 475],
    [86, 530],
    [91, 615],
    [94, 670],
  ])('%i carries %i kg (published load index table)', (index, load) => {
    expect(loadOfIndex(index)).toBe(load);
  });

  it('follows the law behind the table: 80 indices make a factor of ten, rounded to handy numbers', () => {
    for (let index = LOAD_INDICES.first; index <= LOAD_INDICES.last; index++) {
      const law = 45 * 10 ** (index / 80);
      expect(Math.abs((loadOfIndex(index) as number) / law - 1), `index ${index}`).toBeLessThan(0.02);
    }
  });

  it('climbs with every index', () => {
    for (let index = LOAD_INDICES.first; index < LOAD_INDICES.last; index++) {
      expect(loadOfIndex(index + 1) as number).toBeGreaterThan(loadOfIndex(index) as number);
    }
  });

  it.each([59, 127, 78.5, Number.NaN])('knows no index %d', index => {
    expect(loadOfIndex(index)).toBeNull();
  });
});

describe('speed symbol', () => {
  it.each([
    ['Q', 160],
    ['S', 180],
    ['T', 190],
    ['H', 210],
    ['V', 240],
    ['W', 270],
    ['Y', 300],
  ])('%s runs up to %i km/h (published table)', (symbol, speed) => {
    expect(speedOfSymbol(symbol)).toBeCloseTo(speed / 3.6, 12);
  });

  it('lists the symbols in order of speed', () => {
    const speeds = SPEED_SYMBOLS.map(symbol => speedOfSymbol(symbol) as number);
    expect(speeds).toEqual(speeds.toSorted((a, b) => a - b));
  });

  it('knows no others', () => {
    for (const symbol of ['I', 'O', 'X', 'z', '', 'toString']) expect(speedOfSymbol(symbol)).toBeNull();
  });
});

describe('what would do', () => {
  it('is the smallest index that carries the load', () => {
    for (let index = LOAD_INDICES.first; index <= LOAD_INDICES.last; index++) {
      const load = loadOfIndex(index) as number;
      expect(indexForLoad(load)).toBe(index);
      expect(indexForLoad(load + 0.1)).toBe(index === LOAD_INDICES.last ? null : index + 1);
    }
    expect(indexForLoad(1)).toBe(LOAD_INDICES.first);
  });

  it('is the slowest symbol that may run that fast', () => {
    for (const [i, symbol] of SPEED_SYMBOLS.entries()) {
      const speed = speedOfSymbol(symbol) as number;
      expect(symbolForSpeed(speed)).toBe(symbol);
      expect(symbolForSpeed(speed + 0.1)).toBe(SPEED_SYMBOLS[i + 1] ?? null);
    }
  });
});
