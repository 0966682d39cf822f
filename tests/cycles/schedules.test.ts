import { describe, expect, it } from 'vitest';
import { isScheduleName, scheduleNamed, scheduleNames } from '../../src/cycles/schedules.ts';
import { distanceOf, statistics } from '../../src/cycles/statistics.ts';

// Distances and checksums against published figures: tests/published/checks/cycles.ts.

describe.each(scheduleNames)('the schedule %s', name => {
  const { time, speed, slope, phases, title, source } = scheduleNamed(name);

  it('has ascending times from 0 and speeds that begin and end at rest', () => {
    expect(speed.length).toBe(time.length);
    expect(time[0]).toBe(0);
    expect(time.every((t, i) => i === 0 || t > time[i - 1]!)).toBe(true);
    expect(speed.every(v => v >= 0 && v < 40)).toBe(true);
    expect([speed[0], speed.at(-1)]).toEqual([0, 0]);
    expect(slope).toBeNull();
  });

  it('says what it is and where it comes from', () => {
    expect(title.length).toBeGreaterThan(3);
    expect(source).toMatch(/CFR|UN /);
  });

  it('has phases that follow each other to its end', () => {
    for (const [k, phase] of phases.entries()) expect(phase.from).toBe(k === 0 ? 0 : phases[k - 1]!.to);
    if (phases.length > 0) expect(phases.at(-1)!.to).toBe(time.at(-1));
  });
});

describe('the schedules', () => {
  it('are exact: whole numbers of 0.1 mph or 0.1 km/h', () => {
    // 1 mi is 1609.344 m exactly; 56.7 mph and 131.3 km/h by hand.
    expect(Math.max(...scheduleNamed('udds').speed)).toBe(25.347168);
    expect(Math.max(...scheduleNamed('wltc').speed)).toBe(1313 / 36);
    for (const v of scheduleNamed('us06').speed)
      expect(Math.abs(v / 0.044704 - Math.round(v / 0.044704))).toBeLessThan(1e-9);
    for (const v of scheduleNamed('wltc').speed) expect(Math.abs(v * 36 - Math.round(v * 36))).toBeLessThan(1e-9);
  });

  it('are worked out once', () => {
    expect(scheduleNamed('wltc')).toBe(scheduleNamed('wltc'));
    expect(isScheduleName('wltc_high')).toBe(true);
    expect(isScheduleName('toString')).toBe(false);
  });

  it('have the WLTC as the sum of its phases', () => {
    const parts = (['wltc_low', 'wltc_medium', 'wltc_high', 'wltc_extra_high'] as const).map(scheduleNamed);
    expect(scheduleNamed('wltc').phases.map(({ from, to }) => [from, to])).toEqual([
      [0, 589],
      [589, 1022],
      [1022, 1477],
      [1477, 1800],
    ]);
    expect(parts.reduce((sum, part) => sum + distanceOf(part), 0)).toBeCloseTo(distanceOf(scheduleNamed('wltc')), 8);
  });

  it('have the FTP-75 as the UDDS and its first 505 s again, and say that the stop is not in it', () => {
    const [udds, ftp] = [scheduleNamed('udds'), scheduleNamed('ftp75')];
    expect(ftp.speed.slice(0, 1370)).toEqual(udds.speed);
    expect(ftp.speed.slice(1369)).toEqual(udds.speed.slice(0, 506));
    expect(ftp.title).toContain('without its stop of 10 min');
  });

  it('have the old European cycle without gear-change holds, and say so', () => {
    const nedc = scheduleNamed('nedc');
    expect(nedc.title).toContain('without gear-change holds');
    expect(nedc.source).toContain('0.14 %');
    expect(distanceOf(nedc) / 11_007 - 1).toBeCloseTo(0.0014, 4);
    // The elementary cycle stands 60 s of 195 s (UN Regulation No. 83: 30.8 % stop, from memory).
    expect(statistics(scheduleNamed('nedc_urban')).stopShareOfTime).toBeCloseTo(60 / 195, 12);
  });
});
