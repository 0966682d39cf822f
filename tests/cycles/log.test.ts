import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createLogReader, LogError, type LogOptions, type LogReading, readLog } from '../../src/cycles/log.ts';
import type { Schedule } from '../../src/cycles/schedule.ts';
import { scheduleNamed } from '../../src/cycles/schedules.ts';
import { distanceOf, statistics } from '../../src/cycles/statistics.ts';

/** The only drive of a log. */
function driveOf({ parts }: LogReading): Schedule {
  const [first, second] = parts;
  if (first?.kind !== 'leg' || second !== undefined) throw new Error(`${parts.length} parts`);
  return first.schedule;
}

const repairsOf = ({ repairs }: LogReading): unknown[] => repairs.map(({ kind, count, line }) => [kind, count, line]);

const csv = (header: string, rows: readonly (readonly (number | string)[])[], separator = ','): string =>
  [header, ...rows.map(row => row.join(separator))].join('\n');

describe('a log of time and speed', () => {
  const rows = [0, 1, 2, 3, 4].map(t => [t, 18 * t]);

  it.each([
    ['time_s,speed_kmh', 'names as this project writes them'],
    ['time_s,speed_km_h', 'a unit in pieces'],
    ['time [s],speed [km/h]', 'brackets'],
    ['Time (s), Speed (km/h)', 'parentheses, capitals, blanks'],
    ['"Elapsed time [sec]","GPS speed [kph]"', 'quotes, other words'],
    ['t_s,v_kmh', 'letters'],
    ['timeS,speedKmh', 'camel case'],
    ['\uFEFFtime s,speed km/h', 'a byte order mark, blanks'],
    ['# a drive\n\n// of mine\ntime_s,speed_kmh', 'comments and blank lines before'],
  ])('knows its columns from the header %j: %s', header => {
    const reading = readLog(csv(header, rows));
    const { time, speed, slope } = driveOf(reading);
    expect([...time]).toEqual([0, 1, 2, 3, 4]);
    expect([...speed]).toEqual([0, 5, 10, 15, 20].map(v => expect.closeTo(v, 12)));
    expect(slope).toBeNull();
    expect([reading.repairs, reading.notes, reading.rows]).toEqual([[], [], 5]);
    expect(reading.distance).toBeCloseTo(40, 10);
  });

  // Factors: NIST Special Publication 811, appendix B (mile, nautical mile, foot).
  it.each([
    ['speed_mph', 0.44704],
    ['speed [m/s]', 1],
    ['speed_m_s', 1],
    ['speed [kn]', 1852 / 3600],
    ['speed (knots)', 1852 / 3600],
  ])('takes the unit of %s', (header, factor) => {
    const { speed } = driveOf(
      readLog(
        csv(`time_s,${header}`, [
          [0, 0],
          [1, 5],
          [2, 10],
        ]),
      ),
    );
    expect(speed[2]).toBeCloseTo(10 * factor, 12);
  });

  it.each([
    ['time_ms', [0, 1000, 2500], [0, 1, 2.5]],
    ['time [ms]', [1_700_000_000_000, 1_700_000_001_000, 1_700_000_002_500], [0, 1, 2.5]],
    ['time_s', ['1700000000.1', '1700000001.1', '1700000002.6'], [0, 1, 2.5]],
    ['time_min', [10, 10.5, 11], [0, 30, 60]],
    ['time', ['23:59:58', '24:00:00', '24:00:01.25'], [0, 2, 3.25]],
    ['time [hh:mm:ss]', ['07:00:00', '07:00:01', '07:00:02.5'], [0, 1, 2.5]],
    ['timestamp', ['2026-12-31T23:59:59Z', '2027-01-01T00:00:00.5Z', '2027-01-01T00:00:01Z'], [0, 1.5, 2]],
    ['timestamp', ['2026-03-01T12:00:00+01:00', '2026-03-01T11:00:01Z', '2026-03-01T11:00:02.125Z'], [0, 1, 2.125]],
    ['date time', ['2026-03-01 12:00:00', '2026-03-01 12:00:01', '2026-03-01 12:00:02'], [0, 1, 2]],
  ])('reads times under %s: %j', (header, times, seconds) => {
    const { time } = driveOf(
      readLog(
        csv(
          `${header},speed_kmh`,
          times.map((t, i) => [t, i]),
        ),
      ),
    );
    expect([...time]).toEqual(seconds);
  });

  it('takes semicolons with decimal commas, tabs, CR LF, lone CR, a line of units, trailing separators, and says so', () => {
    const commas = readLog('time_s;speed_kmh\r\n0;0\r\n1;12,5\r\n2;25,25\r\n');
    expect(driveOf(commas).speed[2]).toBeCloseTo(25.25 / 3.6, 12);
    expect(commas.notes).toEqual(['semicolons set off the columns, commas are decimal points']);
    const tabs = readLog('time\tspeed\ns\tkm/h\n0\t0\n1\t10.5');
    expect(driveOf(tabs).speed[1]).toBeCloseTo(10.5 / 3.6, 12);
    expect(tabs.notes).toEqual(['tabs set off the columns']);
    expect(driveOf(readLog('time_s,speed_kmh\r0,0\r1,36\r')).speed[1]).toBeCloseTo(10, 12);
    expect(driveOf(readLog('time_s;speed_kmh\n0;"0"\n1;"12,5";\n')).speed[1]).toBeCloseTo(12.5 / 3.6, 12);
  });

  it('takes units that the header does not say from options, and tells what it passed over', () => {
    const reading = readLog(
      csv('rpm,time,speed limit,speed', [
        [900, 0, 50, 0],
        [950, 1000, 50, 36],
      ]),
      {
        units: { time: 'ms', speed: 'kmh' },
      },
    );
    expect([...driveOf(reading).speed]).toEqual([0, expect.closeTo(10, 12)]);
    expect(reading.notes).toEqual(['2 columns passed over: "rpm", "speed limit"']);
  });

  it('is the same however its chunks are cut', () => {
    const text = `\uFEFF${csv('time_s;speed_kmh', scheduleRows(scheduleNamed('nycc')), ';').replaceAll('\n', '\r\n')}\r\n`;
    const whole = readLog(text);
    expect(whole.rows).toBe(599);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: text.length }), { maxLength: 30 }), cuts => {
        const reader = createLogReader();
        let from = 0;
        for (const cut of [...cuts.toSorted((a, b) => a - b), text.length]) {
          reader.push(text.slice(from, cut));
          from = cut;
        }
        expect(reader.finish()).toEqual(whole);
      }),
      { numRuns: 30 },
    );
  });

  it.each(['wltc', 'udds', 'hwfet', 'us06', 'nycc', 'nedc', 'ftp75'] as const)(
    'of the %s is that schedule, unrepaired',
    name => {
      const schedule = scheduleNamed(name);
      const reading = readLog(csv('time_s,speed [m/s]', scheduleRows(schedule)));
      expect(driveOf(reading).time).toEqual(schedule.time);
      expect(driveOf(reading).speed).toEqual(schedule.speed);
      expect(reading.repairs.filter(({ kind }) => kind !== 'gap')).toEqual([]);
    },
  );
});

function scheduleRows({ time, speed }: Schedule): number[][] {
  return [...time].map((t, i) => [t, speed[i]!]);
}

describe('repairs of a speed', () => {
  const steps = (count: number, dt = 1): number[][] => Array.from({ length: count }, (_, i) => [i * dt, 50]);

  it('bridge gaps by a straight line, and say how long', () => {
    const rows = [...steps(10), [20, 60], [21, 60], [60, 60], [61, 60]];
    const reading = readLog(csv('time_s,speed_kmh', rows));
    expect(reading.repairs).toEqual([
      { kind: 'gap', count: 2, line: 12, text: '2 gaps of more than 5 s bridged by a straight line, the longest 39 s' },
    ]);
    expect(reading.distance).toBeCloseTo((9 * 50 + 11 * 55 + 41 * 60) / 3.6, 9);
  });

  it('take a pause of more than 5 min at rest as a stop', () => {
    const rows = [
      [0, 0],
      [10, 50],
      [20, 0],
      [3620, 0],
      [3630, 50],
      [3640, 2],
      [9000, 0],
      [20_000, 0],
      [20_010, 50],
    ];
    const reading = readLog(csv('time_s,speed_kmh', rows));
    expect(reading.parts.map(part => (part.kind === 'stop' ? part.seconds : [...part.schedule.time]))).toEqual([
      [0, 10, 20],
      3600,
      [0, 10, 20],
      16_360,
      [0, 10],
    ]);
    expect(repairsOf(reading)).toEqual([
      ['parked', 3, 5],
      ['alone', 1, 8],
    ]);
  });

  it('average rows of one time, and leave a row out that is sent twice', () => {
    const reading = readLog(
      csv('time_s,speed_kmh', [
        [0, 0],
        [1, 6],
        [1, 9],
        [1, 12],
        [2, 18],
        [1, 9],
        [3, 18],
        [2, 18],
        [4, 18],
      ]),
    );
    expect([...driveOf(reading).speed].map(v => Math.round(v * 3.6 * 1e9) / 1e9)).toEqual([0, 9, 18, 18, 18]);
    expect(repairsOf(reading)).toEqual([['duplicate', 4, 4]]);
  });

  it('leave rows without a reading out, and a last row that is cut off', () => {
    const reading = readLog('time_s,speed_kmh\n,5\n0,0\n1,\n2,NaN\n3,n/a\n4,36\n5,36\n-,5\n6');
    expect([...driveOf(reading).time]).toEqual([0, 4, 5]);
    expect(repairsOf(reading)).toEqual([
      ['missing', 5, 2],
      ['cut off', 1, 10],
    ]);
  });

  it('put a straight line in the place of speeds that no car can jump to', () => {
    const rows = steps(40);
    rows[0]![1] = 250;
    rows[10]![1] = 0;
    rows[20]![1] = 180;
    rows[21]![1] = 181;
    const reading = readLog(csv('time_s,speed_kmh', rows));
    expect(repairsOf(reading)).toEqual([['outlier', 4, 2]]);
    expect(statistics(driveOf(reading)).maxSpeed).toBeCloseTo(50 / 3.6, 12);
    expect(reading.distance).toBeCloseTo((38 * 50) / 3.6, 9);
    expect(reading.distanceRead).toBeGreaterThan(reading.distance);
  });

  it('take a trace below 0 as 0, and a crawl that lasts as stand-still', () => {
    const rows = [
      [0, -0.4],
      [1, 20],
      [2, 20],
      [3, 0],
      [4, 0.5],
      [5, 0.3],
      [6, 0.6],
      [7, 0.2],
      [8, 0.4],
      [9, 0.4],
      [10, 20],
    ];
    const reading = readLog(csv('time_s,speed_kmh', rows));
    expect(repairsOf(reading)).toEqual([
      ['negative', 1, 2],
      ['stand-still', 1, 5],
    ]);
    expect(driveOf(reading).speed.slice(3, 10)).toEqual(new Float64Array(7));
  });

  it('average fine rows to one a second and keep the way, whatever the sampling', () => {
    const anyRows = fc
      .array(
        fc.record({
          dt: fc.double({ min: 0.02, max: 2.5, noNaN: true }),
          a: fc.double({ min: -4, max: 4, noNaN: true }),
        }),
        {
          minLength: 5,
          maxLength: 200,
        },
      )
      .map(pieces => {
        let [t, v] = [0, 15];
        return [
          [t, v],
          ...pieces.map(({ dt, a }) => {
            t += dt;
            v = Math.min(60, Math.max(1, v + a * dt));
            return [t, v];
          }),
        ];
      });
    fc.assert(
      fc.property(anyRows, rows => {
        const reading = readLog(csv('time_s,speed [m/s]', rows));
        const drive = driveOf(reading);
        const fine = rows.some(([t], i) => i > 0 && t! - rows[i - 1]![0]! < 0.45);
        expect(repairsOf(reading)).toEqual(fine ? [['resampled', 1, 2]] : []);
        expect(reading.distance / reading.distanceRead).toBeCloseTo(1, 11);
        expect(distanceOf(drive)).toBe(reading.distance);
        expect(drive.time.at(-1)).toBeCloseTo(rows.at(-1)![0]!, 12);
        expect(drive.speed.every(v => v >= 0)).toBe(true);
        const intervals = drive.time.slice(1).map((t, i) => t - drive.time[i]!);
        if (rows.at(-1)![0]! > 1) expect(Math.min(...intervals)).toBeGreaterThan(0.449);
      }),
    );
  });

  it('leave a stand-still at rest when 10 Hz are averaged', () => {
    const rows = Array.from({ length: 601 }, (_, i) => [i / 10, i < 300 ? 0 : Math.min(50, (i - 300) / 2)]);
    const drive = driveOf(readLog(csv('time_s,speed_kmh', rows)));
    expect(drive.time.length).toBe(61);
    expect(drive.speed.slice(0, 30)).toEqual(new Float64Array(30));
    // A straight ramp is its own mean.
    expect(drive.speed[35]).toBeCloseTo(25 / 3.6, 12);
  });
});

describe('a log of positions', () => {
  // On the parallel of 45 degrees a degree is 78.847 km (length of a degree on WGS 84, from memory).
  const LONGITUDE = 78_846.8;
  const fixes = (metres: readonly number[], dt = 1, noise: (i: number) => number = () => 0): number[][] =>
    metres.map((s, i) => [i * dt, 45 + noise(2 * i) / 111_132, 7 + (s + noise(2 * i + 1)) / LONGITUDE]);
  const read = (rows: readonly (readonly number[])[], options?: LogOptions): LogReading =>
    readLog(csv('time_s,lat,lon', rows), options);

  /** Rest 20 s, to 20 m/s at 2 m/s2, 30 s there, to rest at 2 m/s2, rest 20 s; 800 m. */
  const metresAt = (t: number): number => {
    const s = Math.min(Math.max(t - 20, 0), 50);
    if (s < 10) return s * s;
    return s < 40 ? 100 + 20 * (s - 10) : 800 - (50 - s) ** 2;
  };
  const course = (dt: number): number[] => Array.from({ length: Math.round(90 / dt) + 1 }, (_, i) => metresAt(i * dt));
  /** Some noise without chance: sines of rates that do not meet. */
  const wander = (i: number): number => 1.2 * Math.sin(0.7 * i) + 0.8 * Math.sin(1.9 * i + 1);

  it('gives the speeds and the way', () => {
    const reading = read(fixes(course(1)));
    expect(reading.repairs).toEqual([]);
    expect(reading.distance).toBeCloseTo(800, 1);
    const drive = driveOf(reading);
    expect(drive.speed[40]).toBeCloseTo(20, 3);
    expect(drive.speed[25]).toBeCloseTo(10, 1);
    expect([...drive.speed.slice(0, 20), ...drive.speed.slice(72)].every(v => v === 0)).toBe(true);
  });

  it('keeps a car still that wanders, and tells how much was taken out', () => {
    const still = (i: number): number => (i < 40 || i > 140 ? 0.6 * wander(i) : 0);
    const reading = read(fixes(course(1), 1, still));
    expect(repairsOf(reading)).toEqual([
      ['smoothed', 1, 2],
      ['stand-still', 2, 2],
    ]);
    expect(reading.repairs[1]?.text).toMatch(/the position wandered by \d+ m in 2 stand-stills/);
    expect(reading.distanceRead).toBeGreaterThan(830);
    expect(reading.distance).toBeGreaterThan(795);
    expect(reading.distance).toBeLessThan(812);
  });

  /** Normal noise without chance: a linear congruential generator (Numerical Recipes) and the method of Box and Muller. */
  const normal = (seed: number): (() => number) => {
    let state = 12_345 * seed;
    const even = (): number => (state = (1_664_525 * state + 1_013_904_223) % 2 ** 32) / 2 ** 32;
    return () => Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even());
  };

  it('smooths positions as what they are, measurements: noise of 1 m adds no way, and the ends of ramps stay', () => {
    const off: { way: number; start: number; end: number; steady: number }[] = [];
    for (let seed = 1; seed <= 8; seed++) {
      const noise = normal(seed);
      const reading = read(fixes(course(1), 1, () => noise()));
      expect(Number(/off by about ([\d.]+) m/.exec(reading.repairs[0]?.text ?? '')?.[1])).toBeCloseTo(1, 0);
      expect(reading.distanceRead).toBeGreaterThan(850);
      const { speed } = driveOf(reading);
      const at = (second: number, truth: number): number => (speed[second] ?? 0) - truth;
      // Positions give means between seconds, and the reader the mean of two: 0.5 and 19.5 m/s at the ends of the ramp.
      off.push({ way: reading.distance - 800, start: at(20, 0.5), end: at(30, 19.5), steady: at(45, 20) });
    }
    const rms = (key: 'way' | 'start' | 'end' | 'steady'): number =>
      Math.sqrt(off.reduce((sum, each) => sum + each[key] ** 2, 0) / off.length);
    expect(rms('way')).toBeLessThan(5);
    // A mean over 5 s would be off by 1 m/s at either end, the readings as they are by 0.7 m/s everywhere.
    expect(rms('start')).toBeLessThan(0.4);
    expect(rms('end')).toBeLessThan(0.4);
    expect(rms('steady')).toBeLessThan(0.2);
  });

  it.each([
    [0, 1e-4, 0.02],
    [0.3, 0.005, 0.15],
    [1, 0.01, 0.3],
    [3, 0.02, 0.6],
  ])('finds a schedule again under noise of %d m', (standard, way, rms) => {
    const { time, speed } = scheduleNamed('udds');
    const noise = normal(1);
    let metres = 0;
    const along = Array.from(time, (t, i) => {
      const last = Math.max(0, i - 1);
      return (metres += (((speed[i] ?? 0) + (speed[last] ?? 0)) / 2) * (t - (time[last] ?? 0)));
    });
    const reading = read(fixes(along, 1, () => standard * noise()));
    expect(Math.abs(reading.distance / metres - 1)).toBeLessThan(way);
    const found = driveOf(reading);
    // Positions give the means between seconds, and the reader the mean of two of them.
    const off = Array.from(found.speed, (v, i) => {
      const second = Math.round(found.time[i] ?? 0);
      const [before = 0, at = 0, after = 0] = [speed[second - 1], speed[second], speed[second + 1]];
      return v - (before + 2 * at + after) / 4;
    }).slice(1, -1);
    expect(Math.sqrt(off.reduce((sum, e) => sum + e * e, 0) / off.length)).toBeLessThan(rms);
  });

  it('leaves fixes out that no car can have jumped to, and rows without a fix', () => {
    const rows = fixes(course(1));
    rows[30]![1]! += 0.002;
    rows[45]![2]! += 3;
    rows[46]![2]! += 3;
    rows[0]![1] = 0;
    rows[0]![2] = 0;
    const reading = read(rows);
    expect(repairsOf(reading)).toEqual([
      ['missing', 1, 2],
      ['outlier', 3, 32],
    ]);
    expect(reading.distance).toBeCloseTo(800, 0);
    expect(reading.distanceRead).toBeGreaterThan(100_000);
  });

  it('averages the noise of 10 Hz', () => {
    const reading = read(fixes(course(0.1), 0.1, i => 0.5 * wander(i)));
    expect(repairsOf(reading).map(each => (each as unknown[])[0])).toEqual(['resampled', 'stand-still']);
    expect(reading.distanceRead).toBeGreaterThan(1000);
    expect(Math.abs(reading.distance - 800)).toBeLessThan(10);
    expect(driveOf(reading).time.length).toBe(91);
  });

  it('takes a long pause in one place as a stop, and one on the way as a straight line', () => {
    const first = fixes(course(1));
    const after = first.map(([t, lat, lon]) => [t! + 5000, lat!, lon! + 800 / LONGITUDE]);
    const away = after.map(([t, lat, lon]) => [t!, lat!, lon! + 5000 / LONGITUDE]);
    expect(read([...first, ...after]).parts.map(({ kind }) => kind)).toEqual(['leg', 'stop', 'leg']);
    const moved = read([...first, ...away]);
    expect(moved.parts.length).toBe(1);
    expect(moved.distance).toBeCloseTo(800 + 5000 + 800, 0);
    expect(repairsOf(moved)[0]).toEqual(['gap', 1, 93]);
  });

  it('leaves positions aside where there is a speed', () => {
    const rows = fixes(course(1)).map(row => [...row, 36]);
    const reading = readLog(csv('time_s,lat,lon,speed_kmh', rows));
    expect(reading.notes).toEqual(['the speeds are those of the speed column, not of the positions']);
    expect(reading.distance).toBeCloseTo(900, 9);
  });
});

describe('the altitude of a log', () => {
  /** 20 m/s; every second one row. */
  const log = (altitude: (metres: number, row: number) => number | string, rows = 501): LogReading =>
    readLog(
      csv(
        'time_s,speed [m/s],altitude_m',
        Array.from({ length: rows }, (_, i) => [i, 20, altitude(20 * i, i)]),
      ),
    );

  it('becomes slope: a straight hill keeps its slope', () => {
    const reading = log(s => 200 + 0.05 * s);
    const { slope } = driveOf(reading);
    // Rise over run, from rise over way.
    const expected = 0.05 / Math.sqrt(1 - 0.05 ** 2);
    for (const each of slope!) expect(each).toBeCloseTo(expected, 9);
    expect(statistics(driveOf(reading)).climb).toBeCloseTo(500, 6);
    expect(reading.repairs).toEqual([
      {
        kind: 'altitude',
        count: 1,
        line: 2,
        text: 'altitude smoothed over 100 m to either side: 500 m of climb, slopes up to 5 %',
      },
    ]);
  });

  it('keeps the climb of a hill that is long, and hardly that of noise', () => {
    const hill = statistics(driveOf(log(s => 40 * Math.sin((Math.PI * s) / 5000))));
    expect(hill.climb).toBeGreaterThan(79.5);
    expect(hill.climb).toBeLessThan(80.1);
    const noise = (_: number, i: number): number => 300 + 2 * Math.sin(2.2 * i) + Math.sin(0.9 * i * i);
    const read = Array.from({ length: 501 }, (_, i) => noise(0, i)).reduce(
      (sum, h, i, all) => sum + (i === 0 ? 0 : Math.max(0, h - all[i - 1]!)),
      0,
    );
    expect(statistics(driveOf(log(noise))).climb).toBeLessThan(read / 5);
  });

  it('passes over cells without a reading and a single false one', () => {
    const reading = log((s, i) => (i % 3 === 0 ? '' : i === 250 ? -400 : 200 + 0.02 * s));
    expect(reading.repairs[0]?.text).toContain('slopes up to 2 %, 1 false reading left out');
    // Beyond the first and the last reading the road is level.
    for (const each of driveOf(reading).slope!.slice(10, -10))
      expect(each).toBeCloseTo(0.02 / Math.sqrt(1 - 0.02 ** 2), 9);
  });

  it('is told where it is steep, refused where it is no road, and left where there is none', () => {
    expect(log(s => 0.3 * s).repairs[0]?.text).toContain('slopes up to 30 %: check the altitude');
    expect(() => log(s => 0.8 * s)).toThrow('the altitude changes by 40 m over 50 m of road');
    const none = log(() => 'NaN');
    expect(none.notes).toEqual(['the altitude was passed over, as there is too little of it: the road is level']);
    expect(driveOf(none).slope).toBeNull();
  });

  it('is read in feet', () => {
    const rows = Array.from({ length: 200 }, (_, i) => [i, 20, (20 * i * 0.05) / 0.3048]);
    const { slope } = driveOf(readLog(csv('time_s,speed [m/s],elevation [ft]', rows)));
    expect(slope![50]).toBeCloseTo(0.05 / Math.sqrt(1 - 0.05 ** 2), 9);
  });
});

describe('a log that cannot be read', () => {
  const H = 'time_s,speed_kmh\n';
  it.each([
    ['', '1:1', 'the log is empty', 'a header and rows of numbers'],
    ['# nothing\n', '1:1', 'the log is empty', ''],
    ['time_s\n1', '1:1', 'the header names a single column', 'names with units'],
    ['time_s;speed,kmh\n', '1:1', 'the header has more than one kind of separator', ''],
    [H, '1:1', 'the log has no rows of numbers', ''],
    [`${H}0,1\n`, '2:1', 'the log has one row only', ''],
    [
      'clock_s,rpm\n0,1',
      '1:1',
      'there is no column of speed: the header names "clock_s", "rpm"',
      'or latitude and longitude',
    ],
    ['speed_kmh,rpm\n0,1', '1:1', 'there is no column of time', 'time [s], time [ms]'],
    ['time_s,lat\n0,1', '1:1', 'there is no column of longitude', 'longitude in decimal degrees'],
    ['time,speed_kmh\n0,1', '1:1', 'the column time has no unit', 'or time_unit: s beside the name of the log'],
    ['time_s,speed\n0,1', '1:8', 'the column speed has no unit', 'or speed_unit: km/h beside the name of the log'],
    ['time_s,speed_kmh,altitude\n0,1,2', '1:18', 'the column altitude has no unit', 'altitude [m] or altitude [ft]'],
    ['time_s,speed [furlong]\n0,1', '1:8', '"furlong" is no unit of speed', 'speed [km/h], speed [mph]'],
    ['time_s,speed_furlong\n0,1', '1:8', '"furlong" is no unit of speed', 'speed [km/h], speed [mph]'],
    ['time_s,speed_kmh,velocity_kmh\n0,1,2', '1:18', 'a second column of speed beside "speed_kmh"', 'rename or remove'],
    [`${H}0,1\n1,2,3\n`, '3:3', 'a row of 3 cells', '2; where commas are decimal, semicolons set off the columns'],
    [`${H}0,1\n1\n2,3`, '3:1', 'a row of 1 cell', '2, as in the header'],
    [`${H}0,1\n1,fast`, '3:3', '"fast" is not a number', 'a number'],
    [`${H}0,1\nnoon,2`, '3:1', '"noon" is not a number', 'or times written as 12:34:56'],
    [`${H}0,1\n"1,2`, '3:1', 'a quotation mark that is never closed', ''],
    [`${H}0,1\n2,1\n1,1`, '4:1', 'the clock runs back by 1 s', 'across midnight, times with the date'],
    ['time,speed_kmh\n23:59:59,1\n00:00:00,2', '3:1', 'the clock runs back by 86399 s', '2026-01-31T23:59:59'],
    ['time,speed_kmh\n12:30:00,1\n12:61:00,2', '3:1', '"12:61:00" is no time as in the first row', '12:34:56'],
    ['time,speed_kmh\n2026-02-28T12:00:00,1\n2026-02-30T12:00:00,2', '3:1', '"2026-02-30T12:00:00" is no time', ''],
    ['time,speed_kmh\n12:30,1\n12:31,2', '1:1', 'the column time has no unit', 'times written as 12:34:56'],
    [`${H}0,1\n1,-20`, '3:3', 'the speed -20 is negative', 'speeds of 0 or more'],
    [`${H}0,0\n1,0\n2,0`, '1:1', 'the car never moves in this log', ''],
    [`${H}0,20\n1,20\n900,20\n901,20`, '4:1', 'nothing was recorded for 899 s before this row', 'a log for each drive'],
    ['time_s,lat,lon\n0,4807.038,11.5\n', '2:3', '4807.038 is no latitude', 'decimal degrees from -90 to 90'],
    ['time_s;speed_kmh\n0;1,5\n1.5;2', '2:3', 'a decimal comma here, a decimal point in line 3', 'one of the two'],
    ['time_s;speed_kmh\n0;1,000\n1;2,000', '2:3', 'this comma may be decimal or set off thousands', ''],
  ])('%j is told at %s: %s', (text, place, message, expected) => {
    let error: unknown;
    try {
      readLog(text);
    } catch (thrown) {
      error = thrown;
    }
    if (!(error instanceof LogError)) throw new Error(`no LogError but ${String(error)}`);
    expect(error.message).toContain(message);
    expect(error.expected).toContain(expected);
    expect(`${error.place.line}:${error.place.column}`).toBe(place);
  });

  it('has speeds that jump all the time, or that no car reaches', () => {
    const jumps = Array.from({ length: 50 }, (_, i) => [i, i % 2 === 0 ? 20 : 220]);
    expect(() => readLog(csv('time_s,speed_kmh', jumps))).toThrow('the speed jumps as no car can in 49 of 50 rows');
    const fast = Array.from({ length: 50 }, (_, i) => [i, 10 * i]);
    expect(() => readLog(csv('time_s,speed_kmh', fast))).toThrow('a speed of 330 km/h');
  });

  it('has positions that jump all the time', () => {
    const rows = Array.from({ length: 50 }, (_, i) => [i, 45 + (i % 3) / 100, 7]);
    expect(() => readLog(csv('time_s,lat,lon', rows))).toThrow('the position jumps as no car can in 49 of 50 rows');
  });

  it('has a unit in its header that was said to be another one', () => {
    expect(() => readLog('time_s,speed_mph\n0,1\n1,2', { units: { speed: 'km/h' } })).toThrow(
      'the header says mph, but speed was said to be in km/h',
    );
    expect(() => readLog('time_s,speed\n0,1\n1,2', { units: { speed: 'furlong' } })).toThrow(RangeError);
  });

  it('has a line that never ends', () => {
    expect(() => createLogReader().push('x'.repeat(100_001))).toThrow('a line of more than 100000 characters');
  });
});
