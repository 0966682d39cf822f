/** The ways in which loggers of several countries write times, headers and numbers: common practice, no source. */
import { describe, expect, it } from 'vitest';
import { LogError, type LogOptions, readLog } from '../../src/cycles/log.ts';
import { distanceOf } from '../../src/cycles/statistics.ts';
import type { Schedule } from '../../src/cycles/schedule.ts';

const driveOf = (text: string, options?: LogOptions): Schedule => {
  const [part] = readLog(text, options).parts;
  if (part?.kind !== 'leg') throw new Error('no drive');
  return part.schedule;
};
const problemsOf = (text: string, options?: LogOptions): readonly string[] => {
  try {
    readLog(text, options);
  } catch (error) {
    if (!(error instanceof LogError)) throw error;
    return [error, ...error.others].map(({ place, message }) => `${place.line}:${place.column} ${message}`);
  }
  return [];
};

describe('times with a date', () => {
  it.each([
    ['31.01.2026 23:59:58', '31.01.2026 23:59:59', '01.02.2026 00:00:00'],
    ['31.01.26, 23:59:58,5', '31.01.26, 23:59:59,5', '01.02.26, 00:00:00,5'],
    ['01/31/2026 11:59:58 PM', '01/31/2026 11:59:59 PM', '02/01/2026 12:00:00 AM'],
    ['1/31/2026 11:59:58.250 p.m.', '1/31/2026 11:59:59.250 p.m.', '2/1/2026 12:00:00.250 a.m.'],
    ['31/01/2026 23:59:58', '31/01/2026 23:59:59', '01/02/2026 00:00:00'],
    ['01/31/2026 23:59:58', '01/31/2026 23:59:59', '02/01/2026 00:00:00'],
    ['11:59:58 AM', '11:59:59 AM', '12:00:00 PM'],
    ['03/04/2026 10:00:00', '03/04/2026 10:00:01', '03/04/2026 10:00:02'],
  ])('%s, %s and %s are a second apart', (...times) => {
    const rows = times.map((time, k) => `${time};${10 * k}`);
    expect([...driveOf(`zeit;speed_kmh\n${rows.join('\n')}`).time]).toEqual([0, 1, 2]);
  });

  it('may be read in two ways only once the date changes: that is an error', () => {
    const text = 'time;speed_kmh\n03/04/2026 23:59:59;10\n04/04/2026 00:00:00;20';
    expect(problemsOf(text)).toEqual([
      '3:1 the date changes from "03/04/2026" to "04/04/2026", and day or month may come first',
    ]);
  });

  it('are days of the calendar', () => {
    expect(problemsOf('time;speed_kmh\n28.02.2026 10:00:00;1\n30.02.2026 10:00:00;2')).toEqual([
      '3:1 "30.02.2026 10:00:00" is no time as in the first row',
    ]);
    expect(problemsOf('time;speed_kmh\n01/31/2026 11:00:00 AM;1\n01/31/2026 13:00:00 PM;2').join()).toMatch(
      /is no time/,
    );
  });
});

describe('headers', () => {
  const METRES = 100 / 3.6;
  it.each([
    'Zeit [s];Geschwindigkeit [km/h]',
    'Zeit (Sekunden);GPS Geschwindigkeit (km/h)',
    'Temps (s);Vitesse (km/h)',
    'Tiempo [s];Velocidad [km/h]',
    'Tempo [s];Velocità [km/h]',
    'Zeit [s];Tempo [km/h]',
    'Tijd (s);Snelheid (km/h)',
    'Czas [s];Prędkość [km/h]',
    'seconds;km/h',
    'Elapsed time (s);Speed (OBD) (km/h)',
    'Time (s);Speed Over Ground (kilometers/hour)',
  ])('%s', header => {
    expect(distanceOf(driveOf(`${header}\n0;100\n1;100\n`))).toBeCloseTo(METRES, 9);
  });

  it('of positions in other languages', () => {
    const rows = '0;45;7;100\n1;45;7,0002;100\n2;45;7,0004;101\n';
    for (const header of [
      'Zeit [s];Breitengrad;Längengrad;Höhe [m]',
      'Temps [s];Latitude;Longitude;Altitude [m]',
      'Tiempo [s];Latitud;Longitud;Altitud [m]',
    ]) {
      expect(distanceOf(driveOf(`${header}\n${rows}`)), header).toBeGreaterThan(30);
    }
  });

  it('whose columns are named', () => {
    const text = 'Device Time,Wheel (km/h),Speed (km/h),t\n0,50,0,x\n1,50,100,x\n';
    expect(problemsOf(text).join()).toMatch(/has no unit|second column/);
    const options = { columns: { time: 'device time', speed: 'Wheel (km/h)' }, units: { time: 's' } };
    expect(distanceOf(driveOf(text, options))).toBeCloseTo(50 / 3.6, 9);
    expect(problemsOf(text, { columns: { speed: 'Wheels' } })[0]).toBe('1:1 no column is called "Wheels"');
  });
});

describe('what is wrong in a log', () => {
  it('is told at once, each with what stands there', () => {
    const text = 'time_s,speed_kmh\n0,0\n1,fast\n2,-20\n3\n4,10\n3.5,10\n3.6,11\n5,"1,2"\n6,x y\n';
    const found = problemsOf(text);
    expect(found.map(each => each.split(' ')[0])).toEqual(['3:3', '4:3', '5:1', '7:1', '9:3', '10:3']);
    expect(found[0]).toContain('"fast"');
    expect(found[1]).toContain('-20');
    expect(found[2]).toContain('"3"');
    expect(found[3]).toContain('"3.5"');
    expect(found[4]).toContain('"1,2"');
    expect(found[5]).toContain('"x y"');
  });

  it('is told of every column of a header', () => {
    expect(problemsOf('time,speed,altitude\n0,0,1\n1,1,1\n')).toEqual([
      '1:1 the column time has no unit',
      '1:6 the column speed has no unit',
      '1:12 the column altitude has no unit',
    ]);
    expect(problemsOf('time [ells],speed [furlong]\n0,0\n')).toHaveLength(2);
  });

  it('ends after twenty problems', () => {
    const rows = Array.from({ length: 500 }, (_, i) => `${i},x${i}`);
    const found = problemsOf(`time_s,speed_kmh\n${rows.join('\n')}`);
    expect(found).toHaveLength(21);
    expect(found.at(-1)).toMatch(/20 problems up to here/);
  });
});
