/**
 * Answers a question again and again with other values: the figures that studies compare, sweep and spread. Each asker keeps the
 * memory of its runs, so that thousands of answers cost no more than their physics.
 */
import { refineTrip } from '../../cycles/densify.ts';
import type { Trip } from '../../cycles/trip.ts';
import { UNLISTED } from '../../model/fields/filler.ts';
import { completeCar, completeSurroundings } from '../../model/complete.ts';
import type { MeasuredUnit } from '../../model/drive/complete.ts';
import type { Car } from '../../model/car.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { CarSpec, SurroundingsSpec } from '../../model/spec.ts';
import { valueAt, withChanges } from './change.ts';
import type { Change } from './change.ts';
import { carried } from './carried-mass.ts';
import { chargeIntegral, chargeOnce, chargeStart } from '../charge/run.ts';
import { createLauncher } from '../launch/run.ts';
import type { LaunchOptions } from '../launch/run.ts';
import { tripOf } from './question.ts';
import type { Question, Run } from './question.ts';
import { FINEST } from '../trip/drive.ts';
import { rangeSettings } from '../trip/range.ts';
import { steadySchedule } from '../../cycles/steady.ts';
import { createTraveller } from '../schedule/trip.ts';
import type { TravelRun } from '../schedule/trip.ts';
import { wallEnergy } from '../schedule/wall-energy.ts';
import { loadedMass } from '../../model/body/loaded-mass.ts';

/** Figures by the keys of the outputs of the run, and of the car itself; null where the run has no answer. */
export interface Answers {
  [key: string]: number | null;
}

/** What an asker was told to make heavier. */
export interface AskOptions {
  /** A change of the pack carries its mass; default true. See `carried-mass.ts`. */
  readonly carryMass?: boolean;
  /** Outputs that are wanted; what costs extra is left out otherwise. Default: all. */
  readonly wanted?: readonly string[];
}

export type Ask = (changes: readonly Change[]) => Answers;

/**
 * @returns a function that throws SpecError where the changed car makes no sense; paths are those of the question's car and run
 * with their names in front: `coupe.drive.ratio`, `dash.temperature`.
 */
export function createAsk(question: Question, options: AskOptions = {}): Ask {
  const measured: ReadonlyMap<string, MeasuredUnit> = new Map(question.measured);
  const answer = answerer(question.run, options.wanted);
  return changes => {
    const other = otherCar(question.car, changes);
    // What is drawn belongs to the car as it is: a drawn mass is that of the scales, to which another pack adds its own.
    const own = below(question.car, changes);
    const drawn = own.filter(change => change.drawn === true);
    const base =
      other === null
        ? withChanges(question.spec, drawn)
        : withChanges(other.spec, drawnFor(other.spec, question.spec, drawn));
    const spec =
      drawn.length === own.length
        ? base
        : withChanges(
            base,
            own.filter(change => change.drawn !== true),
          );
    const { car } = completeCar(
      options.carryMass === false ? spec : carried(base, spec),
      question.car,
      other === null ? measured : new Map(other.measured),
      UNLISTED,
    );
    const figures: Answers = {};
    carFigures(car, figures);
    answer(car, below(question.name, changes), figures);
    return figures;
  };
}

/** A whole other car in the place of the question's: the value of a change whose path is the name of the car. */
export interface OtherCar {
  readonly spec: CarSpec;
  readonly measured: Question['measured'];
}

function otherCar(name: string, changes: readonly Change[]): OtherCar | null {
  const whole = changes.find(({ path }) => path === name);
  // Only cells make such a change, with what stands in a car cell.
  return whole === undefined ? null : (whole.value as OtherCar);
}

/** What was drawn about one car, for another one: where the two differ, its own value off by as much; nothing where it has none. */
function drawnFor(other: CarSpec, spec: CarSpec, drawn: readonly Change[]): readonly Change[] {
  return drawn.flatMap((change): Change[] => {
    const [own, value] = [valueAt(other, change.path), valueAt(spec, change.path)];
    if (own === value) return [change];
    if (typeof own !== 'number' || typeof value !== 'number' || typeof change.value !== 'number') return [];
    return [{ ...change, value: own + change.value - value }];
  });
}

function below(head: string, changes: readonly Change[]): readonly Change[] {
  const start = `${head}.`;
  return changes
    .filter(({ path }) => path.startsWith(start))
    .map(change => ({ ...change, path: change.path.slice(start.length) }));
}

/** Of the standing car: what buyers of parts look at first. */
function carFigures({ body, pack }: Car, figures: Answers): void {
  const loaded = loadedMass(body);
  figures['mass'] = body.mass;
  figures['front_axle'] = loaded * body.frontShare;
  figures['rear_axle'] = loaded * (1 - body.frontShare);
  figures['pack_capacity'] = pack.cell.capacity * pack.parallel * pack.health;
}

/** Names of the figures of the car itself. */
export const CAR_FIGURES = ['mass', 'front_axle', 'rear_axle', 'pack_capacity'] as const;

type Answer = (car: Car, changes: readonly Change[], figures: Answers) => void;

function answerer(run: Run, wanted: readonly string[] | undefined): Answer {
  const wants = (key: string): boolean => wanted === undefined || wanted.includes(key);
  if (run.kind === 'launch') {
    const short = wanted !== undefined && wanted.every(key => key === 'time' || CAR_FIGURES.some(own => own === key));
    return launchAnswer(run, short ? 'to' : 'quarter_mile');
  }
  if (run.kind === 'charge') return chargeAnswer(run);
  if (run.kind === 'steady') return steadyAnswer(run, wants('consumption_wall'));
  return travelAnswer(run, wants('consumption_wall'));
}

function surroundingsOf(where: SurroundingsSpec, changes: readonly Change[]): LaunchOptions['surroundings'] {
  return completeSurroundings(withChanges(where, changes), '', UNLISTED).surroundings;
}

/** A mark of a launch and the output that is its time; the last one of those that are always told ends the run. */
const TIMES = {
  to: 'time',
  '50_km_h': 'time_to_50_km_h',
  '80_km_h': 'time_to_80_km_h',
  '60_mph': 'time_to_60_mph',
  '100_km_h': 'time_to_100_km_h',
  '60_ft': 'time_60_ft',
  eighth_mile: 'time_eighth_mile',
  quarter_mile: 'time_quarter_mile',
} as const;

const SWEEP_TOLERANCE = 1e-6;

function launchAnswer(run: Extract<Run, { kind: 'launch' }>, stop: 'to' | 'quarter_mile'): Answer {
  const launch = createLauncher();
  return (car, changes, figures) => {
    const { where, kind: _kind, ...given } = run;
    const own = withChanges(given, changes);
    const { soaked, ...asked } = own;
    const surroundings = { ...surroundingsOf(where, changes), ...(soaked !== undefined && { soaked }) };
    const options = { surroundings, tolerance: SWEEP_TOLERANCE, ...asked };
    const { marks } = launch(car, { stop, ...options });
    for (const [mark, key] of Object.entries(TIMES)) {
      figures[key] = marks.get(mark as keyof typeof TIMES)?.time ?? null;
    }
    figures['speed_quarter_mile'] = marks.get('quarter_mile')?.states[0] ?? null;
  };
}

function travelAnswer(run: Extract<Run, { kind: 'drive' | 'range' }>, wall: boolean): Answer {
  const travel = createTraveller();
  const trip: Trip = refineTrip(tripOf(run.trip), FINEST);
  return (car, changes, figures) => {
    const { where, trip: _trip, kind, ...rest } = run;
    const surroundings = surroundingsOf(where, changes);
    const options = { surroundings, ...withChanges(rest, changes) };
    if (kind === 'range') {
      const settings = rangeSettings(car, options);
      const ok = settings.charge > settings.empty;
      const done = ok ? travel(car, trip, settings) : null;
      const ends = done !== null && (done.status === 'empty' || done.status === 'weak') && done.distance > 0;
      figures['range'] = ends ? done.distance : null;
      travelFigures(ends ? done : null, car, wall, figures);
      return;
    }
    const done = travel(car, trip, options);
    travelFigures(done.status === 'done' ? done : null, car, wall, figures);
    figures['charge_end'] = done.legs.at(-1)?.charge ?? null;
    figures['distance'] = done.distance;
  };
}

function travelFigures(run: TravelRun | null, car: Car, wall: boolean, figures: Answers): void {
  figures['time'] = run?.time ?? null;
  figures['time_late'] = run?.follower.inner.totals.late ?? null;
  const energy = run === null ? null : run.legs.reduce((sum, leg) => sum + leg.energy, 0);
  figures['energy'] = energy;
  figures['consumption'] = energy === null ? null : energy / run!.distance;
  if (!wall) return;
  const drawn = run === null ? null : wallEnergy(car, run.legs.at(-1)!.charge, run.charge);
  figures['consumption_wall'] = drawn === null ? null : drawn / run!.distance;
}

/** s of one schedule, driven over and over. */
const STRETCH = 600;

function steadyAnswer(run: Extract<Run, { kind: 'steady' }>, wall: boolean): Answer {
  const travel = createTraveller();
  return (car, changes, figures) => {
    const { where, kind: _kind, ...rest } = run;
    const { speed, ...options } = withChanges(rest, changes);
    const trip: Trip = { title: '', parts: [{ kind: 'leg', schedule: steadySchedule(speed, STRETCH), load: null }] };
    const done = travel(car, trip, rangeSettings(car, { surroundings: surroundingsOf(where, changes), ...options }));
    const ends = (done.status === 'empty' || done.status === 'weak') && done.follower.inner.totals.late === 0;
    figures['range'] = ends ? done.distance : null;
    travelFigures(ends ? done : null, car, wall, figures);
  };
}

function chargeAnswer(run: Extract<Run, { kind: 'charge' }>): Answer {
  return (car, changes, figures) => {
    const { kind: _kind, ...options } = withChanges(run, changes);
    const { plant, initial } = chargeStart(car, options);
    const charged = plant.modeAt(initial) < 0 ? null : chargeOnce(car, options);
    const full = charged !== null && charged.end.charge > charged.to - 0.01 ? charged : null;
    figures['time'] = full?.end.time ?? null;
    figures['energy_wall'] = full === null ? null : chargeIntegral(full.end.integrals, 'wall');
  };
}

/** Whether what was thrown is about a car that makes no sense, and what it says. */
export function refusal(error: unknown): string {
  if (error instanceof SpecError) return `${error.path} ${error.message}`;
  if (error instanceof RangeError) return error.message;
  throw error;
}
