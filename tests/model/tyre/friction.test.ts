import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { friction, FrictionAnchor } from '../../../src/model/tyre/friction.ts';
import { frictionAtLoad } from '../../../src/model/tyre/slip.ts';

it('is the power law along any way through the loads, to round-off', () => {
  const way = fc.array(fc.double({ min: -0.05, max: 0.05, noNaN: true }), { minLength: 1, maxLength: 20 });
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 500, max: 20_000, noNaN: true }),
      way,
      (loadExponent, start, changes) => {
        const tyre = { peak: 0.95, loadExponent, loadReference: 4000, unloading: 0 };
        const at = { anchor: new FrictionAnchor() };
        let load = start;
        for (const change of changes) {
          load *= 1 + change;
          const exact = frictionAtLoad(tyre.peak, load, tyre.loadReference, loadExponent);
          expect(Math.abs(friction(tyre, at, load) / exact - 1)).toBeLessThan(2e-14);
        }
      },
    ),
  );
});
