/** Launches as a calibrate cell gives them. */
import { ascentOf } from '../../fit/launch/ascent.ts';
import { launchFit, type Nuisance } from '../../fit/launch/launch-fit.ts';
import { LAUNCH_PARAMETERS, type LaunchParameter } from '../../fit/launch/parameters.ts';
import { launchLogResult, noLaunchFit } from '../../fit/launch/result.ts';
import { usualStep } from '../../fit/rows.ts';
import { readSpeedLog, type SpeedLog } from '../../fit/speed-log.ts';
import type { Surroundings } from '../../model/car.ts';
import { completeSurroundings } from '../../model/complete.ts';
import { filler } from '../../model/fields/filler.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { Result } from '../../runs/result.ts';
import { item } from '../../columns.ts';
import { inLog } from '../files/log-file.ts';
import { calibrateFields } from './calibrate-fields.ts';
import type { Calibrating } from './calibrate.ts';
import { launchLines, parameterAt } from './launch-lines.ts';
import { movedInputs } from './moved-inputs.ts';
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

/** Everything uncertain about car and day, each a standard uncertainty up and down. */
function nuisancesOf(asked: Calibrating, surroundings: Surroundings): readonly Nuisance[] {
  const { name, values, car } = asked;
  const full = new Set(atFullPedal(asked.inputs));
  const inputs = asked.inputs.filter(each => full.has(each));
  const moved = movedInputs({ ...asked, inputs }, 'launch', surroundings, () => true);
  const air = (key: 'wind' | 'slope', standard: number): Nuisance[] => {
    if (moved.some(({ path }) => path === `${name}.${key}`)) return [];
    const by = (off: number): Nuisance['up'] => ({
      car: car.car,
      surroundings: { ...surroundings, [key]: surroundings[key] + off },
    });
    const said = values[key] === undefined ? 'nothing' : 'no ±';
    return [{ name: `the ${key}, of which the cell says ${said}`, input: null, up: by(standard), down: by(-standard) }];
  };
  return [
    ...moved.map(({ path, ...rest }) => ({
      ...rest,
      name: path,
      parameter: parameterAt(path.slice(car.carName.length + 1)),
    })),
    ...air('wind', WIND),
    ...air('slope', SLOPE),
  ];
}
