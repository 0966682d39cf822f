import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearest } from '../../src/notebook/nearest.ts';

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
});
