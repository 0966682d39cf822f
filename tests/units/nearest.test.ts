import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearest } from '../../src/units/nearest.ts';

const KEYS = ['mass', 'mass_front', 'drag_area', 'peak_power', 'peak_torque', 'kg', 'kW', 'g'];

describe('nearest', () => {
  it.each([
    ['mas', 'mass'],
    ['masss', 'mass'],
    ['msas', 'mass'], // two neighbours swapped count as one edit
    ['mess', 'mass'],
    ['MASS', 'mass'],
    ['peakPower', 'peak_power'],
    ['peek_powr', 'peak_power'],
    ['peak_torqeu', 'peak_torque'],
    ['KW', 'kW'],
    ['G', 'g'],
    ['kgs', 'kg'],
    ['k', ''], // too short for a guess
    ['gg', ''],
    ['moose', ''],
    ['volume', ''],
    ['', ''],
  ])('%j is meant as %j', (word, meant) => {
    expect(nearest(word, KEYS)).toBe(meant);
  });

  it('takes the nearer one, and the first of equals', () => {
    expect(nearest('seat', ['set', 'seats', 'sea'])).toBe('set');
    expect(nearest('abcdef', ['abcdxy', 'abcdex'])).toBe('abcdex');
    expect(nearest('word', [])).toBe('');
  });

  it('takes the one that goes on behind the word before one of another number', () => {
    expect(nearest('cell_nmc_60', ['cell_nmc_21700', 'cell_nmc_60ah', 'cell_lfp_100ah'])).toBe('cell_nmc_60ah');
    expect(nearest('unit_160kw', ['unit_100kw', 'unit_150kw'])).toBe('unit_150kw');
  });

  it('finds every candidate from itself, whatever its case', () => {
    fc.assert(
      fc.property(
        fc.stringMatching(/^[a-z_]{1,20}$/u),
        fc.array(fc.string({ minLength: 21, maxLength: 30 })),
        (word, others) => {
          expect(nearest(word.toUpperCase(), [...others, word])).toBe(word);
        },
      ),
      { seed: 5 },
    );
  });

  /** Restricted edit distance by the whole table (Damerau, Comm. ACM 7 (1964) 171; the recurrence of Wagner and Fischer). */
  function wholeTable(a: string, b: string): number {
    const table = Array.from({ length: a.length + 1 }, () => Array.from({ length: b.length + 1 }, () => 0));
    const at = (i: number, j: number): number => table[i]?.[j] ?? Infinity;
    for (const [i, row] of table.entries()) {
      for (let j = 0; j <= b.length; j++) {
        if (i === 0 || j === 0) row[j] = i + j;
        else {
          const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
          row[j] = Math.min(
            at(i - 1, j) + 1,
            at(i, j - 1) + 1,
            at(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1),
            swapped ? at(i - 2, j - 2) + 1 : Infinity,
          );
        }
      }
    }
    return at(a.length, b.length);
  }

  it('is near as the whole table of edits says', () => {
    const word = fc.stringMatching(/^[abc]{0,14}$/u);
    fc.assert(
      fc.property(word, word, (a, b) => {
        const allowed = a.length < 3 ? 0 : a.length < 6 ? 1 : a.length < 10 ? 2 : 3;
        expect(nearest(a, [b])).toBe(wholeTable(a, b) <= allowed ? b : '');
      }),
      { seed: 6, numRuns: 5000 },
    );
  });

  it('takes time in proportion to the length of the words', () => {
    const [short, long] = [50_000, 400_000].map(length => {
      const word = 'ab'.repeat(length / 2);
      const start = performance.now();
      expect(nearest(`${word}x`, [`${word}y`])).toBe(`${word}y`);
      return performance.now() - start;
    });
    // 8 times is in proportion, 64 times would be the square; this machine may be busy with something else meanwhile.
    expect((long ?? 0) / Math.max(1, short ?? 0)).toBeLessThan(40);
  });
});
