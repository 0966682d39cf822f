import { describe, expect, it } from 'vitest';
import { completeLedger } from '../../../src/model/body/complete-ledger.ts';
import type { WeighSpec } from '../../../src/model/body/ledger-fields.ts';
import { SpecError } from '../../../src/model/fields/spec-error.ts';

const spec: WeighSpec = { scales: { front: 550, rear: 450 }, wheelbase: 2.4 };

function failure(changed: WeighSpec): SpecError {
  try {
    completeLedger({ ...spec, ...changed }, 'c');
  } catch (error) {
    if (error instanceof SpecError) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
}

describe('a ledger', () => {
  it('is filled up with documented assumptions, each of them listed', () => {
    const { ledger, limits, keep, inputs } = completeLedger({ ...spec, in: [{ name: 'box', mass: 100, x: 2 }] }, 'c');
    expect(ledger.in).toEqual([{ name: 'box', count: 1, mass: 100, x: 2, height: 0.55 }]);
    expect(ledger.driver).toEqual({ name: 'driver', count: 1, mass: 75, x: 0.52 * 2.4, height: 0.6 });
    expect(limits).toEqual({
      front: { permitted: null, loadIndex: null, speedSymbol: null, radius: null },
      rear: { permitted: null, loadIndex: null, speedSymbol: null, radius: null },
      gross: null,
      train: null,
      hitch: null,
      topSpeed: null,
    });
    expect(keep).toEqual({ share: 0.55, room: { min: -0.6, max: 2.4 + 0.7 }, move: null });
    expect(inputs.map(({ path }) => path)).toEqual([
      'c.cg_height',
      'c.in[1].height',
      'c.driver.mass',
      'c.driver.x',
      'c.driver.height',
      'c.keep_share',
      'c.min_x',
      'c.max_x',
    ]);
  });

  it('reads index and symbol off the side wall, and lets what is said beside it go before', () => {
    const { front, rear } = completeLedger({
      ...spec,
      tyres: { size: '155/80 R 13 79T' },
      rearTyres: { size: '155 SR 13', loadIndex: 82 },
    }).limits;
    // (13 in + 2 * 155 mm * 0.8) / 2.
    expect(front).toMatchObject({ loadIndex: 79, speedSymbol: 'T', radius: (13 * 0.0254 + 2 * 0.155 * 0.8) / 2 });
    expect(rear).toMatchObject({ loadIndex: 82, speedSymbol: 'S' });
  });

  it.each<[string, WeighSpec, RegExp]>([
    ['c.out', { out: [{ name: 'engine', mass: 700, x: 0 }] }, /takes more off the front axle/],
    ['c.in', { in: [{ name: 'box', mass: 900, x: 4 }] }, /lifts the front axle/],
    ['c.load', { load: [{ name: 'crane', mass: 900, x: 4 }] }, /lifts the front axle/],
    ['c.driver', { driver: { mass: 300, x: 9 } }, /lifts the front axle/],
    ['c.in[1].count', { in: [{ name: 'box', mass: 9, x: 1, count: 1.5 }] }, /whole number/],
    ['c.in[1].mass', { in: [{ name: 'box', x: 1 }] }, /missing/],
    [
      'c.out[2].name',
      {
        out: [
          { name: 'a', mass: 9, x: 1 },
          { mass: 9, x: 1 },
        ],
      },
      /missing/,
    ],
    ['c.move', { move: 'bix', in: [{ name: 'box', mass: 9, x: 1 }] }, /nothing under in is called "bix"/],
    [
      'c.move',
      {
        move: 'b',
        in: [
          { name: 'b', mass: 9, x: 1 },
          { name: 'b', mass: 9, x: 1 },
        ],
      },
      /2 things/,
    ],
    ['c.min_x', { minX: 2, maxX: 1 }, /not in front of/],
    ['c.tyres.size', { tyres: { size: '155/80 Q 13' } }, /radial/],
    ['c.front_tyres.load_index', { frontTyres: { loadIndex: 78.5 } }, /whole number/],
    ['c.cg_height', { cgHeight: 0.1, out: [{ name: 'roof', mass: 200, x: 1.2, height: 1.4 }] }, /above the road/],
  ])('that can not be is told at %s', (path, changed, message) => {
    const error = failure(changed);
    expect(error.path).toBe(path);
    expect(error.message).toMatch(message);
  });

  it('needs scales and wheelbase', () => {
    expect(() => completeLedger({ wheelbase: 2.4 })).toThrow(SpecError);
    expect(() => completeLedger({ scales: { front: 1, rear: 1 } })).toThrow(SpecError);
  });
});
