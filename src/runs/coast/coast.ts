/** A car with the foot off the pedal: how long and how far it coasts from one speed to another, and what comes back. */
import * as elementary from '../../elementary.ts';
import { nth } from '../../columns.ts';
import { COAST, COAST_ENERGY } from '../../model/backward/coasting.ts';
import { Powers, powersOfRow } from '../../model/backward/state.ts';
import type { Car } from '../../model/car.ts';
import { solveExtrapolation } from '../../solvers/extrapolation.ts';
import { putInto } from '../found.ts';
import { noAnswer } from '../no-answer.ts';
import type { None } from '../no-answer.ts';
import { checkOptions, SPEED, SURROUNDINGS } from '../options.ts';
import { type Rules, SHARE, within } from '../rules.ts';
import type { Ledger, Result, ResultEvent, Series } from '../result.ts';
import { numbers } from '../series.ts';
import { sound } from '../sound.ts';
import type { Figures } from '../sound.ts';
import { coastOpinion } from './opinion.ts';
import { coastOutputs } from './outputs.ts';
import { coastOnce, coastStart, whyCoastStarved } from './run.ts';
import type { CoastMark, CoastOptions, CoastRun } from './run.ts';
import { coastMarks, coastTrace, slowingForce, slowingOf } from './series.ts';
import { coastTrail } from './trail.ts';

interface Coasted extends Figures {
  readonly run: CoastRun;
  readonly ledger: Ledger;
  readonly time: Series;
}

/** The figures of a coast-down; or why there is none. @throws RangeError as `coast`. */
export function coastFigures(car: Car, options: CoastOptions): Coasted | None {
  const none = turnsTooFast(car, options);
  if (none !== '') return { none };
  const run = coastOnce(car, options);
  if (run === null) return { none: `at ${kmh(options.from)} the car does not slow down: ${PULLS}` };
  const starved = whyCoastStarved(run);
  if (starved !== '') return { none: starved };
  const ledger = ledgerOf(run);
  const time = coastTrace(run);
  return { run, ledger, time, ...summarise(options, run, ledger, time) };
}

/**
 * Lets a car coast from one speed to a lower one, in neutral or in gear. One that does not get there is a result with a reason.
 * @throws RangeError when `to` is not below `from`.
 */
export function coast(car: Car, options: CoastOptions): Result {
  checkOptions(car, options, RULES, ['surroundings', 'from', 'to', 'lift']);
  const coasted = coastFigures(car, options);
  if ('none' in coasted) return noAnswer('coast', coastOutputs, coasted.none);
  const { run, ledger, time, summary, reasons } = coasted;
  const { solution } = run;
  return sound({
    kind: 'coast',
    summary,
    reasons,
    outputs: coastOutputs,
    series: { time, marks: coastMarks(run) },
    bands: [],
    events: eventsOf(run),
    ledger,
    warnings: solution.status === 'level' ? [] : [whyShort(options, run)],
    // Where the one method did not get on the other does not either, for minutes, and there is nothing to compare.
    opinion: solution.status === 'failed' ? null : coastOpinion(run, coastOnce(car, options, solveExtrapolation)),
    trail: coastTrail(run, car),
    ...(solution.status === 'failed' && { ended: lostAt(run) }),
  });
}

const PULLS = 'slope or wind push as hard as all else holds it back';

function kmh(speed: number): string {
  return `${Number((3.6 * speed).toPrecision(4))} km/h`;
}

/** A motor that turns along may not be turned faster than it bears; '' where it is not. */
function turnsTooFast(car: Car, options: CoastOptions): string {
  const { front, rear } = coastStart(car, options).coasting.following;
  const speeds = [front, rear].flatMap(({ axle, at: { gear } }) =>
    axle.driven ? [(axle.maxSpeed * axle.radius) / gear.ratio] : [],
  );
  const most = Math.min(...speeds);
  const geared = [front, rear].some(({ axle }) => axle.gears.length > 1);
  return options.from <= most
    ? ''
    : `at ${kmh(options.from)} a motor would be turned faster than it may: it bears ${kmh(most)}${geared ? ' in this gear' : ''}`;
}

/** Of the grip of its tyres, from which share on a drive that brakes may have two decelerations for one power. Common practice, no source. */
const NEARLY_ALL = 0.9;

/** Where the integration gave up, in words. */
function lostAt({ coasting, end }: CoastRun): string {
  coasting.rates(
    end.mode,
    Float64Array.of(...end.states, end.time),
    new Float64Array(coasting.states + coasting.quadratures),
  );
  const { front, rear } = coasting.following;
  const slides = [front, rear].some(({ axle, at }) => axle.driven && -at.force > NEARLY_ALL * at.grip);
  const why = slides
    ? ': its drive brakes with nearly all of the grip of its tyres, where one power fits two decelerations'
    : '';
  return `how the car slows down is not found from ${kmh(end.speed)} on, ${end.time.toPrecision(3)} s after the start${why}`;
}

/** Why it ended before the wished speed, without a full stop. */
function whyShort({ to }: CoastOptions, run: CoastRun): string {
  const { solution, end } = run;
  if (solution.status === 'failed') return lostAt(run);
  const { speed } = end;
  return solution.status === 'end'
    ? `after four hours the car still goes ${kmh(speed)}, above ${kmh(to)}`
    : `the car does not slow down to ${kmh(to)}: at ${kmh(speed)} ${PULLS}`;
}

function summarise(options: CoastOptions, run: CoastRun, ledger: Ledger, time: Series): Figures {
  const summary: { [key: string]: number | string | null } = {};
  const reasons: { [key: string]: string } = {};
  const put = putInto(summary, reasons);
  const { from, to } = options;
  const { end, solution } = run;
  const there = solution.status === 'level';
  const short = there ? '' : whyShort(options, run);
  const first = standAt(run, run.marks[0] ?? end);
  const last = standAt(run, end);
  const most = (key: string): number => numbers(time, key).reduce((a, b) => Math.max(a, b), 0);
  const motion = (ledger.in['motion of the car'] ?? 0) + (ledger.in['turning parts'] ?? 0);
  const back = nth(end.integrals, COAST_ENERGY.intoPack);
  put('from_speed', from);
  put('to_speed', to);
  put('time', there ? end.time : null, short);
  put('distance', there ? nth(end.states, COAST.distance) : null, short);
  put('mean_deceleration', there ? (from - to) / end.time : null, short);
  put('deceleration_start', first.deceleration);
  put('deceleration_end', last.deceleration);
  put('force_start', first.force);
  put('force_end', last.force);
  put('end_speed', there ? to : end.speed);
  put('energy_motion', motion);
  put('energy_back', back);
  put('energy_stored', nth(end.integrals, COAST_ENERGY.cellsIn));
  put('recovered', back / motion);
  put('peak_power_back', most('pack_power_W'));
  put('peak_charge_current', most('charge_current_A'));
  return { summary, reasons };
}

/** m/s2 and N that slow the car at a mark. */
function standAt(
  { coasting }: CoastRun,
  { states, mode, time }: CoastMark,
): { readonly deceleration: number; readonly force: number } {
  const { following } = coasting;
  coasting.rates(mode, Float64Array.of(...states, time), new Float64Array(coasting.states + coasting.quadratures));
  return { deceleration: -following.acceleration, force: slowingForce(slowingOf(following)) };
}

function ledgerOf({ coasting, mass, marks, end }: CoastRun): Ledger {
  const sums = new Powers();
  powersOfRow(end.integrals, sums);
  const from = marks[0]?.speed ?? end.speed;
  const into = {
    'motion of the car': 0.5 * mass * (elementary.pow(from, 2) - elementary.pow(end.speed, 2)),
    'turning parts': -sums.spinUp,
    'out of the cells': nth(end.integrals, COAST_ENERGY.cellsOut),
  };
  const out = {
    'pack heat': nth(end.integrals, COAST_ENERGY.packHeat),
    'motor and inverter': sums.unitHeat,
    'gears and shafts': sums.gearHeat,
    'tyre slip': sums.slip,
    'rolling resistance': sums.rolling,
    drag: sums.drag,
    slope: sums.grade,
    auxiliaries: sums.auxiliaries,
  };
  const stored = {
    'into the cells': nth(end.integrals, COAST_ENERGY.cellsIn),
    polarisation: coasting.polarisationEnergy(end.states),
  };
  const gap = sum(into) - sum(out) - sum(stored);
  return { in: into, out, stored, gap: gap / Math.max(sum(into), 1) };
}

function sum(part: { readonly [name: string]: number }): number {
  return Object.values(part).reduce((s, x) => s + x, 0);
}

function eventsOf({ marks, solution }: CoastRun): readonly ResultEvent[] {
  const passed = marks.slice(1).map(({ time, speed }) => ({ time, what: `passes ${kmh(speed)}` }));
  const last = passed.pop();
  if (last === undefined) return passed;
  return [
    ...passed,
    { time: last.time, what: `${solution.status === 'level' ? 'ends at' : 'settles at'} ${last.what.slice(7)}` },
  ];
}

const RULES: Rules<CoastOptions> = {
  surroundings: SURROUNDINGS,
  from: SPEED,
  to: SPEED,
  lift: (value, path) => value === null || SHARE(value, path),
  gear: within(1, 20),
};
