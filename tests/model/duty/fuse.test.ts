import { describe, expect, it } from 'vitest';
import { bearable, meltingCurrent, prospectiveCurrent, worstPulse } from '../../../src/model/duty/fuse.ts';
import { stop } from '../../../src/model/duty/stop.ts';
import { trackOfLevels } from '../../../src/model/duty/track.ts';

const curve = { time: [0.01, 1, 100], current: [4000, 1250, 500] };

describe('a fuse', () => {
  it('bears its rated current less what warmth and years take', () => {
    expect(bearable({ rated: 350, ambient: 0.9, share: 0.7, pulseShare: 0.5, curve })).toBeCloseTo(220.5, 12);
  });

  it('melts along straight lines in logarithms, and nothing is known beyond the curve', () => {
    expect(meltingCurrent(curve, 1)).toBeCloseTo(1250, 9);
    expect(meltingCurrent(curve, 10)).toBeCloseTo(Math.sqrt(1250 * 500), 9);
    expect(meltingCurrent(curve, 0.001)).toBeNull();
    expect(meltingCurrent(curve, 101)).toBeNull();
  });

  it('feels the pulse most that has most of the heat that melts in its time', () => {
    const worst = worstPulse(
      curve,
      trackOfLevels([
        [5, 600],
        [200, 100],
      ]),
    );
    // The pulse itself: 600 A for 5 s, on a line that falls by 0.4 over two decades.
    expect(worst?.time).toBeCloseTo(5, 2);
    expect(worst?.share).toBeCloseTo((600 / (1250 * 0.4 ** (Math.log(5) / Math.log(100)))) ** 2, 4);
  });

  it('is asked to break all that the pack drives', () => {
    expect(prospectiveCurrent(403.2, 0.08)).toBeCloseTo(5040, 9);
    expect(prospectiveCurrent(403.2, 0)).toBe(Infinity);
  });
});

describe('a stop', () => {
  const car = {
    mass: 1200,
    turning: 40,
    frontShare: 0.5,
    wheelbase: 2.4,
    cgHeight: 0.5,
    speed: 100 / 3.6,
    deceleration: 6,
  };

  it('has the energy of the motion, and moves m a h / L to the front', () => {
    const found = stop(car);
    expect(found?.energy).toBeCloseTo(0.5 * 1240 * (100 / 3.6) ** 2, 6);
    expect(found?.power).toBeCloseTo((0.5 * 1240 * (100 / 3.6) ** 2) / (100 / 3.6 / 6), 6);
    expect(found?.front).toBeCloseTo(600 * 9.80665 + (1200 * 6 * 0.5) / 2.4, 9);
    expect((found?.front ?? 0) + (found?.rear ?? 0)).toBeCloseTo(1200 * 9.80665, 9);
    expect(found?.frontShare).toBeCloseTo(0.5 + (6 * 0.5) / (9.80665 * 2.4), 12);
  });

  it('is none where the rear wheels lift', () => {
    expect(stop({ ...car, wheelbase: 1, cgHeight: 0.9, deceleration: 9 })).toBeNull();
  });
});
