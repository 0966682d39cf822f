/** A launch: full pedal from rest (or from a speed), explained. */
import type { Effort } from '../kind.ts';
import { nth } from '../../columns.ts';
import { checkOptions, FUNCTION, SPEED, SURROUNDINGS } from '../options.ts';
import { ABOVE_0_TO_1, oneOf, type Rules, SHARE, within } from '../rules.ts';
import type { Car } from '../../model/car.ts';
import { axleMode, GRIP, L } from '../../model/forward/state.ts';
import { launchEvents } from './events.ts';
import { ALL } from './extras.ts';
import type { LaunchExtras } from './extras.ts';
import { launchedFigures } from './figures.ts';
import { launchOutputs } from './outputs.ts';
import { MARKS } from './marks.ts';
import { launchOnce, TARGET } from './run.ts';
import type { LaunchOptions, LaunchRun } from './run.ts';
import { bandsOf, timeSeries, tractionSeries } from './series.ts';
import { noAnswer } from '../no-answer.ts';
import { earlyWords, leastLoads } from './summary.ts';
import { ledgerOf } from '../ledger.ts';
import type { Result, SecondOpinion } from '../result.ts';
import type { LaunchSummary } from '../summaries/launch.ts';
import { sound } from '../sound.ts';

/**
 * Launches a car and answers with everything that `launchOutputs` describes, series, the limiter bands, the ledger and a
 * second opinion by another integrator. A car that cannot move off is a result with a reason, not an error.
 * @throws SpecError for a car or options that can not be.
 */
export function launch(car: Car, options: LaunchOptions, effort: Effort = 'whole'): Result<LaunchSummary> {
  return launchWith(ALL, car, options, effort);
}

/** A launch with what is put beside it. */
export function launchWith(
  extras: LaunchExtras,
  car: Car,
  options: LaunchOptions,
  effort: Effort,
): Result<LaunchSummary> {
  checkLaunch(car, options);
  const wanted = effort === 'whole' ? undefined : effort.wanted;
  const launched = launchedFigures(car, options, wanted, launchOnce, extras, effort === 'whole');
  if ('none' in launched) {
    return noAnswer('launch', launchOutputs, launched.none, launched.ended, { target_speed: options.to ?? TARGET });
  }
  const { run, opinion, warning, balance, top, trail, summary, reasons } = launched;
  const time = timeSeries(run);
  const ledger = ledgerOf(run);
  return sound({
    kind: 'launch',
    summary,
    reasons,
    outputs: launchOutputs,
    series: { time, traction: tractionSeries(balance, top?.speed ?? 0), ...extras.series(car, options) },
    bands: bandsOf(time),
    events: launchEvents(run),
    ledger,
    warnings: [...(warning === '' ? [] : [warning]), ...warnings(run, opinion), ...shaftWarning(run, car)],
    opinion,
    ...(trail !== null && { trail }),
  });
}

/** What the reader must mind; what makes the run doubtful is told by `doubts.ts`. */
function warnings(run: LaunchRun, opinion: SecondOpinion | null): readonly string[] {
  const { solution } = run;
  const list: string[] = [];
  const back = run.marks.get('back');
  if (back !== undefined) list.push(`The car comes to rest ${back.time.toPrecision(3)} s after the start`);
  const early = earlyWords(run);
  if (early !== '') list.push(`The run ends early: ${early}`);
  // Where the second method agrees, being late has moved nothing.
  if (solution.statistics.lateSwitches > 0 && opinion?.agrees !== true) {
    list.push(`${solution.statistics.lateSwitches} changes of limiter were found late: times may be off by a step`);
  }
  for (const [axle, load] of Object.entries(leastLoads(run))) {
    if (load <= 0)
      list.push(`The ${axle} wheels lift off the road: the model does not hold beyond that, and no car should`);
  }
  return list;
}

/** A limit of the half shafts holds only as long as something keeps the torque down to it. */
function shaftWarning(run: LaunchRun, car: Car): readonly string[] {
  const { modes, nodes } = run.solution;
  const limited = (k: number): boolean =>
    [0, 1].some(axle => (axleMode(nth(modes, k), axle) & (GRIP | 15)) === L.shaft);
  if (!Array.from({ length: nodes }, (_, k) => k).some(limited)) return [];
  return car.drives.flatMap(({ shaftTorque, unit, ratio, efficiency, gearbox }) => {
    if (shaftTorque === null) return [];
    const most = unit.peakTorque * ratio * efficiency * (gearbox?.gears[0]?.ratio ?? 1);
    return most <= shaftTorque
      ? []
      : [
          `The half shafts bear ${shaftTorque.toFixed(0)} N m together, ${(shaftTorque / 2).toFixed(0)} N m each; the drive unit could put ${most.toFixed(0)} N m into both. This run holds only if the inverter is set to keep the torque down; otherwise they are overloaded.`,
        ];
  });
}

const RULES: Rules<LaunchOptions> = {
  surroundings: SURROUNDINGS,
  from: SPEED,
  to: SPEED,
  pedal: ABOVE_0_TO_1,
  stop: oneOf(MARKS),
  emptyAt: SHARE,
  // Beyond these the integration either does not end or says nothing.
  tolerance: within(1e-13, 1e-2),
  initial: FUNCTION,
};

/** @throws SpecError where a launch can not be driven so. */
export function checkLaunch(car: Car, options: LaunchOptions): void {
  checkOptions(car, options, RULES, ['surroundings']);
}
