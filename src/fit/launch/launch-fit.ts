/** From logs of launches to grip, power and how fast torque builds up, with their covariance. */
import * as elementary from '../../elementary.ts';
import { item, nth } from '../../columns.ts';
import type { Car } from '../../model/car.ts';
import { hanging } from '../coast/one-run.ts';
import { scatterCovariance } from '../least-squares.ts';
import { added, type Covariance, effectOf, expanded, meanOf, scaled } from '../linear.ts';
import type { Shortcoming } from '../problem.ts';
import { checkCar } from '../../runs/checked-car.ts';
import { SURROUNDINGS } from '../../runs/options.ts';
import { each, group, NOT_BELOW_0, oneOf, optional, refused, type Rule } from '../../runs/rules.ts';
import { weakestOf } from '../untold.ts';
import { unevenOf, unlikelyOf } from './doubts.ts';
import { carWith, fitLogs, rootMeanSquare, withoutSpikes } from './fit-logs.ts';
import { LAUNCH_PARAMETERS, type LaunchParameter, PARAMETER_KINDS } from './parameters.ts';
import { besideOf, shortOf, untoldOf } from './words.ts';
import type { Nuisance, LaunchMeasurement, LaunchFit, Effect } from './measurement.ts';

/** Launches whose scatter means something. */
const ENOUGH = 3;

/**
 * What launches say about a car: power, grip and the like, with their covariance; or why they say too little.
 * @throws SpecError for a car, surroundings, logs or parameters that can not be.
 */
export function launchFit(measured: LaunchMeasurement): LaunchFit | { readonly short: readonly Shortcoming[] } {
  MEASURED(measured, 'measured');
  const untold: string[] = [];
  const beside = besideOf(measured.logs);
  let { wanted } = measured;
  for (;;) {
    const found = fitOf({ ...measured, wanted, nuisances: [...measured.nuisances, ...forcesOf(measured, wanted)] });
    const weak = weakIn(found.covariance, wanted);
    if (weak === null) {
      const unlikely = unlikelyOf(found) ?? unevenOf(found);
      return unlikely === null ? { ...found, untold } : { short: [unlikely] };
    }
    const spare = measured.beside?.find(each => weak.includes(each));
    const [only] = spare === undefined ? weak : [spare];
    if ((weak.length > 1 && spare === undefined) || only === undefined || wanted.length === 1 || only === 'mass')
      return { short: [shortOf(weak, beside)] };
    untold.push(`${untoldOf(only, beside)}${mostlyBy(found, only)}`);
    wanted = wanted.filter(each => each !== only);
  }
}

const LIST: Rule = (value, path) => {
  if (!Array.isArray(value)) throw refused(path, value, 'a list');
};

const LOGS: Rule = (value, path) => {
  if (!Array.isArray(value) || value.length === 0)
    throw refused(path, value, 'one log or more, as readLaunchLog gives them');
};

const MEASURED = group<LaunchMeasurement>({
  logs: LOGS,
  car: value => {
    checkCar(value as Car);
  },
  surroundings: SURROUNDINGS,
  wanted: each(oneOf(LAUNCH_PARAMETERS)),
  beside: optional(each(oneOf(LAUNCH_PARAMETERS))),
  over: NOT_BELOW_0,
  nuisances: LIST,
});

/** Share by which a force that nobody measured may be off, where the mass is asked for: with all forces and the mass the speed stays. */
const UNMEASURED = 0.15;

function forcesOf({ car, surroundings }: LaunchMeasurement, wanted: readonly LaunchParameter[]): readonly Nuisance[] {
  if (!wanted.includes('mass')) return [];
  const one = (name: string, change: (factor: number) => Car): Nuisance => ({
    name,
    input: null,
    up: { car: change(1 + UNMEASURED), surroundings },
    down: { car: change(1 - UNMEASURED), surroundings },
  });
  const forces = (['power', 'torque', 'grip'] as const).filter(each => !wanted.includes(each));
  return [
    ...forces.map(each => one(PARAMETER_KINDS[each].name, factor => PARAMETER_KINDS[each].apply(car, factor))),
    one('drag', factor => ({ ...car, body: { ...car.body, dragArea: factor * car.body.dragArea } })),
  ];
}

type Found = Omit<LaunchFit, 'untold'>;

function fitOf(measured: LaunchMeasurement): Found {
  const { wanted } = measured;
  const first = fitLogs(measured, measured.logs);
  const logs = withoutSpikes(first);
  const together = logs.some(({ left }) => left !== undefined) ? fitLogs(measured, logs) : first;
  const count = wanted.length;
  const effects = measured.nuisances
    .filter(({ parameter }) => parameter === undefined || !wanted.includes(parameter))
    .map(
      (nuisance): Effect => ({
        name: nuisance.name,
        input: nuisance.input,
        shift: together.shift(nuisance).slice(0, count),
      }),
    );
  const beside = effects.reduce<number[][]>(
    (all, { shift }) => added(all, effectOf(shift, 1)),
    wanted.map(() => wanted.map(() => 0)),
  );
  const byRows = scaled(scatterCovariance(together.fit), hangingOf(together.stretches));
  const whole = added(
    byRows.slice(0, count).map(row => row.slice(0, count)),
    beside,
  );
  const found = {
    parameters: wanted,
    launches: together.launches,
    noise: rootMeanSquare(Float64Array.from(together.launches.flatMap(({ residuals }) => [...residuals]))),
    powerNoise: together.powerNoise,
    wheelFactor: together.wheelFactor,
    effects,
  };
  // What all rows together do not tell no launch by itself tells.
  const apart = logs.length >= ENOUGH && weakIn(whole, wanted) === null && whole.flat().every(Number.isFinite);
  if (!apart) {
    const values = together.fit.parameters.slice(0, count);
    return { ...found, ...standing(measured, values, whole, effects), scatter: 'rows' };
  }
  const byLog = logs.map(log => fitLogs(measured, [log], together).fit.parameters.slice(0, count));
  const scatter = meanOf(byLog);
  const covariance = expanded({ scatter: scatter.covariance, beside, freedom: logs.length - 1 });
  return { ...found, ...standing(measured, scatter.mean, covariance, effects), scatter: 'launches' };
}

function standing(
  { car, wanted }: LaunchMeasurement,
  values: readonly number[],
  covariance: Covariance,
  effects: readonly Effect[],
): Pick<Found, 'values' | 'covariance' | 'car' | 'greatest'> {
  return { values, covariance, car: carWith(car, wanted, values), greatest: greatestOf(effects, covariance) };
}

/** What most of the uncertainty of a parameter comes from, where it is one thing. */
function mostlyBy({ parameters, effects, covariance }: Found, parameter: LaunchParameter): string {
  const k = parameters.indexOf(parameter);
  const whole = nth(item(covariance, k), k);
  const most = effects.find(({ shift }) => elementary.pow(nth(shift, k), 2) > 0.5 * whole);
  return most === undefined ? '' : ` (most of what is uncertain about it comes from ${most.name})`;
}

/** The same for rows of several logs and instruments: their mean by how many they are. */
function hangingOf(stretches: readonly Float64Array[]): number {
  const rows = stretches.reduce((all, { length }) => all + length, 0);
  return stretches.reduce((all, stretch) => all + (stretch.length / rows) * hanging(stretch), 0);
}

function greatestOf(effects: readonly Effect[], covariance: Covariance): LaunchFit['greatest'] {
  const whole = nth(item(covariance, 0), 0);
  const shares = effects.map(({ name, shift }) => ({ name, share: elementary.pow(nth(shift, 0), 2) / whole }));
  return shares.toSorted((a, b) => b.share - a.share)[0] ?? null;
}

function weakIn(covariance: Covariance, wanted: readonly LaunchParameter[]): readonly LaunchParameter[] | null {
  const weak = weakestOf(
    covariance,
    wanted.map(each => PARAMETER_KINDS[each].scale),
  );
  return weak === null ? null : weak.map(k => item(wanted, k));
}
