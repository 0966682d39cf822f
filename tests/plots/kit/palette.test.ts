import { describe, expect, it } from 'vitest';
import { LIMITERS } from '../../../src/model/forward/limiter.ts';
import { COLOUR, INK, INK_ON, LINES, PAPER, QUIET, SIGN } from '../../../src/plots/kit/palette.ts';
import { contrast, DEFICIENCIES, distance, lab, linear, seen } from '../colour-vision.ts';

const pairs = LIMITERS.flatMap((a, i) => LIMITERS.slice(i + 1).map(b => [a, b] as const));

describe('colour arithmetic of the checks', () => {
  it('knows the contrast of black on white (WCAG 2.1: 21 to 1)', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
  });

  it('knows the lightness of the sRGB mid grey #777777 (L* 50.03, CIE 15 by hand)', () => {
    expect(lab(linear('#777777'))[0]).toBeCloseTo(50.03, 1);
  });

  it.each(Object.entries(DEFICIENCIES))('%s leaves white white: rows add up to 1', (_, matrix) => {
    for (const row of matrix) expect(row[0] + row[1] + row[2]).toBeCloseTo(1, 5);
  });
});

describe('the colours of the limiters', () => {
  it.each(LIMITERS)('%s: writing on it has a contrast of 4.5 (WCAG 2.1, 1.4.3)', limiter => {
    expect(contrast(COLOUR[limiter], INK_ON[limiter])).toBeGreaterThanOrEqual(4.5);
  });

  // 2.3 in L*a*b* is the least difference that is noticed (Mahy et al. 1994, from memory); we ask for ten times that.
  it.each(['normal', ...Object.keys(DEFICIENCIES)])('every two are well apart with %s sight', sight => {
    const matrix = DEFICIENCIES[sight];
    const view = (colour: string) => (matrix === undefined ? linear(colour) : seen(linear(colour), matrix));
    for (const [a, b] of pairs) expect(distance(view(COLOUR[a]), view(COLOUR[b])), `${a}, ${b}`).toBeGreaterThan(23);
  });

  it('every two differ in lightness, so that they read in greyscale', () => {
    for (const [a, b] of pairs) {
      const difference = Math.abs(lab(linear(COLOUR[a]))[0] - lab(linear(COLOUR[b]))[0]);
      expect(difference, `${a}, ${b}`).toBeGreaterThan(7.5);
    }
  });

  it('has a letter of its own for each', () => {
    expect(new Set(Object.values(SIGN)).size).toBe(LIMITERS.length);
    for (const sign of Object.values(SIGN)) expect(sign).toMatch(/^[A-Z]$/);
  });
});

describe('writing and lines on the paper', () => {
  it('has the contrast of text for ink and axes, and of graphics (3 to 1, WCAG 2.1, 1.4.11) for lines', () => {
    expect(contrast(INK, PAPER)).toBeGreaterThan(7);
    expect(contrast(QUIET, PAPER)).toBeGreaterThan(4.5);
    for (const line of LINES) expect(contrast(line.colour, PAPER)).toBeGreaterThan(3);
  });

  it('gives each line a dash of its own', () => {
    expect(new Set(LINES.map(line => line.dash.join())).size).toBe(LINES.length);
  });
});
