import { describe, expect, it } from 'vitest';
import { readWhyNot, writeWhyNot } from '../../../src/studies/question/why-not.ts';
import { countedReasons } from '../../../src/studies/statistics/unanswered.ts';

describe('reasons of samples without an answer', () => {
  it('are counted, the most frequent first; numbers that differ are told from least to greatest', () => {
    const reasons = ['tops out at 82.5 km/h', 'too cold', 'tops out at −3 km/h', 'tops out at 96 km/h'];
    expect(countedReasons(reasons)).toEqual([
      { reason: 'tops out at −3 to 96 km/h', samples: 3 },
      { reason: 'too cold', samples: 1 },
    ]);
  });

  it('leave numbers that belong to a word, and equal ones, as they are', () => {
    expect(countedReasons(['100 km/h, below C/20, of cell_60ah', '100 km/h, below C/20, of cell_60ah'])).toEqual([
      { reason: '100 km/h, below C/20, of cell_60ah', samples: 2 },
    ]);
  });
});

describe('the reasons that go with a row', () => {
  it('belong to each figure by itself', () => {
    const code = writeWhyNot(['too cold', '', 'too far', 'too cold']);
    expect([0, 1, 2, 3, 4].map(place => readWhyNot(code, place))).toEqual(['too cold', '', 'too far', 'too cold', '']);
    expect(writeWhyNot(['', ''])).toBe('');
  });

  it('fit into what a row carries', () => {
    const code = writeWhyNot(Array.from({ length: 40 }, (_, k) => `${'ü'.repeat(500)} ${k}`));
    expect(Buffer.byteLength(code)).toBeLessThanOrEqual(1024);
    expect(readWhyNot(code, 0)).toMatch(/^ü+$/u);
  });
});
