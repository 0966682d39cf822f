import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTyreSize, TyreSizeError } from '../../../src/model/tyre/size.ts';

function fault(text: string): TyreSizeError {
  try {
    readTyreSize(text);
  } catch (error) {
    if (error instanceof TyreSizeError) return error;
    throw error;
  }
  throw new Error(`"${text}" was read`);
}

describe('readTyreSize', () => {
  // Geometry of the size code, rim x 25.4 + 2 x width x aspect; rolling radius by 3.05 x diameter / 2 pi (ETRTO, from memory).
  it.each([
    ['155/80R13', 578.2, 280.7],
    ['165/80R13', 594.2, 288.4],
    ['165/80R15', 645.0, 313.1],
    ['175/70R13', 575.2, 279.2],
    ['185/70R15', 640.0, 310.7],
    ['175/65R14', 583.1, 283.1],
    ['195/65R15', 634.5, 308.0],
    ['205/55R16', 631.9, 306.7],
    ['225/45R17', 634.3, 307.9],
  ])('%s has a free diameter of %d mm and a rolling radius of %d mm', (code, diameter, radius) => {
    const size = readTyreSize(code);
    expect(size.freeDiameter * 1000).toBeCloseTo(diameter, 6);
    // Within the rounding of the table: it was rounded twice, the circumference first.
    expect(Math.abs(size.effectiveRadius * 1000 - radius)).toBeLessThan(0.06);
  });

  it('takes 80 % where no aspect is written', () => {
    expect(readTyreSize('165 R 15')).toEqual(readTyreSize('165/80R15'));
  });

  it('reads load index and speed symbol', () => {
    expect(readTyreSize('155/80 R 13 79T')).toMatchObject({ loadIndex: 79, speedSymbol: 'T' });
    expect(readTyreSize('155/80 R 13 79')).toMatchObject({ loadIndex: 79 });
    expect(readTyreSize('175/70 r 14 c 95/93 t')).toMatchObject({ loadIndex: 95, speedSymbol: 'T' });
    expect(readTyreSize('205/55R16 94V XL')).toMatchObject({ loadIndex: 94, speedSymbol: 'V' });
  });

  it('reads the old way to write the speed symbol, and ZR as no symbol', () => {
    expect(readTyreSize('155 SR 13')).toMatchObject({ width: 0.155, aspect: 0.8, speedSymbol: 'S' });
    expect(readTyreSize('225/45 ZR 17')).not.toHaveProperty('speedSymbol');
    expect(readTyreSize('225/45 ZR 17 91Y')).toMatchObject({ speedSymbol: 'Y' });
  });

  it('reads a leading P', () => {
    expect(readTyreSize('P195/65R15')).toEqual(readTyreSize('195/65R15'));
  });

  it.each([
    ['', 0, /width/],
    ['tyres', 0, /width/],
    ['45/80R13', 0, /45 is no section width/],
    ['145/8R13', 4, /8 is no aspect/],
    ['145/R13', 4, /aspect/],
    ['145/80-13', 6, /radial/],
    ['5.60-15', 0, /width/],
    ['145/80 XR 13', 7, /radial/],
    ['145/80R', 7, /rim/],
    ['200/60 R 390', 9, /390 is no rim/],
    ['145/80R13 12T', 10, /load index 12/],
    ['145/80R13 79X', 12, /speed symbol "X"/],
    ['145/80R13 79T extra', 14, /does not belong/],
  ])('points at what is wrong in "%s"', (text, offset, message) => {
    const error = fault(text);
    expect(error.message).toMatch(message);
    expect(error.offset).toBe(offset);
    expect(error.length).toBeGreaterThan(0);
    expect(error.expected).not.toBe('');
  });

  it('reads any text or says where it cannot, and nothing else', () => {
    const alphabet = fc.constantFrom(...'0123456789 /RPCZSTHVXL.-é'.split(''));
    fc.assert(
      fc.property(fc.string({ unit: alphabet, maxLength: 16 }), text => {
        try {
          expect(readTyreSize(text).effectiveRadius).toBeGreaterThan(0);
        } catch (error) {
          expect(error).toBeInstanceOf(TyreSizeError);
          expect((error as TyreSizeError).offset).toBeLessThanOrEqual(text.length);
        }
      }),
      { numRuns: 2000 },
    );
  });
});
