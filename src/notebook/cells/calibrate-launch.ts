/** Launches as a calibrate cell gives them. */
import { launchFit } from '../../fit/launch/launch-fit.ts';
import type { Nuisance } from '../../fit/launch/measurement.ts';
import { LAUNCH_PARAMETERS, type LaunchParameter } from '../../fit/launch/parameters.ts';
import { type LaunchLog, readLaunchLog } from '../../fit/launch/launch-log.ts';
import { launchLogResult, noLaunchFit } from '../../fit/launch/result.ts';
import { usualStep } from '../../fit/rows.ts';
import type { Surroundings } from '../../model/car.ts';
import { completeSurroundings } from '../../model/complete.ts';
import { filler } from '../../model/fields/filler.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { Result } from '../../runs/result.ts';
import { item } from '../../columns.ts';
import { entryOf } from '../document/located.ts';
import { inLog } from '../files/log-file.ts';
import { calibrateFields } from './calibrate-fields.ts';
import type { Calibrating } from './calibrating.ts';
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

/** What goes first where nobody asked for it by name. */
const LEAST: readonly LaunchParameter[] = ['torque_rise', 'copper_loss', 'power_at_top'];

export function calibrateLaunch(asked: Calibrating): Result {
  const { name, values, car, assumed } = asked;
  const { logs, notes } = logsOf(asked);
  const wanted = wantedOf(asked, logs);
  const where = Object.fromEntries(
    ['temperature', 'altitude', 'humidity', 'wind', 'slope', 'surface'].flatMap(key =>
      values[key] === undefined ? [] : [[key, values[key]]],
    ),
  );
  const { surroundings } = completeSurroundings(where, name, assumed);
  const fill = filler(name, calibrateFields, values, assumed);
  const over = fill.derived('receiver', () => Math.min(LONGEST_MEAN, usualStep(item(logs, 0))));
  const meter = logs.some(({ power }) => power !== undefined) ? fill.number('meter') : null;
  const nuisances = nuisancesOf(asked, surroundings, meter);
  const beside = values['fit'] === undefined ? LEAST : [];
  const found = launchFit({ logs, car: car.car, surroundings, wanted, beside, over, nuisances });
  if ('short' in found) return noLaunchFit(found.short, notes);
  const lines = launchLines(found, car.car, asked.map, surroundings.surface);
  return launchLogResult(found, { car: car.car, surroundings, nuisances, lines, warnings: notes });
}

function wantedOf({ name, values, car, map }: Calibrating, logs: readonly LaunchLog[]): readonly LaunchParameter[] {
  const { fit } = values;
  const powered = logs.some(({ power }) => power !== undefined);
  const mapped = car.car.drives.some(({ unit }) => unit.losses.map !== undefined);
  if (!Array.isArray(fit)) return powered && !mapped ? [...USUAL, 'copper_loss'] : USUAL;
  if (fit.includes('mass') && entryOf(map, 'weights') !== undefined)
    throw new SpecError(
      `${name}.fit`,
      'asks for the mass, which the car cell takes from its weights',
      'fit: without it',
    );
  if (fit.includes('copper_loss') && !powered)
    throw new SpecError(
      `${name}.fit`,
      'asks for copper_loss, and no log tells the power of the pack',
      'a column power [kW], or voltage [V] and current [A]',
    );
  if (fit.includes('copper_loss') && mapped)
    throw new SpecError(
      `${name}.fit`,
      'asks for copper_loss, and the drive unit has a map of its losses',
      'fit: without it',
    );
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

function logsOf({ name, values, world, car: { car } }: Calibrating): {
  readonly logs: readonly LaunchLog[];
  readonly notes: readonly string[];
} {
  const to = typeof values['to'] === 'number' ? values['to'] : undefined;
  const driven = car.drives.map(({ axle }) => axle);
  const [first = 'rear'] = driven;
  const notes: string[] = [];
  const logs = rowsOf(values['launch']).map((row, i) => {
    const path = `${name}.launch[${i + 1}]`;
    const file = typeof row['log'] === 'string' ? row['log'] : '';
    const text = textOf(file, path, each => world.readFile(each));
    return inLog(text, file, () => {
      const log = readLaunchLog(text, {
        title: file,
        units: unitsOf(values),
        columns: columnsOf(values),
        driven,
        radius: car.tyres[first].radius,
        to,
      });
      notes.push(...log.notes.map(note => `${file}: ${note}`));
      return log;
    });
  });
  if (logs.length === 0) throw new SpecError(`${name}.launch`, 'names no log', 'a list of logs: - { log: launch.csv }');
  return { logs, notes };
}

/** Everything uncertain about car and day, each a standard uncertainty up and down. */
function nuisancesOf(asked: Calibrating, surroundings: Surroundings, meter: number | null): readonly Nuisance[] {
  const { name, values, car } = asked;
  const full = new Set(atFullPedal(asked.inputs));
  const inputs = asked.inputs.filter(each => full.has(each));
  const moved = movedInputs({ ...asked, inputs }, 'launch', surroundings, () => true);
  const same = { car: car.car, surroundings };
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
    ...(meter === null ? [] : [{ name: 'the meter of the power', input: null, meter, up: same, down: same }]),
  ];
}
