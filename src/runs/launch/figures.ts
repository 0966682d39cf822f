/** The figures of a launch: for the whole answer, and for studies that want some of them some thousand times. */
import { nth } from '../../columns.ts';
import type { Car } from '../../model/car.ts';
import { limiterOf } from '../../model/forward/limiter.ts';
import { SPEED } from '../../model/forward/state.ts';
import type { Wanted } from '../kind.ts';
import { noFigures } from '../no-answer.ts';
import type { None } from '../no-answer.ts';
import type { SecondOpinion } from '../result.ts';
import { balanceOf } from '../sheet/balance.ts';
import type { Balance } from '../sheet/balance.ts';
import { topSpeedOf } from '../sheet/top-speed.ts';
import type { Figures } from '../sound.ts';
import type { Trail } from '../trail/trail.ts';
import { MARKS, SPEED_MARKS } from './marks.ts';
import type { Mark } from './marks.ts';
import { ALL } from './extras.ts';
import type { LaunchExtras } from './extras.ts';
import { launchOutputs } from './outputs.ts';
import { createLauncher, fineTolerance, TARGET } from './run.ts';
import { untilStarved, whyLaunchStarved } from './starved.ts';
import type { LaunchOptions, LaunchRun } from './run.ts';
import { figuresAtMarks, marksOf, summarise, tellTopSpeed } from './summary.ts';
import type { Summarised } from './summary.ts';

type Launcher = ReturnType<typeof createLauncher>;

/** Launches of which only the marks are read. */
interface Timer {
  readonly launcher: Launcher;
  /** That of the options comes first. */
  readonly tolerance?: number | undefined;
}

/**
 * For one of many launches: nothing but marks; undefined where one of these figures is about more than a mark. All marks are watched, whichever
 * are wanted: a mark that is found moves the first guess of the rates after it, and so the last bits of the marks to come.
 */
export function createTimer(wanted: Wanted, tolerance: number | undefined): Timer | undefined {
  return marksFor(wanted) === null ? undefined : { launcher: createLauncher(MARKS), tolerance };
}

/** A launch that moved off, with all that the whole answer is made of. */
export interface Launched extends Figures {
  readonly run: LaunchRun;
  readonly opinion: SecondOpinion | null;
  /** A sentence that the reader must see; '' for none. */
  readonly warning: string;
  readonly balance: (speed: number) => Balance;
  readonly top: Balance | null;
  /** Null where none of its figures is wanted. */
  readonly trail: Trail | null;
}

/**
 * The figures that are wanted, and those that come with them for nothing. What needs a run of its own is left out where it is not
 * wanted, and no car is driven further than the last mark that is.
 * @param launcher that keeps its memory from one car to the next.
 * @param timer how one of many is timed where nothing but times and speeds at marks is wanted; left out, as any launch.
 */
export function launchFigures(
  car: Car,
  options: LaunchOptions,
  wanted: Wanted,
  launcher: Launcher,
  timer: Timer = { launcher },
): Figures {
  const marks = marksFor(wanted);
  if (wanted !== undefined && marks !== null && !((options.from ?? 0) > 0)) {
    const settings = { tolerance: timer.tolerance ?? fineTolerance(car), stop: stopFor(marks), ...options };
    const run = timer.launcher(car, settings);
    if (marks.every(mark => run.marks.has(mark)) && whyLaunchStarved(run) === '') {
      return figuresAtMarks(run, settings, wanted);
    }
  }
  const launched = launchedFigures(car, options, wanted, launcher, ALL);
  if (!('none' in launched)) return launched;
  return noFigures(launchOutputs, launched.none, { target_speed: options.to ?? TARGET });
}

/**
 * The same, driven as far as a launch goes, with the run itself; its solution is good until the next call of the launcher.
 * @param check whether a second method looks at it.
 */
export function launchedFigures(
  car: Car,
  options: LaunchOptions,
  wanted: Wanted,
  launcher: Launcher,
  extras: LaunchExtras,
  check = false,
): Launched | None {
  const settings = { tolerance: fineTolerance(car), ...options };
  const balance = balanceOf(car, settings.surroundings);
  const from = settings.from ?? 0;
  const start = balance(from);
  if (!(start.acceleration > 0)) return { none: whyStuck(from, start) };
  const top = topSpeedOf(car, settings.surroundings, balance);
  const first = toTheLastMark(car, settings, top?.speed ?? Infinity, launcher);
  const toStop = { ...settings, stop: first.stop };
  const fed = untilStarved(car, toStop, first.run, launcher);
  if (typeof fed === 'string') return { none: fed };
  const rolls = whyRollsBack(fed);
  if (rolls !== '') return { none: rolls };
  const asDriven = fed.starved === undefined ? toStop : { ...toStop, emptyAt: fed.starved.emptyAt };
  const { run, opinion, warning, lost } = extras.check(car, asDriven, fed, check);
  if (lost !== '') return { none: lost, ended: lost };
  const summarised = summarise(run, car, settings, wanted);
  const { values, reasons } = summarised;
  values['top_speed'] = top?.speed ?? null;
  values['top_speed_limiter'] = top?.limiter ?? null;
  if (top !== null) tellTopSpeed(summarised, settings.to ?? TARGET, top.speed);
  if (top === null) reasons['top_speed'] = reasons['top_speed_limiter'] = 'still accelerating at 540 km/h';
  const trail = extras.put(summarised, run, car, options, wanted);
  return { ...figuresOf(summarised), run, opinion, warning, balance, top, trail };
}

/** In the order of `launchOutputs`. */
function figuresOf({ values, reasons }: Summarised): Figures {
  const keys = Object.keys(launchOutputs).filter(key => values[key] !== undefined);
  return { summary: Object.fromEntries(keys.map(key => [key, values[key] ?? null])), reasons };
}

/** The marks that these figures are taken at; null where one of them is about more than a mark. */
function marksFor(wanted: Wanted): readonly Mark[] | null {
  if (wanted === undefined) return null;
  // All launches of a study have the same.
  if (latest.wanted !== wanted) latest = { wanted, marks: marksOfAll(wanted) };
  return latest.marks;
}

let latest: { readonly wanted: Wanted; readonly marks: readonly Mark[] | null } = { wanted: undefined, marks: null };

function marksOfAll(wanted: readonly string[]): readonly Mark[] | null {
  const marks = new Set<Mark>();
  for (const key of wanted) {
    const own = marksOf(key);
    if (own === undefined) return null;
    for (const mark of own) marks.add(mark);
  }
  return [...marks];
}

/** The mark to drive to first: the target, where nothing else is asked for, else a distance. */
function stopFor(marks: readonly Mark[]): Mark {
  if (marks.every(mark => mark === 'to')) return 'to';
  return marks.includes('1000_m') ? '1000_m' : 'quarter_mile';
}

/** To the mark that is asked for, or to 1000 m; a car that would get to its target or to 160 km/h only later is driven on to there. */
function toTheLastMark(
  car: Car,
  settings: LaunchOptions,
  top: number,
  launcher: Launcher,
): { readonly run: LaunchRun; readonly stop: Mark } {
  const stop = settings.stop ?? '1000_m';
  const run = launcher(car, { ...settings, stop });
  const targets: readonly (readonly [Mark, number])[] = [
    ['to', settings.to ?? TARGET],
    ['160_km_h', SPEED_MARKS['160_km_h']],
  ];
  const [last] = targets
    // Half a kilometre an hour below its top speed a car takes minutes for the rest.
    .filter(([mark, speed]) => !run.marks.has(mark) && speed + 0.5 / 3.6 <= top)
    .toSorted((a, b) => b[1] - a[1]);
  if (settings.stop !== undefined || last === undefined) return { run, stop };
  return { run: launcher(car, { ...settings, stop: last[0] }), stop: last[0] };
}

/**
 * Why a car rolls back from rest though its drive might have held it: what holds the wheels at their best slip, and the full pedal, are not
 * there; '' where it moves off.
 */
function whyRollsBack({ plant, solution, marks }: LaunchRun): string {
  const back = marks.get('back');
  // One that has moved comes to rest from above.
  if (back === undefined || nth(back.states, SPEED) > 0) return '';
  const mode = nth(solution.modes, solution.nodes - 1);
  const why = limiterOf(mode, plant.powerTabled());
  const less =
    why === 'grip'
      ? 'wheels that spin grip less'
      : why === 'driver'
        ? 'so little pedal gives less'
        : `${why} leaves less`;
  return `the car does not move off but rolls back: ${less} than what resists`;
}

function whyStuck(from: number, { limiter, used, resistance, starved }: Balance): string {
  if (starved !== '') return starved;
  return `the car does not ${from > 0 ? 'accelerate from that speed' : 'move off'}: ${limiter} leaves ${used.toFixed(0)} N against ${resistance.toFixed(0)} N of resistance`;
}
