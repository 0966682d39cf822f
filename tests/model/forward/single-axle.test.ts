/** The balance for one driven axle is a quicker way to the answer of the general one. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { balance, road } from '../../../src/model/forward/balance.ts';
import {
  A,
  AXLE_SCRATCH,
  AXLE_SIZE,
  axleMode,
  B,
  GRIP,
  P,
  SCRATCH_COUNT,
  W,
} from '../../../src/model/forward/state.ts';
import { packPlant } from '../../../src/model/forward/load.ts';
import { balanceSingle } from '../../../src/model/forward/single-axle.ts';
import { plantFor } from '../../../src/model/forward/plant.ts';
import { packCurve } from '../../../src/model/tables/curve.ts';
import { arbitraryCar, arbitraryDay } from '../../cars.ts';

it('agrees with the general balance at random states of random cars, in every mode in force', () => {
  const tables = { torque: packCurve([0], [0]), loss: null, otherLoss: null };
  fc.assert(
    fc.property(arbitraryCar, arbitraryDay, fc.double({ min: 1e-4, max: 0.7, noNaN: true }), (car, day, part) => {
      const drive = car.drives[0]!;
      const speed = (part * drive.unit.maxSpeed * car.tyres[drive.axle].radius) / drive.ratio;
      const parameters = packPlant(car, day);
      const plant = plantFor(parameters);
      const y = plant.initial(speed);
      const mode = plant.modeAt(y);
      plant.rates(mode, y, new Float64Array(plant.states + plant.quadratures));
      const axle = drive.axle === 'front' ? 0 : 1;
      const [o, ou] = [P.axle0 + axle * AXLE_SIZE, P.axle0 + (1 - axle) * AXLE_SIZE];
      const [b, bu] = [W.axle0 + axle * AXLE_SCRATCH, W.axle0 + (1 - axle) * AXLE_SCRATCH];
      const found = [new Float64Array(SCRATCH_COUNT), new Float64Array(SCRATCH_COUNT)].map((w, i) => {
        w.set(plant.scratch.subarray(0, W.axle0));
        w[b + B.anchorLoad] = Number.NaN;
        w[b + B.load] = parameters.block[o + A.staticLoad]!;
        road(parameters.block, w, speed);
        if (i === 0) balance(parameters.block, w, mode, speed, tables, tables);
        else balanceSingle(parameters.block, w, o, b, ou, bu, axleMode(mode, axle), speed, tables);
        return [
          w[W.acceleration]!,
          w[b + B.force]!,
          w[b + B.torque]!,
          w[b + B.load]!,
          w[b + B.stretch]!,
          w[bu + B.load]!,
        ];
      });
      const [general, single] = found as [number[], number[]];
      general.forEach((value, i) => expect(Math.abs(single[i]! - value)).toBeLessThan(1e-8 * Math.abs(value) + 1e-9));
      expect(axleMode(mode, axle) & ~GRIP).toBeGreaterThan(0);
    }),
    { numRuns: 1000, endOnFailure: true },
  );
});
