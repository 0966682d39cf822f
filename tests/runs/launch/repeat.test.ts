import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Car } from '../../../src/model/car.ts';
import { CHARGE, RC, SPEED } from '../../../src/model/forward/state.ts';
import { launchOnce } from '../../../src/runs/launch/run.ts';
import { pause } from '../../../src/runs/launch/cool-down.ts';
import { repeat } from '../../../src/runs/launch/repeat.ts';
import { repeatOutputs } from '../../../src/runs/launch/repeat-outputs.ts';
import { withoutSpin, withTraction } from '../../../src/runs/variant.ts';
import { arbitraryBuild, testCar, testDay } from '../../cars.ts';

const heated = (capacity: number): Car => ({
  ...testCar,
  drives: testCar.drives.map(drive => ({
    ...drive,
    unit: {
      ...drive.unit,
      heat: { capacity, cooling: 15, derateAt: 350, derateRange: 30, continuousShare: 0.3 },
    },
  })),
  pack: {
    ...testCar.pack,
    heat: { capacity: 80_000, cooling: 30, derateAt: 330, derateRange: 10, resistanceActivation: 2400 },
  },
});
const warm = heated(2500);
const options = { surroundings: testDay, times: 12, pause: 30 };
const found = repeat(warm, options);
const runs = (key: string, result = found): number[] => [...(result.series['runs']![key]!.values as Float64Array)];

describe('repeated launches', () => {
  it('give every output that they describe, and a reason for every null', () => {
    expect(Object.keys(found.summary)).toEqual(Object.keys(repeatOutputs));
    for (const [key, value] of Object.entries(found.summary))
      if (value === null) expect(found.reasons[key]).toBeTruthy();
    expect(found.warnings).toEqual([]);
    expect(found.opinion?.agrees).toBe(true);
  });

  it('begin with the launch from cold', () => {
    const { marks } = launchOnce(warm, { surroundings: testDay, stop: 'to', tolerance: 1e-9 });
    expect(runs('time_to_target_s')[0]).toBe(marks.get('to')!.time);
  });

  it('warm the unit until heat holds the car back, and end when it has become 20 % slower', () => {
    const times = runs('time_to_target_s');
    const first = times[0]!;
    const temperatures = runs('unit_temperature_K');
    temperatures.slice(1).forEach((T, i) => expect(T).toBeGreaterThan(temperatures[i]!));
    expect(found.summary['slowed_by']).toBe('heat');
    expect(found.bands.map(({ limiter }) => limiter)).toContain('heat');
    expect(times.length).toBeLessThan(12);
    expect(times.at(-1)! / first).toBeGreaterThan(1.2);
    times.slice(0, -1).forEach(time => expect(time / first).toBeLessThanOrEqual(1.2));
    const slower = found.summary['slower_run'] as number;
    expect(times[slower - 1]! / first).toBeGreaterThan(1.05);
    expect(times[slower - 2]! / first).toBeLessThanOrEqual(1.05);
    expect(found.summary['time_last']).toBe(times.at(-1));
  });

  it('close their ledger over launches, pauses and braking, for cars of all builds', () => {
    expect(Math.abs(found.ledger.gap)).toBeLessThan(1e-8);
    expect(found.ledger.out['brakes']!).toBeGreaterThan(0);
    let whole = 0;
    fc.assert(
      fc.property(arbitraryBuild, car => {
        // Free wheels are stiff, and the second opinion takes long over them: one car below will do.
        const { ledger, series } = repeat(withoutSpin(car), { surroundings: testDay, times: 3, pause: 20, to: 15 });
        if ((series['runs']?.['run_1']?.values.length ?? 0) === 3) whole++;
        expect(Math.abs(ledger.gap)).toBeLessThan(1e-6);
      }),
      { numRuns: 20 },
    );
    expect(whole).toBeGreaterThan(12);
    const spin = repeat(withTraction(warm, 'spin'), { surroundings: testDay, times: 2, pause: 20, to: 15 });
    expect(spin.summary['runs']).toBe(2);
    expect(Math.abs(spin.ledger.gap)).toBeLessThan(1e-6);
  });

  it('count one that never gets there as slower, and end with it', () => {
    // Up a hill, a unit that has become warm keeps next to nothing of its torque.
    const weak = heated(3000);
    const drives = weak.drives.map(drive => {
      const { unit } = drive;
      const heat = unit.heat === undefined ? undefined : { ...unit.heat, continuousShare: 0.01, derateRange: 5 };
      return { ...drive, unit: { ...unit, ...(heat !== undefined && { heat }) } };
    });
    const { summary, reasons } = repeat({ ...weak, drives }, { ...options, surroundings: { ...testDay, slope: 0.05 } });
    expect(summary.time_first).toBeGreaterThan(5);
    expect(summary.time_last).toBeNull();
    expect(reasons['time_last']).toBe('the last launch does not reach the target speed');
    expect(summary.slower_run).toBe(summary.runs);
    expect(summary.slowed_by).toBe('heat');
  });

  it('are no slower after longer pauses, nor with more to warm', () => {
    const last = (car: Car, seconds: number): number =>
      repeat(car, { ...options, times: 6, pause: seconds }).summary['time_last'] as number;
    const own = last(warm, 20);
    expect(last(warm, 200)).toBeLessThan(own);
    expect(last(heated(9000), 20)).toBeLessThan(own);
  });

  it('say that nothing is known of heat that is not modelled, and when all are done', () => {
    const plain = repeat(testCar, { ...options, times: 3 });
    expect(plain.warnings).toHaveLength(2);
    expect(plain.summary).toMatchObject({ runs: 3, unit_temperature: null, slower_run: null });
    expect(plain.reasons['unit_temperature']).toContain('continuous_power');
    const charge = runs('charge_1', plain);
    expect(charge[2]!).toBeLessThan(charge[1]!);
  });

  it('answer with a reason for a car that does not move off or does not get there', () => {
    const steep = repeat(testCar, { ...options, surroundings: { ...testDay, slope: 0.6 } });
    expect(steep.reasons['time_first']).toBe('the car does not move off: grip');
    expect(repeat(testCar, { ...options, to: 140 }).reasons['runs']).toBe('the target speed is not reached');
  });
});

describe('a pause', () => {
  const run = launchOnce(warm, { surroundings: testDay, stop: 'to' });
  const end = run.solution.states.slice(
    (run.solution.nodes - 1) * run.plant.states,
    run.solution.nodes * run.plant.states,
  );
  const unit = run.plant.unitTemperatureState(0);

  it('cools the drive unit as the closed form says: the warmth falls as exp(-cooling t / capacity)', () => {
    const { states } = pause(warm, testDay, end, 100);
    const left = (end[unit]! - testDay.temperature) * Math.exp((-15 * 100) / 2500);
    expect(states[unit]! - testDay.temperature).toBeCloseTo(left, 6);
    expect(states[SPEED]).toBe(0);
  });

  it('lets the polarisation go to what the 12 V side keeps up, and takes its energy from the cells', () => {
    const { states, integrals } = pause(warm, testDay, end, 1000);
    // 300 W over 0.9 at about 390 V through the RC pair: 0.012 ohm x 96 / 12 at 25 degC.
    const { resistanceActivation } = warm.pack.heat!;
    const warmth = Math.exp(resistanceActivation * (1 / states.at(-1)! - 1 / 298.15));
    expect(states[RC]! / ((warmth * 0.012 * 96 * (300 / 0.9 / 390)) / 12)).toBeCloseTo(1, 2);
    expect(integrals[9]!).toBeCloseTo((300 / 0.9) * 1000, 3);
    expect(states[CHARGE]!).toBeLessThan(end[CHARGE]!);
  });

  it('of no time changes nothing but the speed', () => {
    const { states } = pause(warm, testDay, end, 0);
    expect([...states.subarray(2)]).toEqual([...end.subarray(2)]);
  });
});
