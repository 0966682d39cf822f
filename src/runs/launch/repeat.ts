/** One launch after the other, warm from the last: until all are done or the car has become slow. */
import { named, nth } from '../../columns.ts';
import { checkOptions, SPEED, SURROUNDINGS } from '../options.ts';
import { type Rules, within } from '../rules.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { CHARGE } from '../../model/forward/state.ts';
import { balanceOf } from '../sheet/balance.ts';
import { fineTolerance, launchOnce, TARGET } from './run.ts';
import type { LaunchOptions, LaunchRun } from './run.ts';
import { noAnswer } from '../no-answer.ts';
import type { None } from '../no-answer.ts';
import { bandsOf, timeSeries } from './series.ts';
import { integral, ledgerOf } from '../ledger.ts';
import { pause } from './cool-down.ts';
import type { Paused } from './cool-down.ts';
import { whyLaunchStarved } from './starved.ts';
import { repeatOutputs } from './repeat-outputs.ts';
import type { Band, Column, Ledger, Result, Series } from '../result.ts';
import type { RepeatSummary } from '../summaries/repeat.ts';
import { sound } from '../sound.ts';
import type { Figures } from '../sound.ts';
import { launchAgain, secondOpinion } from '../second-opinion.ts';
import { putInto } from '../found.ts';
import { currentFigures } from '../duty/currents.ts';
import type { Trail } from '../trail/trail.ts';
import { repeatTrail } from './trail.ts';

export interface RepeatOptions {
  readonly surroundings: Surroundings;
  /** How many launches at most. */
  readonly times: number;
  /** s from the target speed to the next start; braking takes none of it. */
  readonly pause: number;
  /** m/s; default 100 km/h. */
  readonly to?: number;
}

/** Slower than the first launch by this share: told; and the end. */
const SLOWER = 0.05;
const TOO_SLOW = 0.2;

/** One launch of the row. */
interface Turn {
  readonly run: LaunchRun;
  readonly options: LaunchOptions;
  /** s to the target; null where it was not reached. */
  readonly time: number | null;
  readonly unit: number | null;
  readonly pack: number | null;
  readonly charge: number;
  readonly bands: readonly Band[];
}

/** Launches in a row, and what became of them. */
interface Repeated extends Figures {
  readonly turns: readonly Turn[];
  readonly pauses: readonly Paused[];
  readonly last: Turn;
  readonly trail: Trail;
}

/** The figures of launches in a row; or why there are none. */
export function repeatFigures(car: Car, options: RepeatOptions): Repeated | None {
  const start = balanceOf(car, options.surroundings)(0);
  if (!(start.acceleration > 0))
    return { none: start.starved === '' ? `the car does not move off: ${start.limiter}` : start.starved };
  const { turns, pauses } = series(car, options);
  const [first] = turns;
  const last = turns.at(-1);
  if (last === undefined || first === undefined) return { none: 'no launch is asked for' };
  const starved = whyLaunchStarved(first.run);
  if (starved !== '') return { none: starved };
  if (first.time === null) {
    if (first.run.solution.status !== 'failed') return { none: 'the target speed is not reached' };
    const none = 'the first launch can not be worked out to its end';
    return { none, ended: first.run.solution.reason };
  }
  const trail = repeatTrail(
    turns.map(({ run }) => run),
    options.pause,
    car,
  );
  return { turns, pauses, last, trail, ...summarise(options, turns, pauses, first.time, trail) };
}

/**
 * Launches again and again. Temperatures, charge and polarisation carry over; between two launches the car is brought to rest at
 * once by its brakes, nothing comes back, and it stands with the drive switched off.
 * @throws SpecError for a car or options that can not be.
 */
export function repeat(car: Car, options: RepeatOptions): Result<RepeatSummary> {
  checkOptions(car, options, RULES, ['surroundings', 'times', 'pause']);
  const repeated = repeatFigures(car, options);
  if ('none' in repeated) return noAnswer('repeat', repeatOutputs, repeated.none, repeated.ended);
  const { turns, pauses, last, trail, summary, reasons } = repeated;
  const time = timeSeries(last.run);
  const opinion = secondOpinion(last.run, launchAgain(car, last.options));
  const ledger = ledgerOfAll(turns, pauses);
  const failed = turns.find(({ run }) => run.solution.status === 'failed');
  return sound({
    kind: 'repeat',
    summary,
    reasons,
    outputs: repeatOutputs,
    series: { runs: runSeries(turns), time },
    bands: bandsOf(time),
    events: [],
    ledger,
    warnings: [...endedEarly(turns, options.times), ...warnings(car, turns, opinion.agrees)],
    opinion,
    trail,
    ...(failed !== undefined && { ended: failed.run.solution.reason }),
  });
}

function series(
  car: Car,
  { surroundings, times, pause: seconds, to = TARGET }: RepeatOptions,
): {
  readonly turns: readonly Turn[];
  readonly pauses: readonly Paused[];
} {
  const empty = (states: Float64Array): boolean => (states[CHARGE] ?? 0) <= car.pack.window.low;
  const turns: Turn[] = [];
  const pauses: Paused[] = [];
  while (turns.length < times) {
    const before = pauses.at(-1)?.states;
    const options: LaunchOptions = {
      surroundings,
      to,
      stop: 'to',
      tolerance: fineTolerance(car),
      ...(before !== undefined && { initial: plant => withTime(before, plant.states) }),
    };
    const turn = turnOf(car, launchOnce(car, options), options);
    turns.push(turn);
    const first = turns[0]?.time ?? null;
    if (turn.time === null || first === null || turn.time > (1 + TOO_SLOW) * first) break;
    if (turns.length === times || empty(endOf(turn.run))) break;
    const paused = pause(car, surroundings, endOf(turn.run), seconds);
    // A pack that its consumers empty while the car stands has no launch left, and no charge below its window.
    if (empty(paused.states)) break;
    pauses.push(paused);
  }
  return { turns, pauses };
}

/** The states, then the time 0. */
function withTime(states: Float64Array, count: number): Float64Array {
  const y = new Float64Array(count + 1);
  y.set(states);
  return y;
}

function endOf({ plant, solution }: LaunchRun): Float64Array {
  return solution.states.slice((solution.nodes - 1) * plant.states, solution.nodes * plant.states);
}

function turnOf(car: Car, run: LaunchRun, options: LaunchOptions): Turn {
  const end = endOf(run);
  const units = car.drives
    .filter(({ unit }) => unit.heat !== undefined)
    .map(({ axle }) => nth(end, run.plant.unitTemperatureState(axle === 'front' ? 0 : 1)));
  return {
    run,
    options,
    time: run.marks.get('to')?.time ?? null,
    unit: units.length === 0 ? null : Math.max(...units),
    pack: car.pack.heat === undefined ? null : nth(end, run.plant.packTemperatureState),
    charge: nth(end, CHARGE),
    bands: bandsOf(timeSeries(run)),
  };
}

function summarise(
  { pause: seconds, to = TARGET }: RepeatOptions,
  turns: readonly Turn[],
  pauses: readonly Paused[],
  first: number,
  trail: Trail,
): Pick<Result, 'summary' | 'reasons'> {
  const values: { [key: string]: number | string | null } = {};
  const reasons: { [key: string]: string } = {};
  Object.assign(values, currentFigures(trail, repeatOutputs, undefined));
  const put = putInto(values, reasons);
  const last = turns.at(-1);
  const lastTime = last?.time ?? null;
  const unreached = 'the last launch does not reach the target speed';
  const slower = turns.findIndex(({ time }) => time === null || time > (1 + SLOWER) * first);
  const by = last === undefined ? null : slowedBy(turns[0]?.bands ?? [], last.bands);
  const slowing = lastTime === null ? null : lastTime / first - 1;
  const hottest = (of: (turn: Turn) => number | null): number | null => {
    const found = turns.map(of).filter(T => T !== null);
    return found.length === 0 ? null : Math.max(...found);
  };
  put('target', to);
  put('runs', turns.length);
  put('time_first', first);
  put('time_last', lastTime, unreached);
  put('slowing', slowing, unreached);
  put('slower_run', slower < 0 ? null : slower + 1, 'no launch takes more than 5 % longer than the first');
  put('slowed_by', slower < 0 ? null : by, 'no launch takes more than 5 % longer than the first');
  put(
    'unit_temperature',
    hottest(turn => turn.unit),
    'its heat is not modelled: continuous_power is not given',
  );
  put(
    'pack_temperature',
    hottest(turn => turn.pack),
    'its heat is not modelled: no cooling is given',
  );
  put('charge_end', last?.charge ?? null);
  put(
    'energy_used',
    turns.reduce((sum, { run }) => sum + named(ledgerOf(run).in, 'out of the cells'), 0) +
      pauses.reduce((sum, { integrals }) => sum + integral(integrals, 'chemical'), 0),
  );
  put(
    'time_all',
    lastTime === null ? null : turns.reduce((sum, { time }) => sum + (time ?? 0), 0) + seconds * pauses.length,
    unreached,
  );
  return { summary: Object.fromEntries(Object.keys(repeatOutputs).map(key => [key, values[key] ?? null])), reasons };
}

/** The limiter that held for longer, by the most; null where none did. */
function slowedBy(first: readonly Band[], last: readonly Band[]): string | null {
  const change = new Map<string, number>();
  const add = (bands: readonly Band[], sign: number): void =>
    bands.forEach(({ from, to, limiter }) => change.set(limiter, (change.get(limiter) ?? 0) + sign * (to - from)));
  add(last, 1);
  add(first, -1);
  let most = 0;
  let word: string | null = null;
  for (const [limiter, time] of change) {
    if (time <= most) continue;
    most = time;
    word = limiter;
  }
  return word;
}

function runSeries(turns: readonly Turn[]): Series {
  const column = (
    label: string,
    unit: string,
    metric: string,
    imperial: string,
    of: (turn: Turn, i: number) => number | null,
  ): Column => ({
    label,
    unit,
    display: { metric, imperial },
    values: Float64Array.from(turns, (turn, i) => of(turn, i) ?? Number.NaN),
  });
  return {
    run_1: column('launch', '1', '1', '1', (_, i) => i + 1),
    time_to_target_s: column('time to the target speed', 's', 's', 's', turn => turn.time),
    unit_temperature_K: column('drive unit at the end', 'K', 'degC', 'degF', turn => turn.unit),
    pack_temperature_K: column('pack at the end', 'K', 'degC', 'degF', turn => turn.pack),
    charge_1: column('state of charge at the end', '1', '%', '%', turn => turn.charge),
  };
}

/** All launches and pauses together. What moved and turned at the end of each launch is heat in the brakes. */
function ledgerOfAll(turns: readonly Turn[], pauses: readonly Paused[]): Ledger {
  const out: { [name: string]: number } = {};
  let chemical = 0;
  let brakes = 0;
  let polarisation = 0;
  for (const { run } of turns) {
    const ledger = ledgerOf(run);
    chemical += named(ledger.in, 'out of the cells');
    for (const [name, energy] of Object.entries(ledger.out)) out[name] = (out[name] ?? 0) + energy;
    brakes += named(ledger.stored, 'motion of the car') + named(ledger.stored, 'turning parts');
    polarisation += named(ledger.stored, 'polarisation');
  }
  for (const [i, { states, integrals }] of pauses.entries()) {
    const turn = turns[i];
    if (turn === undefined) continue;
    chemical += integral(integrals, 'chemical');
    out['pack heat'] = (out['pack heat'] ?? 0) + integral(integrals, 'packHeat');
    out['auxiliaries'] = (out['auxiliaries'] ?? 0) + integral(integrals, 'auxiliaries');
    const { plant } = turn.run;
    polarisation += plant.polarisationEnergy(states) - plant.polarisationEnergy(endOf(turn.run));
  }
  out['brakes'] = brakes;
  const stored = { polarisation };
  const spent = Object.values(out).reduce((sum, energy) => sum + energy, 0) + polarisation;
  return {
    in: { 'out of the cells': chemical },
    out,
    stored,
    gap: (chemical - spent) / Math.max(Math.abs(chemical), 1),
  };
}

/** Fewer launches than asked, though the last one was as quick as it should be: the pack was empty before the next. */
function endedEarly(turns: readonly Turn[], times: number): readonly string[] {
  const [first, last] = [turns[0]?.time ?? null, turns.at(-1)?.time ?? null];
  if (turns.length === times || first === null || last === null || last > (1 + TOO_SLOW) * first) return [];
  return [`The pack is at the low end of its window before launch ${turns.length + 1}: it ends there`];
}

function warnings(car: Car, turns: readonly Turn[], agrees: boolean): readonly string[] {
  const list: string[] = [];
  const units = car.drives.every(({ unit }) => unit.heat === undefined);
  if (units) list.push('The heat of the drive unit is not modelled: continuous_power is not given');
  if (car.pack.heat === undefined) list.push('The heat of the pack is not modelled: no cooling is given');
  const late = turns.reduce((sum, { run }) => sum + run.solution.statistics.lateSwitches, 0);
  if (late > 0 && !agrees) list.push(`${late} changes of limiter were found late: times may be off by a step`);
  return list;
}

const RULES: Rules<RepeatOptions> = {
  surroundings: SURROUNDINGS,
  times: within(1, 10_000),
  pause: within(0, 1e6, 's'),
  to: SPEED,
};
