import { describe, expect, it } from 'vitest';
import { scheduleNamed } from '../../src/cycles/schedules.ts';
import { distanceOf } from '../../src/cycles/statistics.ts';
import type { Leg, Trip } from '../../src/cycles/trip.ts';
import { CellProblems } from '../../src/notebook/cells/kind.ts';
import { withSpec } from '../../src/notebook/cells/fields.ts';
import { readTrip, tripFields, type TripRead, withoutTrip } from '../../src/notebook/cells/trip.ts';
import { UnreadableFile } from '../../src/notebook/files/unreadable-file.ts';
import { readYaml } from '../../src/notebook/document/located.ts';
import { NotebookProblem, problemText } from '../../src/notebook/document/problem.ts';
import { readFields, type ReadContext } from '../../src/notebook/fields/read.ts';

const FILES: { readonly [path: string]: string } = {
  'drive.csv': 'time_s,speed_kmh\n0,0\n10,36\n20,36\n30,0\n',
  'rolling.csv': 'time_s,speed_kmh\n0,36\n10,36\n',
  'bare.csv': 'time,speed\n0,0\n10,36\n20,0\n',
  'named.csv': 'clock,left wheel,right wheel\n0,0,0\n10,36,0\n20,0,0\n',
  'bad.csv': 'time_s,speed_kmh\n0,0\n10,x\n',
  'jump.csv': 'time_s,speed_kmh\n0,50\n1,50\n900,50\n901,50\n',
  'parked.csv': 'time_s,speed_kmh\n0,0\n10,36\n20,0\n3620,0\n3630,36\n3640,0\n',
  'hill.csv': `time_s,speed_kmh,altitude_m\n${Array.from({ length: 60 }, (_, i) => `${i},36,${i / 2}`).join('\n')}`,
};

const context: ReadContext = {
  path: 'week',
  system: 'metric',
  part: () => undefined,
  parts: () => [],
  cell: () => undefined,
  cells: () => [],
  formula: () => {
    throw new Error('no formula here');
  },
};

function readFile(path: string): string {
  const text = FILES[path];
  if (text === undefined) throw new UnreadableFile(`cannot read "${path}": no such file`);
  return text;
}

/** As a cell does it. */
function read(text: string): TripRead {
  const map = readYaml(text, { file: 'week.md', line: 1 });
  const { values, problems } = readFields(map, tripFields, context);
  const [first, ...others] = problems;
  if (first !== undefined) throw new CellProblems([first, ...others]);
  return withSpec(map, 'week', () => readTrip(values, 'week', readFile));
}

function complaint(text: string): string {
  try {
    read(text);
  } catch (error) {
    if (error instanceof NotebookProblem) return problemText({ ...error.data, source: '' });
    if (error instanceof CellProblems) return problemText({ ...error.problems[0], source: '' });
    throw error;
  }
  return 'nothing';
}

const legs = ({ parts }: Trip): Leg[] => parts.filter((part): part is Leg => part.kind === 'leg');

describe('what is driven', () => {
  it('is a schedule by name', () => {
    const { trip, notes } = read('schedule: wltc');
    expect(trip).toEqual({
      title: 'WLTC, class 3b',
      parts: [{ kind: 'leg', schedule: scheduleNamed('wltc'), load: null }],
    });
    expect(notes).toEqual([]);
  });

  it('is a steady speed for a distance or a time, driven as it is', () => {
    const { trip } = read('speed: 100 km/h\ndistance: 50 km');
    expect(trip.title).toBe('steady 100 km/h');
    expect(distanceOf(legs(trip)[0]!.schedule)).toBeCloseTo(50_000, 8);
    expect(legs(read('speed: 36 km/h\ntime: 30 min').trip)[0]!.schedule.time[1]).toBe(1800);
  });

  it('is a log, with what was mended in it', () => {
    const { trip, notes } = read('log: drive.csv');
    expect(distanceOf(legs(trip)[0]!.schedule)).toBeCloseTo(200, 9);
    expect([trip.title, notes]).toEqual(['recorded drive “drive”', []]);
    const parked = read('log: parked.csv');
    expect(parked.trip.parts.map(({ kind }) => kind)).toEqual(['leg', 'stop', 'leg']);
    expect(parked.notes).toEqual([
      'parked.csv: 1 pause of more than 5 min taken as a stop, the car switched off (the first in line 5)',
    ]);
    const hill = read('log: hill.csv');
    expect(legs(hill.trip)[0]!.schedule.slope![5]).toBeCloseTo(0.05, 3);
    expect(hill.notes).toEqual([
      'hill.csv: altitude smoothed over 100 m to either side: 29.5 m of climb, slopes up to 5 %',
    ]);
  });

  it('takes the units of a log from the cell where the log does not say them', () => {
    const { trip } = read('log: bare.csv\ntime_unit: s\nspeed_unit: km/h');
    expect(distanceOf(legs(trip)[0]!.schedule)).toBeCloseTo(100, 9);
  });

  it('is a trip of legs, repeats, loads, slopes and stops', () => {
    const { trip, notes } = read(
      [
        'trip:',
        '  - { schedule: udds, times: 2, load: 150 kg }',
        '  - { stop: 8 h }',
        '  - { speed: 90 km/h, distance: 10 km, slope: 2 % }',
        '  - { log: rolling.csv }',
      ].join('\n'),
    );
    expect(trip.title).toBe('2 times UDDS, stop of 8 h, steady 90 km/h, recorded drive “rolling”');
    expect(trip.parts.map(part => (part.kind === 'stop' ? part.seconds : part.load))).toEqual([
      150,
      150,
      28_800,
      null,
      null,
    ]);
    const [first, second, motorway, last] = legs(trip);
    expect(first!.schedule).toBe(scheduleNamed('udds'));
    expect(second).toEqual(first);
    expect(distanceOf(motorway!.schedule)).toBeCloseTo(10_000, 8);
    expect([...motorway!.schedule.speed]).toEqual([0, 25, 25, 10]);
    expect([...motorway!.schedule.slope!]).toEqual([0.02, 0.02, 0.02]);
    expect([...last!.schedule.speed]).toEqual([10, 10, 0]);
    expect(notes).toEqual([
      'steady legs are reached and left with 1 m/s2, within their distance or time',
      '1 ramp of 1 m/s2, 50 m in all, added where legs do not meet at one speed',
    ]);
  });

  it('is a mix by shares of the way', () => {
    const { trip, notes } = read(
      'mix:\n  - { schedule: udds, share: 55 %, load: 80 kg }\n  - { schedule: hwfet, share: 45 % }',
    );
    expect(trip.title).toBe('mix of UDDS and HWFET');
    expect(
      legs(trip)
        .map(({ load, schedule }) => [schedule.title, load])
        .slice(0, 3),
    ).toEqual([
      ['UDDS', 80],
      ['HWFET', null],
      ['UDDS', 80],
    ]);
    expect(notes).toEqual([
      'the mix is UDDS 5 times for 54.8 % of the way (55 % asked), HWFET 3 times for 45.2 % of the way (45 % asked)',
    ]);
    expect(
      legs(read('legs: 3\nmix: [{ schedule: udds, share: 55 % }, { schedule: hwfet, share: 45 % }]').trip).length,
    ).toBe(3);
  });

  it('gives a steady speed of a mix that says no length what makes up its share exactly, in pieces no longer than the other schedules', () => {
    const shares = (text: string) => {
      const driven = new Map<string, number>();
      for (const { schedule } of legs(read(text).trip)) {
        driven.set(schedule.title, (driven.get(schedule.title) ?? 0) + distanceOf(schedule));
      }
      const whole = [...driven.values()].reduce((sum, metres) => sum + metres, 0);
      return [...driven.values()].map(metres => metres / whole);
    };
    const half = shares('mix: [{ schedule: wltc, share: 60 % }, { speed: 100 km/h, share: 40 % }]');
    expect(half[0]).toBeCloseTo(0.6, 9);
    expect(half[1]).toBeCloseTo(0.4, 9);
    const little = 'mix: [{ schedule: wltc, share: 5 % }, { speed: 100 km/h, share: 95 % }]';
    expect(Math.abs((shares(little)[0] ?? 0) - 0.95)).toBeLessThan(0.01);
    const lengths = legs(read(little).trip).map(({ schedule }) => distanceOf(schedule));
    expect(Math.max(...lengths)).toBeLessThan(23_300);
    const speeds = shares('mix: [{ speed: 50 km/h, share: 30 % }, { speed: 100 km/h, share: 70 % }]');
    expect(Math.max(...speeds)).toBeCloseTo(0.7, 9);
  });

  it('takes the units and the columns of each log from its row', () => {
    const { trip } = read(
      'trip:\n  - { log: bare.csv, time_unit: s, speed_unit: km/h }\n  - { log: bare.csv, time_unit: s, speed_unit: m/s }',
    );
    const [first, second] = legs(trip);
    expect(distanceOf(second!.schedule) / distanceOf(first!.schedule)).toBeCloseTo(3.6, 9);
    const named = read('log: named.csv\ncolumns: { time: clock, speed: "left wheel" }\ntime_unit: s\nspeed_unit: km/h');
    expect(distanceOf(legs(named.trip)[0]!.schedule)).toBeCloseTo(100, 6);
  });

  it('leaves the other values of the cell to it', () => {
    expect(withoutTrip({ schedule: 'wltc', timeUnit: 's', temperature: 280, slope: 0.1 })).toEqual({
      temperature: 280,
      slope: 0.1,
    });
  });
});

describe('what is wrong with it', () => {
  it.each([
    ['legs: 3', 'week.md:1:1: week: does not say what is driven; expected schedule: wltc, log: drive.csv'],
    ['schedule: wtlc', 'week.md:1:11: week.schedule: unknown word "wtlc"; expected'],
    ['schedule: wtlc', 'did you mean "wltc"?'],
    ['schedule: wltc\nlog: drive.csv', 'week.md:2:6: week.log: stands beside schedule; expected one of the two'],
    ['schedule: wltc\ntrip: [{ stop: 8 h }]', 'week.md:2:1: week.trip: stands beside schedule'],
    ['schedule: wltc\ntime: 5 min', 'week.md:2:7: week.time: goes with a speed, and a schedule has its own'],
    ['schedule: wltc\nlegs: 3', 'week.md:2:7: week.legs: does not go with schedule'],
    ['schedule: wltc\nspeed_unit: mph', 'week.md:2:13: week.speed_unit: is for a log, and there is none'],
    ['speed: 100 km/h', 'week.md:1:8: week.speed: has neither a distance nor a time'],
    ['speed: 100 km/h\ndistance: 5 km\ntime: 5 min', 'week.md:3:7: week.time: stands beside distance'],
    ['trip:\n  - { schedule: udds }\n  - { load: 80 kg }', 'week.md:3:5: week.trip[2]: does not say what is driven'],
    [
      'trip:\n  - { stop: 8 h, load: 80 kg }',
      'week.md:2:24: week.trip[1].load: stands beside stop; expected a row of its own',
    ],
    ['trip:\n  - { stop: 8 h }', 'week.md:1:1: week.trip: has no leg'],
    ['trip:\n  - { schedule: udds, times: 1.5 }', 'week.md:2:30: week.trip[1].times: 1.5 is not a whole number'],
    [
      'trip:\n  - { log: hill.csv, slope: 2 % }',
      'week.md:2:29: week.trip[1].slope: stands beside a log that has its own altitude',
    ],
    [
      'trip:\n  - { schedule: udds }\n  - { speed: 90 km/h, time: 40 s }',
      'week.md:3:5: week.trip[2]: steady 90 km/h for 40 s is too short',
    ],
    ['mix: [{ schedule: udds, share: 100 % }]', 'week.md:1:1: week.mix: has fewer than two schedules'],
    [
      'mix: [{ schedule: udds, share: 50 % }, { schedule: hwfet, share: 45 % }]',
      'week.mix: has shares of 95 % together; expected shares of 100 %',
    ],
    ['mix: [{ schedule: udds }, { schedule: hwfet, share: 45 % }]', 'week.mix[1].share: is missing'],
    [
      'mix: [{ log: parked.csv, share: 50 % }, { schedule: hwfet, share: 50 % }]',
      'week.mix[1].log: has a stop of more than 5 min in it',
    ],
    [
      'mix: [{ schedule: udds, share: 50 % }, { schedule: hwfet, share: 50 % }]\nlegs: 2.5',
      'week.md:2:7: week.legs: 2.5 is not a whole number',
    ],
    ['log: none.csv', 'week.md:1:6: week.log: cannot read "none.csv": no such file; expected a CSV file in the folder'],
    ['trip:\n  - { schedule: udds, altitude_unit: m }', 'week.trip[1].altitude_unit: is for a log'],
    ['log: bad.csv', 'bad.csv:3:4: "x" is not a number; expected a number'],
    ['log: bare.csv', 'bare.csv:1:1: the column time has no unit'],
    ['log: jump.csv', 'jump.csv:4:1: nothing was recorded for 899 s before this row'],
  ])('%j', (text, message) => {
    expect(complaint(text)).toContain(message);
  });

  it('is shown with the line of the log', () => {
    try {
      read('log: jump.csv');
    } catch (error) {
      expect(error).toMatchObject({ data: { file: 'jump.csv', line: 4, source: '900,50' } });
      return;
    }
    throw new Error('nothing was thrown');
  });
});
