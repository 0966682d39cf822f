/**
 * An invented notebook with three launches of an invented car on three tyres, worked out by a coarse sum over time: good
 * enough to look at, not to learn from. No number here is a claim about anything.
 */
import type { Limiter } from '../../src/model/forward/limiter.ts';
import type { Input } from '../../src/model/fields/input.ts';
import type { Block, CellBlock, NotebookOutcome } from '../../src/notebook/document/outcome.ts';
import type { ProblemData } from '../../src/notebook/document/problem.ts';
import { launchOutputs } from '../../src/runs/launch/outputs.ts';
import type { Band, Column, Result } from '../../src/runs/result.ts';

const TIME = { unit: 's', display: { metric: 's', imperial: 's' } };
const SPEED = { unit: 'm/s', display: { metric: 'km/h', imperial: 'mph' } };
const LENGTH = { unit: 'm', display: { metric: 'm', imperial: 'ft' } };
const FORCE = { unit: 'N', display: { metric: 'N', imperial: 'lbf' } };
const POWER = { unit: 'W', display: { metric: 'kW', imperial: 'kW' } };
const VOLTAGE = { unit: 'V', display: { metric: 'V', imperial: 'V' } };
const CURRENT = { unit: 'A', display: { metric: 'A', imperial: 'A' } };
const ACCELERATION = { unit: 'm/s^2', display: { metric: 'm/s^2', imperial: 'ft/s^2' } };
const TEXT = { unit: '', display: { metric: '', imperial: '' } };

/** What is put into the coarse sum. */
export interface Setting {
  /** Friction of the driven tyres. */
  readonly mu: number;
  /** W at the shaft. */
  readonly power: number;
}

const CAR = {
  mass: 1190,
  radius: 0.287,
  ratio: 8.3,
  torque: 262,
  efficiency: 0.95,
  c: 0.012,
  area: 0.84,
  front: 0.57,
  h: 0.55,
  base: 2.4,
};
const TOP = 1150;

interface Instant {
  readonly drive: number;
  readonly grip: number;
  readonly resistance: number;
  readonly limiter: Limiter;
}

function instant(v: number, { mu, power }: Setting): Instant {
  const weight = CAR.mass * 9.80665;
  const drag = 0.5 * 1.2 * CAR.area * v * v;
  const rpm = (v / CAR.radius) * CAR.ratio;
  const byTorque = CAR.torque;
  const byPower = rpm > 0 ? (power * (1 - 0.0009 * Math.min(rpm, 200))) / rpm : Infinity;
  const bySpeed = rpm > TOP - 150 ? (CAR.torque * Math.max(0, TOP - rpm)) / 600 : Infinity;
  const torque = Math.min(byTorque, byPower, bySpeed);
  const drive = (torque * CAR.ratio * CAR.efficiency) / CAR.radius;
  const grip = (mu * weight * CAR.front) / (1 + (mu * CAR.h) / CAR.base);
  const limiter: Limiter =
    drive > grip
      ? 'grip'
      : torque === byTorque
        ? 'motor torque'
        : torque === bySpeed
          ? 'motor speed'
          : rpm > 560
            ? 'motor power'
            : 'pack voltage';
  return { drive, grip, resistance: CAR.c * weight + drag, limiter };
}

interface Trace {
  readonly rows: readonly { t: number; x: number; v: number; a: number; now: Instant }[];
  readonly bands: readonly Band[];
}

function sumUp(setting: Setting, unlimited = false): Trace {
  const rows: { t: number; x: number; v: number; a: number; now: Instant }[] = [];
  const bands: Band[] = [];
  const dt = 0.01;
  let [x, v] = [0, 0];
  for (let k = 0; k <= 4200; k++) {
    const t = k * dt;
    const now = instant(v, setting);
    const a = ((unlimited ? now.drive : Math.min(now.drive, now.grip)) - now.resistance) / (CAR.mass * 1.06);
    rows.push({ t, x, v, a, now });
    const last = bands.at(-1);
    if (last?.limiter === now.limiter) bands[bands.length - 1] = { ...last, to: t };
    else bands.push({ from: last?.to ?? 0, to: t, limiter: now.limiter });
    x += v * dt + 0.5 * a * dt * dt;
    v += a * dt;
  }
  return { rows, bands };
}

function when(trace: Trace, key: 'x' | 'v', level: number): number | null {
  return trace.rows.find(row => row[key] >= level)?.t ?? null;
}

function kmh(speed: number): number {
  return speed / 3.6;
}

/** A launch of the invented car. */
export function launch(setting: Setting): Result {
  const { rows, bands } = sumUp(setting);
  const free = sumUp(setting, true);
  const speedAt = (level: number): number | null => rows.find(row => row.x >= level)?.v ?? null;
  const sprint = when({ rows, bands }, 'v', kmh(100));
  const atGrip = rows.filter(row => row.now.limiter === 'grip' && row.v < kmh(100));
  const upTo = rows.filter(row => row.v < kmh(100));
  const could = upTo.reduce((all, row) => all + Math.max(row.now.drive, 0) * row.v, 0);
  const did = upTo.reduce((all, row) => all + Math.min(row.now.drive, row.now.grip) * row.v, 0);
  const gripFree = rows.find(row => row.now.limiter !== 'grip')?.v ?? null;
  const more = when(sumUp({ ...setting, mu: setting.mu + 0.1 }), 'v', kmh(100));
  const current = (row: (typeof rows)[number]): number =>
    Math.max(2, (Math.min(row.now.drive, row.now.grip) * row.v * 1.12) / 340 + 3);
  const volts = (row: (typeof rows)[number]): number => 358 - 0.16 * current(row) - 0.02 * row.t;
  const at = (level: number): number | null => when({ rows, bands }, 'v', kmh(level));
  const between = (from: number, to: number): number | null => {
    const [a, b] = [at(from), at(to)];
    return a === null || b === null ? null : b - a;
  };
  const rollout = when({ rows, bands }, 'x', 0.3048) ?? 0;
  const less = (time: number | null): number | null => (time === null ? null : time - rollout);
  const way = (level: number): number | null => when({ rows, bands }, 'x', level);
  const column = (
    label: string,
    what: { unit: string; display: { metric: string; imperial: string } },
    of: (row: (typeof rows)[number]) => number,
  ): Column => ({
    label,
    ...what,
    values: Float64Array.from(rows, of),
  });
  const known: { [key: string]: number | string | null } = {
    time: sprint,
    time_to_60_mph: at(96.56064),
    time_50_to_80_km_h: between(50, 80),
    time_80_to_120_km_h: between(80, 120),
    top_speed: rows.at(-1)?.v ?? 0,
    top_speed_limiter: 'motor speed',
    peak_acceleration: Math.max(...rows.map(row => row.a)),
    peak_wheel_torque: Math.max(...rows.map(row => Math.min(row.now.drive, row.now.grip))) * CAR.radius,
    peak_motor_torque: CAR.torque,
    peak_pack_current: Math.max(...rows.map(current)),
    lowest_pack_voltage: Math.min(...rows.map(volts)),
    peak_motor_speed: Math.max(...rows.map(row => (row.v / CAR.radius) * CAR.ratio)),
    peak_slip: 0.12,
    grip_time: atGrip.length * 0.01,
    grip_distance: atGrip.at(-1)?.x ?? 0,
    grip_withheld: could > 0 ? (could - did) / could : 0,
    grip_free_speed: gripFree,
    time_unlimited_grip: when(free, 'v', kmh(100)),
    friction_enough: 1.42,
    gain_per_friction: more === null || sprint === null ? null : sprint - more,
    power_enough: 61_000,
  };
  for (const speed of [50, 80, 100, 120, 160]) known[`time_to_${speed}_km_h`] = at(speed);
  const strips = { '60_ft': 18.288, eighth_mile: 201.168, '400_m': 400, quarter_mile: 402.336, '1000_m': 1000 };
  for (const [name, metres] of Object.entries(strips)) {
    known[`time_${name}`] = way(metres);
    known[`speed_${name}`] = speedAt(metres);
  }
  for (const [key, value] of Object.entries(known)) {
    if (`${key}_rollout` in launchOutputs && typeof value === 'number') known[`${key}_rollout`] = less(value);
  }
  const summary = Object.fromEntries(Object.keys(launchOutputs).map(key => [key, known[key] ?? null]));
  const missing = Object.keys(summary).filter(key => summary[key] === null);
  const speeds = Float64Array.from({ length: 170 }, (_, i) => (i * TOP * CAR.radius) / CAR.ratio / 169);
  const over = (label: string, of: (now: Instant) => number): Column => ({
    label,
    ...FORCE,
    values: Float64Array.from(speeds, v => of(instant(v, setting))),
  });
  const work = (of: (row: (typeof rows)[number]) => number): number =>
    rows.reduce((all, row) => all + of(row) * 0.01, 0);
  const out = {
    'pack resistance': work(row => 0.16 * current(row) ** 2),
    'inverter and motor': work(row => 1500 + Math.min(row.now.drive, row.now.grip) * row.v * 0.08),
    driveline: work(row => Math.min(row.now.drive, row.now.grip) * row.v * 0.05),
    'tyre slip': work(
      row => (row.now.limiter === 'grip' ? 0.12 : 0.01) * Math.min(row.now.drive, row.now.grip) * row.v,
    ),
    'rolling resistance': work(row => CAR.c * CAR.mass * 9.80665 * row.v),
    'air drag': work(row => 0.5 * 1.2 * CAR.area * row.v ** 3),
    auxiliaries: work(() => 320),
  };
  const stored = { 'motion of the car': 0.5 * CAR.mass * 1.06 * (rows.at(-1)?.v ?? 0) ** 2 };
  const total = Object.values(out).reduce((a, b) => a + b, 0) + stored['motion of the car'];
  return {
    kind: 'launch',
    summary,
    reasons: Object.fromEntries(missing.map(key => [key, 'the motor reaches its greatest speed at 143 km/h'])),
    outputs: launchOutputs,
    series: {
      time: {
        time_s: column('time', TIME, row => row.t),
        distance_m: column('distance', LENGTH, row => row.x),
        speed_m_s: column('speed', SPEED, row => row.v),
        acceleration_m_s2: column('acceleration', ACCELERATION, row => row.a),
        limiter: { label: 'held back by', ...TEXT, values: rows.map(row => row.now.limiter) },
        pack_power_W: column('pack power', POWER, row => volts(row) * current(row)),
        pack_current_A: column('pack current', CURRENT, current),
        pack_voltage_V: column('pack voltage', VOLTAGE, volts),
      },
      traction: {
        speed_m_s: { label: 'speed', ...SPEED, values: speeds },
        drive_force_N: over('drive force', now => now.drive),
        grip_force_N: over('grip', now => now.grip),
        resistance_N: over('resistance', now => now.resistance),
        used_force_N: over('force used', now => Math.min(now.drive, now.grip)),
      },
    },
    bands,
    events: [{ time: sprint ?? 0, what: '100 km/h' }],
    ledger: { in: { 'pack chemistry': total }, out, stored, gap: 3.1e-9 },
    warnings: setting.mu < 0.5 ? ['The friction of 0.45 is below what a dry road gives'] : [],
    opinion: {
      method: 'odex (extrapolation)',
      difference: 2.4e-9,
      where: 'time_to_100_km_h',
      tolerance: 1e-6,
      agrees: true,
    },
  };
}

/** A cell with nothing in it but what is given. */
export function cell(
  kind: string,
  name: string,
  line: number,
  source: string,
  rest: Partial<CellBlock> = {},
): CellBlock {
  return {
    kind: 'cell',
    cell: kind,
    name,
    line,
    source,
    problem: null,
    result: null,
    values: [],
    chart: null,
    checks: [],
    ...rest,
  };
}

const FILE = 'scenarios/beekeeper.md';

/** A problem as the notebook reports it. */
export const problem: ProblemData = {
  file: FILE,
  line: 71,
  column: 9,
  length: 7,
  path: 'trailer.mass',
  message: 'unknown unit "kgs"',
  expected: 'a mass such as "1010 kg"',
  nearest: 'kg',
  source: '  mass: 120 kgs',
};

const given = (
  path: string,
  value: number | string,
  unit: string,
  display: string,
  line: number,
  rest: Partial<Input> = {},
): Input => ({
  path,
  value,
  unit,
  display,
  origin: { kind: 'given', file: FILE, line, column: 3 },
  ...rest,
});
const assumed = (
  path: string,
  value: number,
  unit: string,
  display: string,
  source: string,
  low: number,
  high: number,
): Input => ({
  path,
  value,
  unit,
  display,
  spread: { kind: 'rectangular', low, high },
  origin: { kind: 'assumed', source },
});

const inputs: readonly Input[] = [
  given('van.body.mass', 1100, 'kg', 'kg', 14, { spread: { kind: 'normal', standard: 12 } }),
  given('van.body.front_share', 0.57, '1', '1', 15, { spread: { kind: 'rectangular', low: 0.56, high: 0.58 } }),
  given('van.drive.unit.peak_torque', 262, 'N m', 'N m', 21),
  given('van.drive.unit.peak_power', 118_000, 'W', 'kW', 22),
  given('van.tyres.front.size', '145/80 R 13', '', '', 18),
  {
    path: 'van.tyres.front.radius',
    value: 0.2868,
    unit: 'm',
    display: 'mm',
    origin: {
      kind: 'computed',
      formula: 'from the size 145/80 R 13: rolling circumference 3.05 times the free diameter',
    },
  },
  {
    path: 'van.pack.resistance',
    value: 0.148,
    unit: 'ohm',
    display: 'ohm',
    origin: { kind: 'computed', formula: '96 cells in series, 2 in parallel, plus wiring' },
  },
  assumed(
    'van.tyres.front.rolling_resistance',
    0.0105,
    '1',
    '1',
    'near the top of class E of an EU tyre label',
    0.0085,
    0.0125,
  ),
  assumed('van.body.cg_height', 0.55, 'm', 'mm', 'common practice, no source', 0.5, 0.6),
  assumed(
    'surroundings.temperature',
    293.15,
    'K',
    'degC',
    'the reference of ISO 2533 is 15 °C; a mild day',
    283.15,
    303.15,
  ),
];

const prose = (html: string, text: string): Block => ({ kind: 'prose', html, text });

/** The notebook: three launches, a calculation, checks that hold and one that fails, and a cell that could not be read. */
export function outcome(change: Partial<NotebookOutcome> = {}): NotebookOutcome {
  const blocks: readonly Block[] = [
    prose(
      '<h1>The beekeeper’s van</h1>\n<p>A small invented van carries hives up a valley road. The drive unit came out of something much heavier. <em>Do its narrow front tyres stand it?</em></p>\n',
      'The beekeeper’s van\n\nA small invented van carries hives up a valley road.',
    ),
    cell(
      'car',
      'van',
      12,
      'body:\n  mass: 1100 kg ± 12 kg\n  front_share: 0.56 .. 0.58\ndrive:\n  unit:\n    peak_torque: 262 N m\n    peak_power: 118 kW\n',
    ),
    prose(
      '<h2>On the tyres it stands on</h2>\n<p>The van needs <output>11.2 s</output> to 100 km/h on the narrow tyres it was built with, and no pedal makes it quicker.</p>\n<table><thead><tr><th>tyre</th><th>friction</th></tr></thead><tbody><tr><td>narrow</td><td>0.70</td></tr><tr><td>summer</td><td>0.95</td></tr></tbody></table>',
      'On the tyres it stands on\n\nThe van needs 11.2 s to 100 km/h.',
    ),
    cell('launch', 'narrow_tyres', 33, 'car: van\nto: 160 km/h\n', { result: launch({ mu: 0.7, power: 118_000 }) }),
    prose(
      '<h2>On better tyres</h2>\n<p>The same van on summer tyres of today, and on a soft track tyre.</p>\n',
      'On better tyres',
    ),
    cell('launch', 'summer_tyres', 41, 'car: van\ntyres: summer\n', { result: launch({ mu: 0.95, power: 118_000 }) }),
    cell('launch', 'track_tyres', 47, 'car: van\ntyres: track\n', { result: launch({ mu: 1.45, power: 118_000 }) }),
    cell(
      'calc',
      'price',
      54,
      'gain = narrow_tyres.time_to_100_km_h - summer_tyres.time_to_100_km_h\nwheel_force = 262 N m * 8.3 / 0.287 m\n',
      {
        values: [
          { name: 'gain', value: 1.9, unit: 's', display: 's' },
          { name: 'wheel_force', value: 7577, unit: 'N', display: 'N', spread: { kind: 'normal', standard: 120 } },
        ],
      },
    ),
    cell('plot', 'own', 58, 'of: narrow_tyres.time\nmark: line\n', {
      chart: {
        title: 'Power over time, drawn by the notebook',
        spec: {
          mark: 'bar',
          data: {
            values: [
              { a: 'first', b: 3 },
              { a: 'second', b: 7 },
            ],
          },
          encoding: { x: { field: 'b', type: 'quantitative' }, y: { field: 'a', type: 'nominal' } },
        },
      },
    }),
    cell('check', 'promise', 62, 'narrow_tyres.time_to_100_km_h < 12 s\nsummer_tyres.time_to_100_km_h < 5 s\n', {
      checks: [
        {
          promise: 'Narrow tyres do',
          text: 'narrow_tyres.time_to_100_km_h < 13 s',
          line: 63,
          holds: true,
          found: '11.23 s < 13 s',
        },
        {
          promise: 'Summer tyres are quick',
          text: 'summer_tyres.time_to_100_km_h < 5 s',
          line: 64,
          holds: false,
          found: '9.31 s < 5 s',
        },
      ],
    }),
    cell('part', 'trailer', 70, 'mass: 120 kgs\n', { problem }),
  ];
  return {
    file: FILE,
    title: 'The beekeeper’s van',
    system: 'metric',
    blocks,
    inputs,
    problems: [problem],
    failedChecks: 1,
    ...change,
  };
}
