/** Two drives with a fixed share of the wheel torque, driven by the pedal. */
import { expect, it } from 'vitest';
import type { Car, Drive, Tyre } from '../../../src/model/car.ts';
import { plantParameters } from '../../../src/model/forward/load.ts';
import { wheelTorque } from '../../../src/model/forward/limits.ts';
import { plantFor } from '../../../src/model/forward/plant.ts';
import type { Moving } from '../../../src/model/forward/instant.ts';
import { L, withAxleMode } from '../../../src/model/forward/state.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import type { LaunchRun } from '../../../src/runs/launch/run.ts';
import { testCar, testDay, testDrive } from '../../cars.ts';

const SHARE = 0.25;

/** A pack that is too weak for its two drives. */
const drive = (axle: Drive['axle']): Drive => ({ ...testDrive, axle, traction: { policy: 'held', share: 1 } });
const weak: Car = {
  ...testCar,
  drives: [drive('front'), drive('rear')],
  frontTorqueShare: SHARE,
  pack: { ...testCar.pack, maxCurrent: 0.3 * testCar.pack.maxCurrent },
};

function gripping(peak: number): Car {
  const tyre = (of: Tyre): Tyre => ({ ...of, dry: { peak, slide: 0.7 * peak } });
  return { ...weak, tyres: { front: tyre(weak.tyres.front), rear: tyre(weak.tyres.rear) } };
}

/** The front axle leads, at the limit of the pack. */
const led = withAxleMode(withAxleMode(0, 0, L.current), 1, L.split);

function driven(friction: number, v: number): Moving {
  const plant = plantFor(plantParameters(gripping(friction), testDay));
  plant.rates(led, plant.initial(v), new Float64Array(plant.states + plant.quadratures));
  return plant.moving;
}

it.each([4, 8, 13, 20])('keep it at the limit of the pack up to the peak of the axle that follows, at %d m/s', v => {
  // The least friction at which the rear axle does not slip beyond its peak.
  let [low, high] = [0.01, 1.5];
  for (let pass = 0; pass < 60; pass++) {
    const middle = 0.5 * (low + high);
    if (driven(middle, v).atRear.stretch < 1) high = middle;
    else low = middle;
  }
  expect(driven(high, v).atRear.stretch).toBeGreaterThan(0.99);
  for (const above of [0, 1e-12, 1e-10, 1e-8, 1e-6, 1e-4, 1e-3, 1e-2]) {
    const { front, rear, atFront, atRear, now } = driven(high * (1 + above), v);
    const [one, two] = [wheelTorque(front, atFront), wheelTorque(rear, atRear)];
    expect(Math.abs(one / (one + two) - SHARE), `${above}`).toBeLessThan(1e-9);
    expect(Math.abs(now.current / weak.pack.maxCurrent - 1), `${above}`).toBeLessThan(1e-9);
    expect(atRear.stretch, `${above}`).toBeLessThan(1 + 1e-9);
  }
});

it.each([0.5, 0.999, 1 - 4e-16, 1])(
  'is taken up to %d of the peak force and no further, whatever the steps are, by an axle that follows',
  share => {
    const traction = { policy: 'share' as const, share };
    const car: Car = {
      ...gripping(0.4),
      drives: [drive('front'), { ...drive('rear'), traction }].map(each => ({
        ...each,
        unit: { ...each.unit, torqueRise: 0.005 },
      })),
      pack: testCar.pack,
    };
    const run = (tolerance: number): LaunchRun =>
      launchOnce(car, { surroundings: testDay, tolerance, stop: 'rollout' });
    const [coarse, fine] = [run(1e-6), run(1e-11)];
    // The rear axle follows within milliseconds of the pedal, and comes to its grip before a coarse step is over.
    expect(fine.solution.events[0]?.kind).toBe('switch');
    expect(coarse.solution.events[0]!.time / fine.solution.events[0]!.time).toBeCloseTo(1, 5);
    const rollout = (of: LaunchRun): number => of.marks.get('rollout')!.time;
    expect(Math.abs(rollout(coarse) / rollout(fine) - 1)).toBeLessThan(1e-5);
  },
);
