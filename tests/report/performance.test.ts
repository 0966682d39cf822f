import { describe, expect, it } from 'vitest';
import type { Car } from '../../src/model/car.ts';
import type { CellBlock } from '../../src/notebook/document/outcome.ts';
import { repeatedLaunches } from '../../src/plots/repeat.ts';
import { controlTable } from '../../src/report/kinds/traction-control.ts';
import { gearsTable, gearWords } from '../../src/report/kinds/gears.ts';
import { draw } from '../../src/report/page/render.ts';
import { repeatWords } from '../../src/report/kinds/repeat.ts';
import { writeReport } from '../../src/report/report.ts';
import { sheetWords } from '../../src/report/kinds/sheet.ts';
import { terminalSummary } from '../../src/report/terminal.ts';
import { verdict } from '../../src/report/kinds/launch.ts';
import { launch } from '../../src/runs/launch/launch.ts';
import { repeat } from '../../src/runs/launch/repeat.ts';
import type { Result } from '../../src/runs/result.ts';
import { sheet } from '../../src/runs/sheet/sheet.ts';
import { testCar, testDay } from '../cars.ts';
import { outcome } from './fixture.ts';
import { faults } from './well-formed.ts';

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const options = { surroundings: testDay };
const heat = { capacity: 2500, cooling: 15, derateAt: 350, derateRange: 30, continuousShare: 0.3 };
const warm: Car = { ...testCar, drives: testCar.drives.map(drive => ({ ...drive, unit: { ...drive.unit, heat } })) };
const geared: Car = {
  ...testCar,
  drives: testCar.drives.map(drive => ({
    ...drive,
    ratio: 4,
    gearbox: {
      shiftTime: 0.5,
      gears: [3.9, 2, 1.3].map(ratio => ({ ratio, efficiency: 0.97, inertia: 0.05, upshift: 1200 })),
    },
  })),
};
const launched = launch(geared, options);
const sheeted = sheet(warm, { ...options, grossMass: 1600 });
const repeated = repeat(warm, { ...options, times: 12, pause: 30 });
const cell = (kind: string, result: Result): CellBlock => ({
  kind: 'cell',
  cell: kind,
  name: `a_${kind}`,
  line: 3,
  source: '',
  problem: null,
  result,
  values: [],
  chart: null,
  checks: [],
});
const book = outcome({
  blocks: [cell('launch', launched), cell('sheet', sheeted), cell('repeat', repeated)],
  problems: [],
  failedChecks: 0,
});

describe('the report', () => {
  it('is well-formed and has the new tables', async () => {
    const page = await writeReport(book);
    expect(faults(page)).toEqual([]);
    for (const caption of ['Gear by gear', 'What traction control is worth', 'Performance sheet', 'Every launch']) {
      expect(page).toContain(`<caption>${caption}</caption>`);
    }
    expect(page).toContain('at gross mass, 1600');
    expect(page).not.toMatch(/NaN|undefined|could not be drawn/);
  });

  it('has both systems', async () => {
    const page = await writeReport({ ...book, system: 'imperial' });
    expect(faults(page)).toEqual([]);
    expect(plain(page)).toContain('at gross mass, 3527 lb');
  });

  it.each([40, 72, 120])('fits into a terminal of %i characters', width => {
    const text = terminalSummary(book, { color: false, width });
    for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(width);
    expect(text).toContain('sheet a sheet');
    expect(text.replace(/\s+/g, ' ')).toMatch(/Top speed .* 30-minute speed/);
    expect(text.replace(/\s+/g, ' ')).toMatch(/launches to 100 km\/h: the first takes/);
  });
});

describe('the words', () => {
  const changed = (result: Result, summary: Result['summary'], reasons: Result['reasons'] = {}): Result => ({
    ...result,
    summary: { ...result.summary, ...summary },
    reasons: { ...result.reasons, ...reasons },
  });

  it('on the gears name the quickest one and what it costs', () => {
    const gears = launched.series['gears']!;
    const times = Float64Array.of(Number.NaN, 9.5, 10, 8);
    const put = (values: Float64Array): Result => ({
      ...launched,
      series: {
        ...launched.series,
        gears: { ...gears, time_to_100_km_h_s: { ...gears['time_to_100_km_h_s']!, values } },
      },
    });
    expect(plain(gearWords(put(times), 'metric'))).toBe(
      'Left in gear 2 it is quickest to 100 km/h: 9.50 s, 1.50 s more than with changing gears.',
    );
    expect(plain(gearWords(put(Float64Array.of(Number.NaN, 9.5, 9, 9.2)), 'metric'))).toContain('Left in gear 3');
    expect(plain(gearWords(put(Float64Array.of(Number.NaN, 9.5, 9, 9.2)), 'metric'))).toContain('0.20 s less');
    expect(gearWords(put(Float64Array.of(NaN, NaN, NaN, 9.2)), 'metric')).toContain('In no gear alone');
    expect(gearWords(launch(testCar, options), 'metric')).toBe('');
    expect(gearsTable(launch(testCar, options), 'metric')).toBeNull();
  });

  it('on traction control say what it is worth, or nothing where it is not known', () => {
    const told = changed(launched, {
      time_to_100_km_h: 8,
      time_without_control: 9.1,
      control_worth: 1.1,
      slip_energy: 36_000,
      slip_energy_with_control: 36_000,
      slip_energy_without_control: 180_000,
    });
    expect(plain(verdict(told, 'metric').control)).toBe(
      'Without traction control 100 km/h would take 9.10 s, 1.10 s more than with the slip held at its best, ' +
        'and 50.0 Wh instead of 10.0 Wh would go into the tyres as heat.',
    );
    expect(plain(controlTable(told, 'metric')?.html ?? '')).toMatch(/8\.00 s.*8\.00 s.*9\.10 s/s);
    expect(plain(verdict(changed(told, { control_worth: 0.001 }), 'metric').control)).toContain('save nothing');
    const unknown = changed(told, { time_without_control: null });
    expect(verdict(unknown, 'metric').control).toBe('');
    expect(controlTable(unknown, 'metric')).toBeNull();
  });

  it('do not praise tyres that spin', () => {
    const spinning = changed(launched, {
      grip_withheld: 0,
      control_worth: 1.5,
      slip_energy: 180_000,
      slip_energy_without_control: 180_000,
      time_to_100_km_h: 10,
      time_unlimited_grip: 8,
    });
    expect(verdict(spinning, 'metric').wasted).toBe('yes');
    expect(plain(verdict(spinning, 'metric').tyres)).toContain('the driven wheels spin: 50.0 Wh go into the tyres');
  });

  it('on the sheet give the reason in place of a number', () => {
    expect(
      sheetWords(changed(sheeted, { thirty_minute_speed: null }, { thirty_minute_speed: 'it is cold' }), 'metric'),
    ).toContain('30-minute speed: no answer, it is cold;');
  });

  it('on repeated launches say when it slows down and why', () => {
    expect(plain(repeatWords(repeated, 'metric'))).toMatch(
      /^\d+ launches to 100 km\/h: the first takes .* From launch \d+ on it is more than 5 % slower: heat holds it back longer\. The drive unit gets to \d+ °C\.$/,
    );
    const even = changed(repeated, { slower_run: null, slowed_by: null, slowing: 0 });
    expect(plain(repeatWords(even, 'metric'))).toContain('None is more than 5 % slower than the first.');
  });
});

describe('the picture of repeated launches', () => {
  it('is drawn with the times above and the temperature below, at both widths', async () => {
    const picture = repeatedLaunches(repeated, 'metric');
    for (const width of [340, 720]) {
      const { svg } = await draw(picture.spec(width), 'p');
      expect(svg).toContain('Temperature');
    }
    expect(picture.table.rows).toHaveLength(repeated.summary['runs'] as number);
    expect(picture.table.columns).toEqual(['launch', 'time to the target speed, s', 'drive unit at the end, °C']);
  });

  it('shows the charge where no heat is modelled', async () => {
    const cold = repeat(testCar, { ...options, times: 2, pause: 30 });
    expect((await draw(repeatedLaunches(cold, 'metric').spec(720), 'p')).svg).toContain('State of charge');
  });
});
