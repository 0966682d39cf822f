/** Voltages that parts must stand: of the pack of the car, and of runs whose lowest voltage is known. */
import { describe, expect, it } from 'vitest';
import { openVoltage } from '../../../src/model/pack/voltage-window.ts';
import { backEmfLine, packStanding, voltageLines, worn } from '../../../src/runs/duty/lines/voltages.ts';
import type { Said } from '../../../src/runs/duty/line.ts';
import type { NamedRun } from '../../../src/runs/duty/runs.ts';
import type { Result } from '../../../src/runs/result.ts';
import { Trail } from '../../../src/runs/trail/trail.ts';
import { testCar } from '../../cars.ts';

const { pack } = testCar;
const low = openVoltage(pack, pack.window.low);
const weakest = { temperature: 263.15, resistanceGrowth: 1.5 };

function sagging(name: string, volts: number): NamedRun {
  const trail = new Trail();
  trail.rest(10, volts);
  return { name, result: { kind: 'drive' } as Result, trail };
}

function lines(
  hanging: readonly { least?: number; greatest?: number; loaded?: boolean }[],
  current = 100,
): (key: string) => Said | undefined {
  const all = hanging.map(({ least, greatest, loaded = true }, i) => ({
    part: `part ${i}`,
    prefix: `p${i}_`,
    least,
    greatest,
    loaded,
  }));
  const runs = [sagging('flat', low + 5), sagging('steep', low - 20)];
  const found = voltageLines(testCar, runs, all, weakest, current);
  return key => found.find(line => line.key === key);
}

describe('voltages of a pack', () => {
  it('are its highest, that at its low end, and the lowest of the runs', () => {
    const line = lines([]);
    expect(line('voltage_greatest')?.value).toBe(pack.maxVoltage);
    expect(line('voltage_open_low')?.value).toBe(low);
    expect(line('voltage_least')).toMatchObject({ value: low - 20, run: 'steep' });
    expect(line('cells_most')).toBeUndefined();
    expect(line('cells_fewest')).toBeUndefined();
    expect(voltageLines(testCar, [], [], weakest, 1).some(({ key }) => key === 'voltage_least')).toBe(false);
  });

  it('sag by the resistance of a pack that is cold and worn', () => {
    const { emf, ohm } = packStanding(worn(pack, weakest), pack.window.low, weakest.temperature);
    const fresh = packStanding(pack, pack.window.low, weakest.temperature);
    const wiring = pack.wiringResistance;
    expect((ohm - wiring) / (fresh.ohm - wiring)).toBeCloseTo(1.5, 9);
    const line = lines([])('voltage_weakest');
    expect(line?.value).toBeCloseTo(emf - 100 * ohm, 9);
    expect(line?.note).toContain('at −10 °C with 1.5 times the resistance, under 100 A');
    const most = (emf - pack.minVoltage) / ohm;
    const over = lines([], 1.01 * most)('voltage_weakest');
    expect(over?.verdict).toBe('look');
    expect(over?.note).toContain(`there it gives ${most.toFixed(0)} A`);
    expect(lines([], 0.99 * most)('voltage_weakest')?.verdict).toBe('figure');
    // No pack has less than no voltage.
    expect(lines([], (1.01 * emf) / ohm)('voltage_weakest')?.value).toBeNull();
  });

  it('are held against what hangs on the pack', () => {
    const line = lines([
      { least: low - 10, greatest: pack.maxVoltage + 1 },
      { least: low + 1, loaded: false },
    ]);
    expect(line('p0_voltage')).toMatchObject({ value: pack.maxVoltage, limit: pack.maxVoltage + 1, note: '' });
    expect(line('p0_voltage_least')).toMatchObject({ value: low, limit: low - 10, side: 'least', worst: low - 20 });
    expect(line('p0_voltage_least')?.note).toBe(
      `under load the runs come down to ${(low - 20).toFixed(0)} V: it gives less there`,
    );
    expect(line('p1_voltage')).toBeUndefined();
    expect(line('p1_voltage_least')?.worst).toBeUndefined();
    expect(line('p1_voltage_least')?.note).not.toBe('');
    expect(lines([{ least: low - 21 }])('p0_voltage_least')?.note).toBe('');
  });

  it('allow so many cells in series', () => {
    const { series, cell } = pack;
    const perCell = low / series;
    const line = lines([{ greatest: (series + 0.5) * cell.maxVoltage }, { greatest: (series + 9) * cell.maxVoltage }]);
    expect(line('cells_most')).toMatchObject({
      value: series,
      verdict: 'pass',
      note: `for the part 0; the pack has ${series}`,
    });
    expect(lines([{ greatest: (series - 0.5) * cell.maxVoltage }])('cells_most')?.verdict).toBe('fail');
    const fewest = lines([{ least: (series - 9) * perCell }, { least: (series - 0.5) * perCell }]);
    expect(fewest('cells_fewest')).toMatchObject({
      value: series,
      verdict: 'pass',
      note: `for the part 1; the pack has ${series}`,
    });
    expect(lines([{ least: (series + 0.5) * perCell }])('cells_fewest')).toMatchObject({
      value: series + 1,
      verdict: 'fail',
    });
  });
});

describe('a motor that turns with nothing connected', () => {
  const motor = { part: 'inverter', prefix: '', volts: 200, at: 500, run: 'fast', greatest: 450 };

  it('gives a voltage in proportion to its speed', () => {
    expect(backEmfLine(pack, { ...motor, speed: 400 })).toMatchObject({
      key: 'back_emf',
      value: 160,
      run: 'fast',
      limit: 450,
      sharp: true,
      note: 'at 3820 rpm',
    });
    expect(backEmfLine(pack, { ...motor, speed: 400, greatest: undefined }).limit).toBeNull();
  });

  it('charges the pack above its voltage', () => {
    const at = (volts: number): string => backEmfLine(pack, { ...motor, speed: (500 * volts) / 200 }).note ?? '';
    expect(at(low + 1)).toContain(`above the ${low.toFixed(0)} V of the pack at its low end`);
    expect(at(low - 1)).not.toContain('above');
  });
});
