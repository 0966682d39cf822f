/** Coast-downs as a calibrate cell gives them. */
import { type CoastDown, type CoastMeasurement, coastDown, coastRun, forceAt } from '../../fit/coast/coast-down.ts';
import type { Measured } from '../../fit/coast/measured.ts';
import type { RunFit } from '../../fit/coast/one-run.ts';
import type { ForceBefore } from '../../fit/coast/about.ts';
import { coastDownResult, noCoastDown } from '../../fit/coast/result.ts';
import { otherUnit, slowingThrough } from '../../fit/coast/other-unit.ts';
import type { Shortcoming } from '../../fit/problem.ts';
import { readSpeedLog } from '../../fit/speed-log.ts';
import { loadedMass } from '../../model/body/loaded-mass.ts';
import { roadLoadFields } from '../../model/body/road-load-fields.ts';
import { movedMass } from '../../model/backward/coasting.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { filler } from '../../model/fields/filler.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { coastFigures } from '../../runs/coast/coast.ts';
import { coastStart } from '../../runs/coast/run.ts';
import type { Result } from '../../runs/result.ts';
import { numbers } from '../../runs/series.ts';
import { nth } from '../../columns.ts';
import { inLog } from '../files/log-file.ts';
import { calibrateFields } from './calibrate-fields.ts';
import type { Calibrating } from './calibrating.ts';
import { movedInputs } from './moved-inputs.ts';
import { columnsOf, rowsOf, textOf, unitsOf } from './trip-way.ts';

/** Standard uncertainties where nothing is said: of a scale, a thermometer, a map, and of what is reckoned. Common practice, no source. */
const USUAL = { mass: 0.005, turning: 0.2, temperature: 1, altitude: 20, humidity: 0.1 } as const;

export function calibrateCoast(asked: Calibrating): Result {
  const { name, values, car, assumed } = asked;
  if (car.car.trailer !== undefined) {
    const cure = 'a car cell without it: the road load is that of the car alone, and a trailer adds its own';
    throw new SpecError(`${name}.car`, `"${car.carName}" tows a trailer`, cure);
  }
  const fill = filler(name, calibrateFields, values, assumed);
  const to = fill.number('to');
  const from = typeof values['from'] === 'number' ? values['from'] : undefined;
  if (from !== undefined && !(to < from)) throw new SpecError(`${name}.to`, 'is not below from');
  const { runs, notes } = runsOf(asked, { to, ...(from !== undefined && { from }) });
  const weighed = fill.derived('testMass', () => loadedMass(car.car.body));
  const mass = { value: weighed, standard: standardOf(asked, 'test_mass', massOf(asked) ?? USUAL.mass * weighed) };
  const day: Surroundings = {
    temperature: fill.number('temperature'),
    altitude: fill.number('altitude'),
    humidity: fill.number('humidity'),
    wind: 0,
    slope: 0,
    surface: 'dry',
  };
  const turns = fill.derived('turningMass', () => turningOf(car.car, day));
  const standard = { temperature: defaultOf('temperature'), pressure: defaultOf('pressure') };
  const measured: CoastMeasurement = {
    there: runs.filter(({ direction }) => direction === 'there').map(({ run }) => run),
    back: runs.filter(({ direction }) => direction === 'back').map(({ run }) => run),
    mass,
    turning: { value: turns, standard: standardOf(asked, 'turning_mass', USUAL.turning * turns) },
    day: {
      temperature: measuredOf(asked, 'temperature', day.temperature, USUAL.temperature),
      altitude: measuredOf(asked, 'altitude', day.altitude, USUAL.altitude),
      humidity: measuredOf(asked, 'humidity', day.humidity, USUAL.humidity),
    },
    standard,
    ...sideWindOf(asked),
  };
  const found = coastDown(measured);
  if ('short' in found) return noCoastDown(found.short, [...found.doubts, ...notes]);
  const geared = car.car.drives.some(({ gearbox }) => gearbox !== undefined);
  const tops = runs.map(({ run }) => nth(run.track.speed, 0));
  const unit = values['speedUnit'] === undefined ? doubtedUnit(found, car.car, day, [to, Math.min(...tops)]) : null;
  if (unit !== null) return noCoastDown([unit], [...found.doubts, ...notes]);
  return coastDownResult(found, {
    before: forceBefore(car.car, day, Math.max(...tops), to),
    dragArea: car.car.body.dragArea,
    mass: mass.value,
    warnings: notes,
    standard,
    coupled: geared ? 'no' : 'yes',
    sideWind: values['sideWind'] !== undefined,
    beside: besideTyres(car.car, day),
    assumed: assumedForce(asked, day),
  });
}

interface DirectedRun {
  readonly direction: unknown;
  readonly run: RunFit;
}

function runsOf(
  { name, values, world }: Calibrating,
  span: { readonly from?: number; readonly to: number },
): { readonly runs: readonly DirectedRun[]; readonly notes: readonly string[] } {
  const notes: string[] = [];
  const seen = new Map<string, number>();
  const runs = rowsOf(values['coast']).map((row, i): DirectedRun => {
    const path = `${name}.coast[${i + 1}]`;
    const file = typeof row['log'] === 'string' ? row['log'] : '';
    const twin = seen.get(file);
    if (twin !== undefined) throw new SpecError(`${path}.log`, `is the log of row ${twin} once more`, 'each run once');
    seen.set(file, i + 1);
    const text = textOf(file, path, each => world.readFile(each));
    return inLog(text, file, () => {
      const track = readSpeedLog(text, { title: file, units: unitsOf(values), columns: columnsOf(values) });
      const run = coastRun(track, span);
      notes.push(...track.notes.map(note => `${file}: ${note}`));
      if (run.left > 0)
        notes.push(`${file}: ${run.left} of ${track.speed.length} speeds stand far off and were left out`);
      return { direction: row['direction'], run };
    });
  });
  if (runs.length === 0)
    throw new SpecError(`${name}.coast`, 'names no log', 'a list of logs, each with its direction');
  return { runs, notes };
}

/** kg by which what turns adds to the mass, in neutral. */
function turningOf(car: Car, surroundings: Surroundings): number {
  const { coasting } = coastStart(car, { surroundings, from: 20, to: 10, lift: null });
  return movedMass(coasting.following) - loadedMass(car.body);
}

/** N over speed of the car as it was assumed; null where it does not coast from there. */
function forceBefore(car: Car, surroundings: Surroundings, from: number, to: number): ForceBefore {
  // By one method: of many cars beside the one that is shown, and nobody reads what a second one thinks of them.
  const coasted = coastFigures(car, { surroundings, from, to, lift: null });
  if ('none' in coasted) return null;
  const { time } = coasted;
  const speed = numbers(time, 'speed_m_s');
  const parts = ['drag_N', 'rolling_N', 'drive_N'].map(key => numbers(time, key));
  return at => {
    const after = speed.findIndex(v => v <= at);
    const k = Math.max(1, after < 0 ? speed.length - 1 : after);
    const [high, low] = [nth(speed, k - 1), nth(speed, k)];
    const share = high > low ? (high - at) / (high - low) : 0;
    return parts.reduce((all, part) => all + nth(part, k - 1) + share * (nth(part, k) - nth(part, k - 1)), 0);
  };
}

/** N at 80 km/h as the car cell has it, with all that is uncertain about it; null where it does not coast. */
function assumedForce(asked: Calibrating, day: Surroundings): Measured | null {
  const at = (car: Car): number => forceBefore(car, day, 82 / 3.6, 78 / 3.6)?.(80 / 3.6) ?? Number.NaN;
  const moved = movedInputs(asked, 'coast', day, () => true);
  const variance = moved.reduce((all, { up, down }) => all + ((at(up.car) - at(down.car)) / 2) ** 2, 0);
  const value = at(asked.car.car);
  return Number.isFinite(value + variance) ? { value, standard: Math.sqrt(variance) } : null;
}

/** m/s. */
const USUAL_SPEED = 25;

/** Whether the speeds are in another unit than the log says, by what the car cell makes of the car. */
function doubtedUnit(
  { day }: CoastDown,
  car: Car,
  surroundings: Surroundings,
  [low, high]: readonly [number, number],
): Shortcoming | null {
  // Any car does so much, whatever the log calls its speeds.
  const span = [low, Math.min(high, USUAL_SPEED)] as const;
  const before = low < USUAL_SPEED ? forceBefore(car, surroundings, span[1], span[0]) : null;
  if (before === null) return null;
  return otherUnit(
    slowingThrough(speed => forceAt(day, speed), span),
    slowingThrough(before, span),
  );
}

/** Share that hubs and gears may be off by, as a standard uncertainty. Common practice, no source. */
const UNSURE = 0.4;

/** N at 80 km/h of bearings and brakes, and of gears and motor that turn along. */
function besideTyres(car: Car, surroundings: Surroundings): Measured {
  const coasted = coastFigures(car, { surroundings, from: 81 / 3.6, to: 79 / 3.6, lift: null });
  const drive = 'none' in coasted ? [] : numbers(coasted.time, 'drive_N');
  const value = (car.body.hubDrag ?? 0) + (drive[drive.length >> 1] ?? 0);
  return { value, standard: UNSURE * value };
}

function defaultOf(key: 'temperature' | 'pressure'): number {
  return roadLoadFields[key].default?.value ?? Number.NaN;
}

function measuredOf(asked: Calibrating, key: string, value: number, usual: number): Measured {
  return { value, standard: standardOf(asked, key, usual) };
}

/** Share of a wind across the road that nobody says a ± of. Common practice, no source. */
const GUESSED = 0.3;

function sideWindOf(asked: Calibrating): Pick<CoastMeasurement, 'sideWind'> {
  const { sideWind } = asked.values;
  return typeof sideWind === 'number' ? { sideWind: measuredOf(asked, 'side_wind', sideWind, GUESSED * sideWind) } : {};
}

/** The standard uncertainty that the cell says of one of its fields. */
function standardOf({ name, inputs }: Calibrating, key: string, usual: number): number {
  const own = inputs.find(({ path }) => path === `${name}.${key}`);
  return standardIn(own) ?? usual;
}

function standardIn(input: Input | undefined): number | null {
  const spread = input?.spread;
  if (spread === undefined) return null;
  return spread.kind === 'normal' ? spread.standard : (spread.high - spread.low) / Math.sqrt(12);
}

/** kg: that of the mass of the car; null where it says none. */
function massOf({ car, inputs }: Calibrating): number | null {
  return standardIn(inputs.find(({ path }) => path === `${car.carName}.mass`));
}
