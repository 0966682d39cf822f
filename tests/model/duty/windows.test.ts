import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { above, below, joined, longestAbove, trackOfLevels, trackThrough } from '../../../src/model/duty/track.ts';
import type { Track } from '../../../src/model/duty/track.ts';
import { rootMeanSquare, WINDOWS, windowed } from '../../../src/model/duty/windows.ts';

const near = (found: number, wanted: number, share = 1e-12): void =>
  expect(Math.abs(found - wanted) / Math.max(1, Math.abs(wanted))).toBeLessThan(share);

/** Pieces of any length and any straight line. */
const anyTrack: fc.Arbitrary<Track> = fc
  .array(
    fc.tuple(
      fc.double({ min: 0.01, max: 20, noNaN: true }),
      fc.double({ min: -400, max: 400, noNaN: true }),
      fc.double({ min: -400, max: 400, noNaN: true }),
    ),
    { minLength: 1, maxLength: 30 },
  )
  .map(pieces => ({
    length: Float64Array.from(pieces, p => p[0]),
    from: Float64Array.from(pieces, p => p[1]),
    to: Float64Array.from(pieces, p => p[2]),
  }));

describe('currents over windows', () => {
  // By hand with 30 digits: sqrt of 225/3 (20^3 - (20 - w)^3) / w, and of 225/3 20^3 / w where the run is shorter.
  it('are those of a ramp of 15 A/s for 20 s in closed form', () => {
    const ramp: Track = { length: Float64Array.of(20), from: Float64Array.of(0), to: Float64Array.of(300) };
    const wanted = [292.5320495262015, 229.128784747792, 100, 18.257418583505537];
    WINDOWS.forEach((window, i) => near(windowed(ramp, window).once, wanted[i] ?? Number.NaN));
    expect(windowed(ramp, 10).short).toBe(false);
    expect(windowed(ramp, 60).short).toBe(true);
    // Three whole ramps in a minute, ninety in half an hour: the root mean square of one.
    near(windowed(ramp, 60).repeated, 300 / Math.sqrt(3));
    near(windowed(ramp, 1800).repeated, 300 / Math.sqrt(3));
  });

  it('are those of a ramp however it is cut', () => {
    const pieces = Array.from({ length: 80 }, (_, i) => i / 4);
    const ramp: Track = {
      length: new Float64Array(80).fill(0.25),
      from: Float64Array.from(pieces, t => 15 * t),
      to: Float64Array.from(pieces, t => 15 * (t + 0.25)),
    };
    near(windowed(ramp, 10).once, 229.128784747792);
    near(windowed(ramp, 1).once, 292.5320495262015);
  });

  it('are those of 300 A for 8 s and 50 A for 52 s, again and again', () => {
    const periods = joined(
      Array.from({ length: 5 }, () =>
        trackOfLevels([
          [8, 300],
          [52, 50],
        ]),
      ),
    );
    near(windowed(periods, 10).once, 269.2582403567252);
    near(windowed(periods, 30).once, 160.7275126832159);
    near(windowed(periods, 60).once, 119.02380714238083);
    near(
      windowed(
        trackOfLevels([
          [8, 300],
          [52, 50],
        ]),
        180,
      ).repeated,
      119.02380714238083,
    );
  });

  it('find the window that lies between the ends of pieces', () => {
    // 100 A from 3 s to 5 s on a hill of straight lines: the best 4 s lie around it evenly.
    const hill: Track = {
      length: Float64Array.of(3, 2, 3),
      from: Float64Array.of(0, 100, 100),
      to: Float64Array.of(100, 100, 0),
    };
    const slope = 100 / 3;
    const side = (100 ** 3 - (100 - slope) ** 3) / (3 * slope);
    near(windowed(hill, 4).once, Math.sqrt((2 * side + 2 * 100 ** 2) / 4));
  });

  it('never heat less over a longer window', () => {
    fc.assert(
      fc.property(
        anyTrack,
        fc.double({ min: 0.1, max: 100, noNaN: true }),
        fc.double({ min: 1, max: 3, noNaN: true }),
        (track, w, more) => {
          const [short, long] = [windowed(track, w).once ** 2 * w, windowed(track, w * more).once ** 2 * w * more];
          expect(long).toBeGreaterThanOrEqual(short * (1 - 1e-9) - 1e-6);
        },
      ),
    );
  });

  it('are no less than those at any place that is tried', () => {
    const heatUpTo = ({ length, from, to }: Track, time: number): number => {
      let [sum, left] = [0, time];
      length.forEach((h, i) => {
        const s = Math.min(Math.max(0, left), h);
        const [a, b] = [from[i] ?? 0, to[i] ?? 0];
        const end = a + ((b - a) * s) / h;
        sum += (s * (a * a + a * end + end * end)) / 3;
        left -= h;
      });
      return sum;
    };
    fc.assert(
      fc.property(anyTrack, fc.double({ min: 0.1, max: 5, noNaN: true }), (track, window) => {
        const whole = track.length.reduce((a, b) => a + b, 0);
        fc.pre(whole > window);
        const found = windowed(track, window).once ** 2 * window;
        let most = 0;
        for (let i = 0; i <= 500; i++) {
          const start = ((whole - window) * i) / 500;
          most = Math.max(most, heatUpTo(track, start + window) - heatUpTo(track, start));
        }
        expect(found).toBeGreaterThanOrEqual(most * (1 - 1e-9) - 1e-6);
      }),
    );
  });

  it('tell what goes out from what comes back', () => {
    const track: Track = { length: Float64Array.of(2), from: Float64Array.of(-100), to: Float64Array.of(300) };
    near(rootMeanSquare(above(track)), Math.sqrt((1.5 * 300 ** 2) / 3 / 2));
    near(rootMeanSquare(below(track)), Math.sqrt((0.5 * 100 ** 2) / 3 / 2));
    near(rootMeanSquare(above(track)) ** 2 + rootMeanSquare(below(track)) ** 2, rootMeanSquare(track) ** 2);
  });

  it('go through the two Gauss-Legendre points of a step', () => {
    // exp(t) over 0.1 s: integral of the square (e^0.2 - 1) / 2, to the fourth order.
    const at = (share: number): number => Math.exp(0.1 * share);
    const track = trackThrough(
      Float64Array.of(0.1),
      Float64Array.of(at(0.5 - Math.sqrt(3) / 6)),
      Float64Array.of(at(0.5 + Math.sqrt(3) / 6)),
    );
    near(rootMeanSquare(track) ** 2 * 0.1, (Math.exp(0.2) - 1) / 2, 1e-7);
  });
});

describe('the longest stretch above a level', () => {
  it('is cut where a line passes it, and has the root mean square of that line', () => {
    // 0 to 200 in 10 s: above 100 for 5 s, where the square is (200^3 - 100^3) / (3 * 100) on the mean; then 3 s at 150 apart from it.
    const track: Track = {
      length: Float64Array.of(10, 2, 3),
      from: Float64Array.of(0, 0, 150),
      to: Float64Array.of(200, 0, 150),
    };
    const found = longestAbove(track, 100);
    expect(found?.time).toBeCloseTo(5, 12);
    expect(found?.current).toBeCloseTo(Math.sqrt(7e6 / 300), 9);
    expect(longestAbove(track, 160)?.time).toBeCloseTo(2, 12);
    expect(longestAbove(track, 200)).toBeNull();
  });

  it('goes on where pieces meet above it', () => {
    const track = trackOfLevels([
      [4, 150],
      [6, 120],
      [1, 90],
      [5, 300],
    ]);
    expect(longestAbove(track, 100)).toEqual({ time: 10, current: Math.sqrt((4 * 150 ** 2 + 6 * 120 ** 2) / 10) });
  });
});
