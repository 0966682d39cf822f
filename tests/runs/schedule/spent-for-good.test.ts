/** A pack below its low end: whether what the car could still win, its motion and the fall of the road ahead, m v^2 / 2 + m g h, would lift it again. */
import { describe, expect, it } from 'vitest';
import type { Schedule } from '../../../src/cycles/schedule.ts';
import { STANDARD_GRAVITY } from '../../../src/model/gravity.ts';
import { isSpent } from '../../../src/runs/schedule/excursion.ts';
import type { Journey } from '../../../src/runs/schedule/journey.ts';

const [MASS, CAPACITY, OPEN, LOW] = [1000, 60 * 3600, 350, 0.1];

/** J that are missing below the low end. */
function journey(missing: number, speed = 0): Journey {
  const none = { axle: { driven: false }, at: {} };
  const pack = { charge: LOW - missing / (CAPACITY * OPEN), open: OPEN };
  const moving = { pack: { capacity: CAPACITY }, car: { inertialMass: MASS, mass: MASS } };
  return {
    low: LOW,
    speed,
    parameters: { car: { angle: 0 } },
    following: { pack, moving, front: none, rear: none },
  } as unknown as Journey;
}

function road(slopes: readonly number[]): Schedule {
  const time = Float64Array.of(0, 5, 15, 40);
  // 100 m, then 250 m, then 750 m of way.
  const speed = Float64Array.of(20, 20, 30, 30);
  return { title: '', source: '', time, speed, slope: Float64Array.from(slopes), phases: [] };
}

const sine = (slope: number): number => Math.sin(Math.atan(slope));

describe('a pack below its low end', () => {
  it.each([
    ['down all the way', [-0.05, -0.04, -0.03], 0, 100 * sine(0.05) + 250 * sine(0.04) + 750 * sine(0.03)],
    ['up at last: the lowest place on the way counts', [-0.05, -0.04, 0.03], 0, 100 * sine(0.05) + 250 * sine(0.04)],
    ['over a rise first', [0.05, -0.04, -0.03], 0, -100 * sine(0.05) + 250 * sine(0.04) + 750 * sine(0.03)],
    ['what lies behind does not count', [-0.05, -0.04, -0.03], 1, 250 * sine(0.04) + 750 * sine(0.03)],
    ['up all the way', [0.05, 0.04, 0.03], 0, 0],
  ])('is spent for good by more than the fall of the road would bring: %s', (_, slopes, index, height) => {
    const fall = MASS * STANDARD_GRAVITY * height;
    expect(isSpent(journey(fall + 50), road(slopes), index)).toBe(true);
    if (fall > 0) expect(isSpent(journey(fall - 50), road(slopes), index)).toBe(false);
  });

  it('is not while the car moves fast enough to bring it back', () => {
    const motion = 0.5 * MASS * 20 * 20;
    expect(isSpent(journey(motion, 20), road([0.05, 0, 0]), 0)).toBe(false);
    // Rounded up by 5 %: too early would end a range that goes on.
    expect(isSpent(journey(1.06 * motion, 20), road([0.05, 0, 0]), 0)).toBe(true);
  });
});
