/** What the log of a launch tells beside the speed: by the words of its header. */
import { describe, expect, it } from 'vitest';
import { readLaunchLog } from '../../src/fit/launch/launch-log.ts';

/** A launch of 4 m/s2 from 2 s on, ten rows a second, with 50 kW, 350 V and 20 % of slip. */
function log(header: string, cells: (v: number, power: number) => readonly (number | string)[]): string {
  const rows = Array.from({ length: 100 }, (_, k) => {
    const v = Math.max(0, 4 * (k / 10 - 2));
    return [(k / 10).toFixed(1), ...cells(v, v > 0 ? 50_000 : 300)].join(',');
  });
  return `${header}\n${rows.join('\n')}\n`;
}

const REAR = { driven: ['rear'], radius: 0.3 } as const;
const top = ({ value = new Float64Array(0) }: { value?: Float64Array } = {}): number => Math.max(...value);

describe('the log of a launch', () => {
  it.each([
    ['time_s,speed_km_h,power_kW', 1e-3],
    ['Time (s),GPS Speed (km/h),HV Battery Power(kW)', 1e-3],
    ['t [s],v [km/h],Leistung [W]', 1],
    ['Zeit (s),Geschwindigkeit (km/h),Batterieleistung (PS)', 1 / 735.49875],
    ['elapsed time [s],vehicle speed [km/h],Inverter DC Power [hp]', 1 / 745.6998715822702],
  ])('tells power: %s', (header, scale) => {
    const found = readLaunchLog(
      log(header, (v, power) => [3.6 * v, power * scale]),
      REAR,
    );
    expect(top(found.power) / 50_000).toBeCloseTo(1, 9);
    expect(found.wheel).toBeUndefined();
  });

  it.each([
    ['time_s,speed_km_h,pack_voltage_V,pack_current_A', 1],
    ['Time [s],Speed [km/h],Battery Voltage [V],Battery Current [A]', -1],
  ])('tells power by voltage and current, whichever sign drives: %s', (header, sign) => {
    const found = readLaunchLog(
      log(header, (v, power) => [3.6 * v, 350, (sign * power) / 350]),
      REAR,
    );
    expect(top(found.power) / 50_000).toBeCloseTo(1, 9);
    expect(found.notes.join(' ').includes('logged with a minus')).toBe(sign < 0);
  });

  it.each([
    ['time_s,speed_km_h,wheel_speed_km_h', 3.6],
    ['Time (s),GPS speed (km/h),Wheel Speed (mph)', 1 / 0.44704],
    ['Time (s),Speed (km/h),Wheel Speed RL (km/h)', 3.6],
    ['Time (s),Speed (km/h),rear left wheel speed [m/s]', 1],
    ['Zeit (s),Geschwindigkeit (km/h),Raddrehzahl HL [rpm]', 30 / Math.PI / 0.3],
  ])('tells the driven wheels: %s', (header, scale) => {
    const found = readLaunchLog(
      log(header, v => [3.6 * v, 1.2 * v * scale]),
      REAR,
    );
    expect(top(found.wheel) / (1.2 * Math.max(...found.speed))).toBeCloseTo(1, 1);
  });

  it('takes the mean of both driven wheels and passes over those that are not', () => {
    const found = readLaunchLog(
      log('time [s],speed [km/h],wheel speed fl [km/h],wheel speed rl [km/h],wheel speed rr [km/h]', v => [
        3.6 * v,
        3.6 * v,
        3.6 * 1.1 * v,
        3.6 * 1.3 * v,
      ]),
      REAR,
    );
    const last = (values: Float64Array | undefined): number => values?.at(-1) ?? Number.NaN;
    expect(last(found.wheel?.value) / last(found.speed)).toBeCloseTo(1.2, 6);
  });

  it('says where the only speed is that of the wheels, and a unit that is missing', () => {
    const wheels = readLaunchLog(
      log('time_s,wheel_speed_km_h', v => [3.6 * v]),
      REAR,
    );
    expect(wheels.ofWheels).toBe(true);
    expect(wheels.notes.join(' ')).toContain('the only speed is that of the wheels');
    const bare = readLaunchLog(
      log('time_s,speed_km_h,power', (v, power) => [3.6 * v, power]),
      REAR,
    );
    expect(bare.power).toBeUndefined();
    expect(bare.notes.join(' ')).toContain('say no unit and are passed over, "power"');
  });

  it('tells two ways to the power that differ', () => {
    const found = readLaunchLog(
      log('time_s,speed_km_h,power_kW,voltage_V,current_A', (v, power) => [3.6 * v, power / 1000, 35, power / 350]),
      REAR,
    );
    expect(found.notes.join(' ')).toContain('voltage times current is 90 % off the column of power');
  });
});
