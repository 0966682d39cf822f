/** A launch: full pedal from rest (or from a speed), explained. */
import { refuseUnknown } from '../options.ts';
import type { Car } from '../../model/car.ts';
import { axleMode, GRIP, L } from '../../model/forward/state.ts';
import { balanceOf } from '../sheet/balance.ts';
import { checked } from './checked.ts';
import { launchEvents } from './events.ts';
import { gearsSeries } from './gears.ts';
import { gripBill } from './grip-bill.ts';
import type { Mark } from './marks.ts';
import { launchOutputs } from './outputs.ts';
import { launchOnce } from './run.ts';
import type { LaunchOptions, LaunchRun } from './run.ts';
import { bandsOf, timeSeries, tractionSeries } from './series.ts';
import { noAnswer } from '../no-answer.ts';
import { leastLoads, summarise } from './summary.ts';
import { integral, ledgerOf } from '../ledger.ts';
import type { Ledger, Result, SecondOpinion } from '../result.ts';
import { sound } from '../sound.ts';
import { topSpeed } from '../sheet/top-speed.ts';
import { withTraction } from '../variant.ts';

/** Of the runs with free wheels, which are stiff. */
const SPIN_TOLERANCE = 1e-6;

/** A single run that somebody reads is worth more digits than one of a sweep. */
const TOLERANCE = 1e-9;

/**
 * Launches a car and answers with everything that `launchOutputs` describes, series, the limiter bands, the ledger and a
 * second opinion by another integrator. A car that cannot move off is a result with a reason, not an error.
 */
export function launch(car: Car, options: LaunchOptions): Result {
  refuseUnknown(options, OPTIONS);
  const balance = balanceOf(car, options.surroundings);
  const start = balance(options.from ?? 0);
  if (!(start.acceleration > 0)) return stuck(options.from ?? 0, start.limiter, start.used, start.resistance);
  const settings = { tolerance: TOLERANCE, ...options };
  const top = topSpeed(balance);
  const first = toTheLastMark(car, settings, top?.speed ?? 0);
  const { run, opinion, warning, lost } = checked(car, { ...settings, stop: first.stop }, first.run);
  if (lost !== '') return { ...noAnswer('launch', launchOutputs, lost), ended: lost };
  const { values, reasons } = summarise(run, car, settings);
  values['top_speed'] = top?.speed ?? null;
  values['top_speed_limiter'] = top?.limiter ?? null;
  if (top === null) reasons['top_speed'] = reasons['top_speed_limiter'] = 'still accelerating at 540 km/h';
  addGripBill(values, reasons, car, options);
  addTractionCost(values, reasons, car, settings);
  const time = timeSeries(run);
  const ledger = ledgerOf(run);
  return sound({
    kind: 'launch',
    summary: ordered(values),
    reasons,
    outputs: launchOutputs,
    series: { time, traction: tractionSeries(balance, top?.speed ?? 0), ...gearsSeries(car, options) },
    bands: bandsOf(time),
    events: launchEvents(run),
    ledger,
    warnings: [...(warning === '' ? [] : [warning]), ...warnings(run, ledger, opinion), ...shaftWarning(run, car)],
    opinion,
  });
}

/** To the mark that is asked for, or to 1000 m; a car that would pass 160 km/h only later is driven on to there. */
function toTheLastMark(
  car: Car,
  settings: LaunchOptions,
  top: number,
): { readonly run: LaunchRun; readonly stop: Mark } {
  const stop = settings.stop ?? '1000_m';
  const run = launchOnce(car, { ...settings, stop });
  if (settings.stop !== undefined || run.marks.has('160_km_h') || top < 160.5 / 3.6) return { run, stop };
  return { run: launchOnce(car, { ...settings, stop: '160_km_h' }), stop: '160_km_h' };
}

/** What the missing traction control costs: `held` against `spin`, whichever of the two the car itself has. */
function addTractionCost(
  values: { [key: string]: number | string | null },
  reasons: { [key: string]: string },
  car: Car,
  settings: LaunchOptions,
): void {
  const keys = [
    'time_without_control',
    'control_worth',
    'slip_energy_without_control',
    'slip_energy_with_control',
  ] as const;
  const explain = (reason: string): void => {
    for (const key of keys) [values[key], reasons[key]] = [null, reason];
  };
  if (car.drives.some(({ axle }) => car.tyres[axle].slipAtPeak === 0)) return explain('the tyres are taken as rigid');
  const short = { ...settings, stop: '100_km_h', tolerance: SPIN_TOLERANCE } as const;
  const spun = launchOnce(withTraction(car, 'spin'), short).marks.get('100_km_h');
  const held = launchOnce(withTraction(car, 'held'), short).marks.get('100_km_h');
  if (spun === undefined || held === undefined) return explain('100 km/h is not reached');
  values['time_without_control'] = spun.time;
  values['control_worth'] = spun.time - held.time;
  values['slip_energy_without_control'] = integral(spun.integrals, 'slip');
  values['slip_energy_with_control'] = integral(held.integrals, 'slip');
}

function addGripBill(
  values: { [key: string]: number | string | null },
  reasons: { [key: string]: string },
  car: Car,
  options: LaunchOptions,
): void {
  const bill = gripBill(car, options);
  const unreached = '100 km/h is not reached';
  const put = (key: string, value: number | null, reason: string): void => {
    values[key] = value;
    if (value === null) reasons[key] = reason;
  };
  put('time_unlimited_grip', bill.timeUnlimited, unreached);
  put('friction_enough', bill.frictionEnough, bill.gainPerFriction === null ? unreached : 'no friction is enough');
  put('gain_per_friction', bill.gainPerFriction, unreached);
  put('power_enough', bill.powerEnough, 'not told for a torque table, or 100 km/h is not reached');
}

/** The keys in the order of `launchOutputs`; whatever is missing is an error in this file, not the user's. */
function ordered(values: { readonly [key: string]: number | string | null }): Result['summary'] {
  const summary: { [key: string]: number | string | null } = {};
  for (const key of Object.keys(launchOutputs)) {
    const value = values[key];
    if (value === undefined) throw new Error(`launch has no value for ${key}`);
    summary[key] = value;
  }
  return summary;
}

function warnings(run: LaunchRun, ledger: Ledger, opinion: SecondOpinion | null): readonly string[] {
  const { solution } = run;
  const list: string[] = [];
  const back = run.marks.get('back');
  if (back !== undefined)
    list.push(`The car comes to rest ${back.time.toPrecision(3)} s after the start, and rolls back`);
  // Where the second method agrees, being late has moved nothing.
  if (solution.statistics.lateSwitches > 0 && opinion?.agrees !== true) {
    list.push(`${solution.statistics.lateSwitches} changes of limiter were found late: times may be off by a step`);
  }
  if (Math.abs(ledger.gap) > 1e-6) list.push(`The energy ledger does not close: ${ledger.gap.toExponential(1)} of it`);
  for (const [axle, load] of Object.entries(leastLoads(run))) {
    if (load <= 0)
      list.push(`The ${axle} wheels lift off the road: the model does not hold beyond that, and no car should`);
  }
  if (opinion !== null && !opinion.agrees) {
    list.push(`A second integrator disagrees by ${opinion.difference.toExponential(1)} (${opinion.where})`);
  }
  return list;
}

/** A limit of the half shafts holds only as long as something keeps the torque down to it. */
function shaftWarning(run: LaunchRun, car: Car): readonly string[] {
  const { modes, nodes } = run.solution;
  const limited = (k: number): boolean => [0, 1].some(axle => (axleMode(modes[k]!, axle) & (GRIP | 15)) === L.shaft);
  if (!Array.from({ length: nodes }, (_, k) => k).some(limited)) return [];
  return car.drives.flatMap(({ shaftTorque, unit, ratio, efficiency, gearbox }) => {
    if (shaftTorque === null) return [];
    const most = unit.peakTorque * ratio * efficiency * (gearbox?.gears[0]?.ratio ?? 1);
    return most <= shaftTorque
      ? []
      : [
          `The half shafts bear ${shaftTorque.toFixed(0)} N m; the drive unit could put ${most.toFixed(0)} N m into them. This run holds only if the inverter is set to keep the torque down; otherwise they are overloaded.`,
        ];
  });
}

/** The answer for a car that does not move off. */
function stuck(from: number, limiter: string, force: number, resistance: number): Result {
  const reason = `the car does not ${from > 0 ? 'accelerate from that speed' : 'move off'}: ${limiter} leaves ${force.toFixed(0)} N against ${resistance.toFixed(0)} N of resistance`;
  return noAnswer('launch', launchOutputs, reason);
}

const OPTIONS = {
  surroundings: true,
  from: true,
  to: true,
  pedal: true,
  stop: true,
  tolerance: true,
  initial: true,
} as const;
