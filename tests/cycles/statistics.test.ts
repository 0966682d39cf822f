import { describe, expect, it } from 'vitest';
import { join, phaseOf, repeated, stretch } from '../../src/cycles/join.ts';
import { scheduleNamed } from '../../src/cycles/schedules.ts';
import { withSlope } from '../../src/cycles/slope.ts';
import { statistics } from '../../src/cycles/statistics.ts';
import { rampTo, steadySchedule } from '../../src/cycles/steady.ts';

const plain = (schedule: Parameters<typeof phaseOf>[0]) => ({ name: '', schedule });

describe('the statistics of a schedule', () => {
  // 10 s rest, to 20 m/s at 2 m/s2, 30 s there, to rest at 4 m/s2, 5 s rest: by hand 100 + 600 + 50 m in 60 s.
  const trapezoid = join('trapezoid', 'by hand', [
    plain(steadySchedule(0, 10)),
    plain(rampTo(0, 20, 2)),
    plain(steadySchedule(20, 30)),
    plain(rampTo(20, 0, 4)),
    plain(steadySchedule(0, 5)),
  ]);

  it('are those of a trapezoid by hand', () => {
    const found = statistics(trapezoid);
    expect(found).toEqual({
      distance: 750,
      duration: 60,
      meanSpeed: 12.5,
      movingSpeed: 750 / 45,
      maxSpeed: 20,
      stopShareOfPoints: 4 / 6,
      stopShareOfTime: 0.25,
      stops: 1,
      positiveKineticEnergy: 400 / 750,
      maxAcceleration: 2,
      maxDeceleration: 4,
      climb: 0,
      descent: 0,
    });
  });

  it('climb by the sine of the slope, not by its tangent', () => {
    const up = statistics(withSlope(trapezoid, 0.75));
    expect(up.climb).toBeCloseTo(750 * 0.6, 10);
    expect(up.descent).toBe(0);
    expect(statistics(withSlope(trapezoid, -0.75)).descent).toBeCloseTo(450, 10);
  });

  it('have no mean of moving where nothing moves', () => {
    const { movingSpeed, positiveKineticEnergy, stops } = statistics(steadySchedule(0, 60));
    expect([movingSpeed, positiveKineticEnergy, stops]).toEqual([null, null, 0]);
  });

  it('count stops as the UDDS does: 17 (public summaries, from memory)', () => {
    expect(statistics(scheduleNamed('udds')).stops).toBe(17);
  });
});

describe('schedules in pieces', () => {
  it('are joined with phases of their own or with those of the pieces', () => {
    const udds = scheduleNamed('udds');
    const two = join('two', 'both', [{ name: 'first', schedule: udds }, plain(udds)]);
    expect(two.time.length).toBe(2 * 1370 - 1);
    expect(two.phases).toEqual([
      { name: 'first', from: 0, to: 1369 },
      { name: 'transient', from: 1369, to: 1874 },
      { name: 'stabilised', from: 1874, to: 2738 },
    ]);
  });

  it('are not joined across a jump of speed', () => {
    expect(() => join('no', '', [plain(steadySchedule(10, 5)), plain(steadySchedule(11, 5))])).toThrow(
      'piece 2 starts at 11 m/s, the one before ends at 10 m/s',
    );
    expect(() => join('no', '', [])).toThrow(RangeError);
  });

  it('keep the slopes of each', () => {
    const hill = join('hill', '', [plain(withSlope(steadySchedule(10, 5), 0.1)), plain(steadySchedule(10, 5))]);
    expect([...hill.slope!]).toEqual([0.1, 0]);
  });

  it('are repeated', () => {
    const three = repeated(scheduleNamed('nycc'), 3);
    expect(statistics(three).distance).toBeCloseTo(3 * statistics(scheduleNamed('nycc')).distance, 8);
    expect(three.phases.map(({ name }) => name)).toEqual(['1', '2', '3']);
    expect(() => repeated(three, 0)).toThrow('0 is no number of repeats');
    expect(() => repeated(three, 1.5)).toThrow(RangeError);
  });

  it('are cut out between their points as well', () => {
    const ramp = withSlope(rampTo(0, 10, 1), 0.02);
    const middle = stretch(ramp, 'middle', 2.5, 7.5);
    expect([...middle.time]).toEqual([0, 5]);
    expect([...middle.speed]).toEqual([2.5, 7.5]);
    expect([...middle.slope!]).toEqual([0.02]);
    const wltc = scheduleNamed('wltc');
    expect(stretch(wltc, 'two', 0, 1022).phases.map(({ name }) => name)).toEqual(['low', 'medium']);
    expect(stretch(wltc, 'part', 100.5, 200).time.length).toBe(101);
    expect(() => stretch(ramp, 'none', 5, 11)).toThrow('no stretch from 5 s to 11 s in 10 s');
    expect(() => phaseOf(wltc, 'lowest')).toThrow('has no phase "lowest"');
  });
});
