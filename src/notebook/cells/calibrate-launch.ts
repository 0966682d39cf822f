/** Launches as a calibrate cell gives them. */
import { ascentOf } from '../../fit/launch/ascent.ts';
import { launchFit, type Nuisance } from '../../fit/launch/launch-fit.ts';
import { LAUNCH_PARAMETERS, type LaunchParameter, ROOM } from '../../fit/launch/parameters.ts';
import { launchLogResult, noLaunchFit } from '../../fit/launch/result.ts';
import { usualStep } from '../../fit/rows.ts';
import { readSpeedLog, type SpeedLog } from '../../fit/speed-log.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { completeCar, completeSurroundings } from '../../model/complete.ts';
import { UNLISTED, filler } from '../../model/fields/filler.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { type Change, withChanges } from '../../runs/answer/change.ts';
import type { Question } from '../../runs/answer/question.ts';
import type { Result } from '../../runs/result.ts';
import { changesOfOne, drawsOf, type Uncertain } from '../../studies/sampling/uncertain.ts';
import { item } from '../../columns.ts';
import { inLog } from '../files/log-file.ts';
import { uncertainOf } from '../uncertain-inputs.ts';
import { calibrateFields } from './calibrate-fields.ts';
import type { Calibrating } from './calibrate.ts';
import { launchLines, parameterAt } from './launch-lines.ts';
import { atFullPedal } from './the-car.ts';
import { columnsOf, rowsOf, textOf, unitsOf } from './trip-way.ts';

/** Standard uncertainties of wind in m/s and slope where nothing is said. Common practice, no source. */
const WIND = 1;
const SLOPE = 0.003;
/** s: longer than this no receiver averages. Common practice, no source. */
const LONGEST_MEAN = 0.2;
const USUAL: readonly LaunchParameter[] = ['power', 'power_at_top', 'grip', 'torque', 'torque_rise'];

export function calibrateLaunch(asked: Calibrating): Result {
  const { name, values, car, assumed } = asked;
  const { logs, notes } = logsOf(asked);
  const wanted = wantedOf(asked);
  const where = Object.fromEntries(
    ['temperature', 'altitude', 'humidity', 'wind', 'slope', 'surface'].flatMap(key =>
      values[key] === undefined ? [] : [[key, values[key]]],
    ),
  );
  const { surroundings } = completeSurroundings(where, name, assumed);
  const fill = filler(name, calibrateFields, values, assumed);
  const over = fill.derived('receiver', () => Math.min(LONGEST_MEAN, usualStep(item(logs, 0))));
  const nuisances = nuisancesOf(asked, surroundings);
  const found = launchFit({ logs, car: car.car, surroundings, wanted, over, nuisances });
  if ('short' in found) return noLaunchFit(found.short, notes);
  const lines = launchLines(found, car.car, asked.map, surroundings.surface);
  return launchLogResult(found, { car: car.car, surroundings, lines, warnings: notes });
}

function wantedOf({ name, values }: Calibrating): readonly LaunchParameter[] {
  const { fit } = values;
  if (!Array.isArray(fit)) return USUAL;
  return fit.map((word: unknown) => {
    const known = LAUNCH_PARAMETERS.find(each => each === word);
    if (known !== undefined) return known;
    throw new SpecError(
      `${name}.fit`,
      `"${String(word)}" is nothing that a launch gives`,
      LAUNCH_PARAMETERS.join(', '),
    );
  });
}

function logsOf({ name, values, world }: Calibrating): {
  readonly logs: readonly SpeedLog[];
  readonly notes: readonly string[];
} {
  const to = typeof values['to'] === 'number' ? values['to'] : undefined;
  const notes: string[] = [];
  const logs = rowsOf(values['launch']).map((row, i) => {
    const path = `${name}.launch[${i + 1}]`;
    const file = typeof row['log'] === 'string' ? row['log'] : '';
    const text = textOf(file, path, each => world.readFile(each));
    return inLog(text, file, () => {
      const log = readSpeedLog(text, { title: file, units: unitsOf(values), columns: columnsOf(values) });
      notes.push(...log.notes.map(note => `${file}: ${note}`));
      return ascentOf(log, to);
    });
  });
  if (logs.length === 0) throw new SpecError(`${name}.launch`, 'names no log', 'a list of logs: - { log: launch.csv }');
  return { logs, notes };
}

/** Everything uncertain about car and day that is not fitted, each a standard uncertainty up and down. */
function nuisancesOf({ name, values, inputs, car }: Calibrating, surroundings: Surroundings): readonly Nuisance[] {
  const { carName, spec, measured, joint } = car;
  const run = { kind: 'launch', values: {} } as const;
  const question: Question = {
    car: carName,
    name,
    spec,
    measured: [...measured],
    run,
    ...(joint.length > 0 && { joint }),
  };
  const drawn = uncertainOf(question, atFullPedal(inputs));
  const draws = drawsOf(drawn);
  const changed = (changes: readonly Change[]): { readonly car: Car; readonly surroundings: Surroundings } => {
    const below = (head: string): readonly Change[] =>
      changes
        .filter(({ path }) => path.startsWith(`${head}.`))
        .map(each => ({ ...each, path: each.path.slice(head.length + 1) }));
    const other = below(carName);
    return {
      car: other.length === 0 ? car.car : completeCar(withChanges(spec, other), carName, measured, UNLISTED).car,
      surroundings: withChanges(surroundings, below(name)),
    };
  };
  const of = (input: Uncertain, k: number): Nuisance => {
    const { mean, standard, low, high } = item(draws, k);
    const [up, down] = [mean + standard, mean - standard].map(value =>
      changed(changesOfOne(input, Math.min(high, Math.max(low, value)), drawn)),
    );
    const inCar = input.path.startsWith(`${carName}.`) && input.mix === undefined && fits(input, standard);
    return {
      name: input.path,
      parameter: parameterAt(input.path.slice(carName.length + 1)),
      input: inCar ? { path: input.path.slice(carName.length + 1), standard } : null,
      up: up ?? changed([]),
      down: down ?? changed([]),
    };
  };
  const air = (key: 'wind' | 'slope', standard: number): Nuisance[] => {
    if (drawn.some(({ path }) => path === `${name}.${key}`)) return [];
    const moved = (by: number): Nuisance['up'] => ({
      car: car.car,
      surroundings: { ...surroundings, [key]: surroundings[key] + by },
    });
    return [
      {
        name: `the ${key}, of which the cell says ${values[key] === undefined ? 'nothing' : 'no ±'}`,
        input: null,
        up: moved(standard),
        down: moved(-standard),
      },
    ];
  };
  return [...drawn.map(of), ...air('wind', WIND), ...air('slope', SLOPE)];
}

/** Whether it may be drawn from a normal distribution. */
function fits({ value, min, max }: Uncertain, standard: number): boolean {
  return (
    value - ROOM * standard >= (min ?? Number.NEGATIVE_INFINITY) &&
    value + ROOM * standard <= (max ?? Number.POSITIVE_INFINITY)
  );
}
