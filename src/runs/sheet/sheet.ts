/** The performance sheet: one car through the tests that the road-test standards name. */
import { named } from '../../columns.ts';
import { checkOptions, SURROUNDINGS } from '../options.ts';
import { type Rules, SHARE, within } from '../rules.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { solveExtrapolation } from '../../solvers/extrapolation.ts';
import { balanceOf } from './balance.ts';
import { untilStarved } from '../launch/starved.ts';
import { steepestHold, steepestStart } from './hill.ts';
import type { SteepestByLimit } from './hill.ts';
import { hold } from './hold-speed.ts';
import { checked } from '../launch/checked.ts';
import { SPEED_MARKS, SPEED_WORDS } from '../launch/marks.ts';
import type { SpeedMark } from '../launch/marks.ts';
import { fineTolerance, launchOnce } from '../launch/run.ts';
import type { LaunchOptions, LaunchRun } from '../launch/run.ts';
import { bandsOf, timeSeries } from '../launch/series.ts';
import type { Band, Result, SecondOpinion, Series } from '../result.ts';
import { wants } from '../kind.ts';
import type { Wanted } from '../kind.ts';
import type { SheetSummary } from '../summaries/sheet.ts';
import { sound } from '../sound.ts';
import type { Figures } from '../sound.ts';
import { METHOD } from '../second-opinion.ts';
import { SHEET_TESTS, sheetOutputs } from './outputs.ts';
import { HALF_HOUR, nearTopTime, thirtyMinutes } from './thirty-minutes.ts';
import type { ThirtyMinutes } from './thirty-minutes.ts';
import { topSpeedOf } from './top-speed.ts';
import { sheetTrail } from './trail.ts';
import { loadedTo } from '../variant.ts';
import { loadedMass } from '../../model/body/loaded-mass.ts';

export interface SheetOptions {
  /** Their slope does not count: each test has its own. */
  readonly surroundings: Surroundings;
  /** kg of the fully loaded car, not below the test mass; left out, nothing is told at gross mass. */
  readonly grossMass?: number;
  /** Share of the weight on the front axle then; left out, it stays. */
  readonly grossFrontShare?: number;
}

type Put = (key: string, value: number | string | null, reason?: string) => void;

/** Of the second method for half an hour; it takes some two hundred. */
const HOLD_STEPS = 4000;

/** The sheet, and what a second method says to its launch. */
interface Filled extends Figures {
  readonly half: ThirtyMinutes | null;
  readonly opinion: SecondOpinion | null;
}

/**
 * The figures that are wanted of a sheet; of the others those are left out that need runs of their own.
 * @param check whether a second method looks at the launch.
 */
export function sheetFigures(car: Car, options: SheetOptions, wanted?: Wanted, check = false): Filled {
  const level = { ...options.surroundings, slope: 0 };
  const values: { [key: string]: number | string | null } = {};
  const reasons: { [key: string]: string } = {};
  const put: Put = (key, value, reason = '') => {
    values[key] = value;
    if (value === null) reasons[key] = reason;
  };
  const keys = Object.keys(sheetOutputs);
  const any = (of: (key: string) => boolean): boolean => wants(wanted, keys.filter(of));
  put('test_mass', loadedMass(car.body));
  const half = speeds(
    car,
    level,
    put,
    any(key => key.startsWith('thirty_minute') || key === 'top_speed_time'),
  );
  const opinion = any(key => key.startsWith('time_')) ? times(car, level, put, check) : null;
  if (any(key => isHill(key) && !key.includes('_gross'))) hills(car, level, '', put);
  if (any(key => key.includes('_gross') || key === 'gross_mass')) gross(car, level, options, put);
  const known = keys.filter(key => wanted === undefined || values[key] !== undefined);
  return { half, opinion, summary: Object.fromEntries(known.map(key => [key, values[key] ?? null])), reasons };
}

function isHill(key: string): boolean {
  return /^(?:speed_|start_slope|hold_slope)/u.test(key);
}

/**
 * The standard performance tests: top and 30-minute speed, accelerations, slopes.
 * @throws SpecError for a car or options that can not be.
 */
export function sheet(car: Car, options: SheetOptions): Result<SheetSummary> {
  checkOptions(car, options, RULES, ['surroundings']);
  if (options.grossMass !== undefined) within(loadedMass(car.body), 50_000, 'kg')(options.grossMass, 'grossMass');
  const level = { ...options.surroundings, slope: 0 };
  const { half, opinion, summary, reasons } = sheetFigures(car, options, undefined, true);
  const opinions = [opinion, halfHourOpinion(car, level, half)];
  return sound({
    kind: 'sheet',
    summary,
    reasons,
    outputs: sheetOutputs,
    series: { tests: testSeries(car, options, summary) },
    bands: [],
    events: [],
    ledger: { in: {}, out: {}, stored: {}, gap: 0 },
    warnings: warningsOf(car, options, half),
    opinion: worst(opinions),
    ...(summary.time_to_100_km_h !== null && { trail: sheetTrail(car, level, half?.hold?.speed ?? null) }),
  });
}

function speeds(car: Car, level: Surroundings, put: Put, halfHour: boolean): ThirtyMinutes | null {
  const top = steadySpeed(car, level, 'top_speed', put);
  if (!halfHour) return null;
  const half = top === null ? null : thirtyMinutes(car, level, top);
  const { speed = null, unitTemperature = null, packTemperature = null, charge = null } = half?.hold ?? {};
  const missing = half === null ? 'there is no top speed' : half.reason;
  put('top_speed_time', top === null || half?.hold == null ? null : nearTopTime(car, level, top.speed), missing);
  put('thirty_minute_speed', speed, missing);
  put('thirty_minute_speed_limiter', half?.limiter ?? null, missing);
  put('thirty_minute_unit_temperature', unitTemperature, missing);
  put('thirty_minute_pack_temperature', packTemperature, missing || 'its heat is not modelled: no cooling is given');
  put('thirty_minute_charge', charge, missing);
  return half;
}

/** The greatest speed that is kept up on a slope, with the word for what sets it. */
function steadySpeed(
  car: Car,
  surroundings: Surroundings,
  key: string,
  put: Put,
): { readonly speed: number; readonly limiter: string } | null {
  const balance = balanceOf(car, surroundings);
  const found = topSpeedOf(car, surroundings, balance);
  const start = balance(0);
  const reason = start.acceleration > 0 ? 'still accelerating at 540 km/h' : `it does not move off: ${start.limiter}`;
  put(key, found?.speed ?? null, reason);
  put(`${key}_limiter`, found?.limiter ?? null, reason);
  return found;
}

/** The three times from two launches; the second opinion is on the one from rest. */
function times(car: Car, level: Surroundings, put: Put, check: boolean): SecondOpinion | null {
  const start = balanceOf(car, level)(0);
  if (!(start.acceleration > 0)) {
    const why = start.starved === '' ? `it does not move off: ${start.limiter}` : start.starved;
    for (const key of ['time_to_50_km_h', 'time_50_to_80_km_h', 'time_to_100_km_h']) {
      put(key, null, why);
      put(`${key}_limiter`, null, why);
    }
    return null;
  }
  const options: LaunchOptions = { surroundings: level, tolerance: fineTolerance(car), stop: '100_km_h' };
  const first = launchOnce(car, options);
  const fed = untilStarved(car, options, first, launchOnce);
  const { run, opinion, lost } =
    typeof fed === 'string'
      ? { run: { ...first, marks: new Map() }, opinion: null, lost: fed }
      : fed.starved === undefined
        ? checked(car, options, fed, check)
        : { run: fed, opinion: null, lost: fed.starved.why };
  timed(run, 'time_to_50_km_h', '50_km_h', put, lost);
  timed(run, 'time_to_100_km_h', '100_km_h', put, lost);
  const rolling = launchOnce(car, { ...options, from: SPEED_MARKS['50_km_h'], stop: '80_km_h' });
  const early = rolling.solution.status === 'failed' ? 'the usual method finds no way there' : '';
  timed(rolling, 'time_50_to_80_km_h', '80_km_h', put, early);
  return opinion;
}

/** @param lost why the run is not whole; '' where it is. */
function timed(run: LaunchRun, key: string, mark: SpeedMark, put: Put, lost: string): void {
  const time = run.marks.get(mark)?.time ?? null;
  const reason = lost === '' ? `${SPEED_WORDS[mark]} is not reached` : lost;
  put(key, time, reason);
  put(`${key}_limiter`, time === null ? null : longest(bandsOf(timeSeries(run)), time), reason);
}

/** What held for the longest time before `end`. */
function longest(bands: readonly Band[], end: number): string {
  const total = new Map<string, number>();
  for (const { from, to, limiter } of bands) {
    const time = Math.max(0, Math.min(to, end) - from);
    total.set(limiter, (total.get(limiter) ?? 0) + time);
  }
  return [...total].reduce((most, next) => (next[1] > most[1] ? next : most), ['', -1] as [string, number])[0];
}

function hills(car: Car, level: Surroundings, suffix: '' | '_gross', put: Put): void {
  steadySpeed(car, { ...level, slope: 0.04 }, `speed_4_percent${suffix}`, put);
  steadySpeed(car, { ...level, slope: 0.12 }, `speed_12_percent${suffix}`, put);
  const slopes = (key: string, found: SteepestByLimit): void => {
    put(key, found.all.slope, found.all.reason);
    put(`${key}_limiter`, found.all.limiter, found.all.reason);
    put(`${key}_grip`, found.grip.slope, found.grip.reason);
    put(`${key}_drive`, found.drive.slope, found.drive.reason);
  };
  slopes(`start_slope${suffix}`, steepestStart(car, level));
  slopes(`hold_slope${suffix}`, steepestHold(car, level));
}

function gross(car: Car, level: Surroundings, { grossMass, grossFrontShare }: SheetOptions, put: Put): void {
  put('gross_mass', grossMass ?? null, 'no gross mass is given');
  if (grossMass !== undefined) return hills(loadedTo(car, grossMass, grossFrontShare), level, '_gross', put);
  for (const key of Object.keys(sheetOutputs)) if (key.includes('_gross')) put(key, null, 'no gross mass is given');
}

/** The half hour by the other integrator: how far its temperatures and its charge are off. */
function halfHourOpinion(car: Car, level: Surroundings, half: ThirtyMinutes | null): SecondOpinion | null {
  const mine = half?.hold ?? null;
  if (mine === null) return null;
  const other = hold(car, level, mine.speed, HALF_HOUR, (system, problem) =>
    solveExtrapolation(system, { ...problem, maxSteps: HOLD_STEPS }),
  );
  if (other.reason !== '') return null;
  const off = (a: number | null, b: number | null): number =>
    a === null || b === null ? 0 : Math.abs(a - b) / Math.abs(a);
  const differences = {
    thirty_minute_speed: off(mine.endSpeed, other.endSpeed),
    thirty_minute_unit_temperature: off(mine.unitTemperature, other.unitTemperature),
    thirty_minute_pack_temperature: off(mine.packTemperature, other.packTemperature),
    thirty_minute_charge: Math.abs(mine.charge - other.charge),
  };
  const [where, difference] = Object.entries(differences).reduce((most, next) => (next[1] > most[1] ? next : most));
  const tolerance = 1e-5;
  return { method: METHOD, difference, where, tolerance, agrees: difference <= tolerance };
}

function worst(opinions: readonly (SecondOpinion | null)[]): SecondOpinion | null {
  let found: SecondOpinion | null = null;
  for (const opinion of opinions) {
    if (opinion !== null && !(found !== null && found.difference >= opinion.difference)) found = opinion;
  }
  return found;
}

function warningsOf(
  car: Car,
  { grossMass, grossFrontShare }: SheetOptions,
  half: ThirtyMinutes | null,
): readonly string[] {
  const list: string[] = [];
  if (half !== null && half.reason !== '') list.push(`There is no 30-minute speed: ${half.reason}`);
  if (half?.hold != null && car.pack.heat === undefined) {
    list.push('The heat of the pack is not modelled (no cooling is given): it may end the half hour sooner');
  }
  if (car.drives.some(drive => drive.traction.policy === 'spin')) {
    list.push('Slopes are worked out with the slip held at the peak: without traction control it takes a light foot');
  }
  if (grossMass !== undefined && grossFrontShare === undefined) {
    list.push('At gross mass the front share is taken as at test mass: gross_front_share says otherwise');
  }
  return list;
}

/** The sheet as columns: one row per test, values in SI units. */
function testSeries(car: Car, { grossMass }: SheetOptions, summary: Result['summary']): Series {
  const words = (label: string, values: readonly string[]): Series[string] => ({
    label,
    unit: '',
    display: { metric: '', imperial: '' },
    values,
  });
  const number = (key: string): number => {
    const value = summary[key];
    return typeof value === 'number' ? value : Number.NaN;
  };
  const word = (key: string): string => {
    const value = summary[key];
    return typeof value === 'string' ? value : '';
  };
  const tests = SHEET_TESTS.filter(({ gross }) => !gross || grossMass !== undefined);
  return {
    test: words(
      'test',
      tests.map(({ key }) => named(sheetOutputs, key).label),
    ),
    mass_kg: {
      label: 'mass',
      unit: 'kg',
      display: { metric: 'kg', imperial: 'lb' },
      values: Float64Array.from(tests, ({ gross }) => (gross ? (grossMass ?? Number.NaN) : loadedMass(car.body))),
    },
    value: {
      label: 'value',
      unit: '1',
      display: { metric: '1', imperial: '1' },
      values: Float64Array.from(tests, ({ key }) => number(key)),
    },
    unit: words(
      'unit',
      tests.map(({ key }) => named(sheetOutputs, key).unit),
    ),
    limiter: words(
      'set by',
      tests.map(({ limiter }) => word(limiter)),
    ),
    standard: words(
      'named by',
      tests.map(({ standard }) => standard),
    ),
  };
}

const RULES: Rules<SheetOptions> = {
  surroundings: SURROUNDINGS,
  grossMass: within(0, 50_000, 'kg'),
  grossFrontShare: SHARE,
};
