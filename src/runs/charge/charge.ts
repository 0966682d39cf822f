/** The pack on the charger: how long, how much from the wall, and what sets the pace. */
import { named, nth } from '../../columns.ts';
import { checkOptions, TEMPERATURE } from '../options.ts';
import {
  ABOVE_0,
  group,
  NOT_BELOW_0,
  oneOf,
  optional,
  refused,
  type Rule,
  type Rules,
  SHARE,
  UNLIMITED,
  within,
} from '../rules.ts';
import type { Station, Supply } from '../../model/pack/supply.ts';
import type { Car } from '../../model/car.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import { CELL_VOLTAGE, chargeShare, COLD, fedPower, limitOf } from '../../model/pack/charging.ts';
import { openVoltage } from '../../model/pack/voltage-window.ts';
import { chargeAgain, chargeOpinion } from './opinion.ts';
import { chargeOutputs } from './outputs.ts';
import { chargeIntegral, chargeOnce, chargeStart } from './run.ts';
import type { ChargeOptions, ChargeRun, Stint } from './run.ts';
import { chargeSteps, chargeTrace, paceOf, paceTimes, percent } from './series.ts';
import { currentFigures } from '../duty/currents.ts';
import type { Effort } from '../kind.ts';
import { noAnswer } from '../no-answer.ts';
import type { None } from '../no-answer.ts';
import type { Ledger, Result, ResultEvent, Series } from '../result.ts';
import { numbers } from '../series.ts';
import type { ChargeSummary } from '../summaries/charge.ts';
import { sound } from '../sound.ts';
import type { Figures } from '../sound.ts';
import { Trail } from '../trail/trail.ts';
import { celsius } from '../../units/rounding.ts';
import { putInto } from '../found.ts';
import { addCharge } from './trail.ts';

/** A charge, and what its figures are taken from. */
interface Charged extends Figures {
  readonly run: ChargeRun;
  readonly ledger: Ledger;
  readonly time: Series;
  readonly trail: Trail;
}

/** The figures of a charge; or why it does not begin. @throws RangeError as `charge`. */
export function chargeFigures(car: Car, options: ChargeOptions): Charged | None {
  const none = whyNot(car, options);
  if (none !== '') return { none };
  const run = chargeOnce(car, options);
  const time = chargeTrace(run);
  const ledger = ledgerOf(run);
  const trail = new Trail();
  addCharge(trail, run);
  return { run, ledger, time, trail, ...summarise(car, options, run, time, ledger, trail) };
}

/**
 * Charges from one state of charge to another. The chargers give all that the supply and they themselves allow, until the pack
 * takes no more: for its temperature, its current, or its highest voltage, at which the current falls until it is C/20. That
 * end counts as the wished charge where it comes less than one percent of the capacity below it.
 * @throws SpecError for a car or options outside their limits, and when `to` is not above `from`.
 */
export function charge(car: Car, options: ChargeOptions, effort: Effort = 'whole'): Result<ChargeSummary> {
  checkOptions(car, options, RULES, ['supply', 'temperature']);
  const { from = car.pack.window.low, to = car.pack.window.high } = options;
  if (to <= from) {
    const message = `to: a charge must rise, found from ${from} to ${to}`;
    throw new SpecError('to', message, `more than ${from}`, '', 'outside');
  }
  const charged = chargeFigures(car, options);
  if ('none' in charged) return noAnswer('charge', chargeOutputs, charged.none);
  const { run, ledger, time, trail, summary, reasons } = charged;
  return sound({
    kind: 'charge',
    summary,
    reasons,
    outputs: chargeOutputs,
    series: { time, steps: chargeSteps(run) },
    bands: [],
    events: events(run),
    ledger,
    warnings: warnings(car, options, run, ledger),
    opinion: effort === 'whole' ? chargeOpinion(run, chargeAgain(car, options)) : null,
    trail,
    ...(run.solution.status === 'failed' && { ended: run.solution.reason }),
  });
}

/** Why charging does not begin, without a full stop; '' where it does. */
export function whyNot(car: Car, options: Stint): string {
  const { pack, charger } = car;
  const { plant, feed, wall, initial, from } = chargeStart(car, options);
  const { temperature, packTemperature = temperature } = options;
  const fed = fedPower(feed);
  if (!(fed > charger.overhead)) {
    return `the ${wall.by} gives no more than charging itself uses: ${Math.round(wall.power)} W from the wall, of which ${Math.max(0, Math.round(fed))} W reach the pack, where ${charger.overhead} W are drawn`;
  }
  if (pack.maxChargeCurrent === 0) return 'the pack takes no charge: its max_charge_current is nothing';
  const { heater } = pack;
  const heated = heater !== undefined && packTemperature < heater.until ? heater : null;
  if (heated !== null && pack.heat !== undefined) {
    if (!(fed > charger.overhead + heated.power))
      return `the ${wall.by} gives no more than the heater of the pack and charging itself use: ${Math.max(0, Math.round(fed))} W reach the pack, where ${Math.round(charger.overhead + heated.power)} W are drawn`;
    const warmest = temperature + heated.power / pack.heat.cooling;
    if (warmest <= pack.chargeCold.none)
      return `the heater does not get the pack warm enough to be charged: in this air to ${celsius(warmest)} at most`;
  }
  const coldest = heated === null ? packTemperature : Math.max(packTemperature, pack.chargeCold.full);
  if (chargeShare(pack, coldest) === 0) {
    return packTemperature <= pack.chargeCold.none
      ? `the pack is too cold to be charged: it has ${celsius(packTemperature)}, and its cells take a current only above ${celsius(pack.chargeCold.none)}; heater_power of the pack warms it at the plug, and from the road it may come warmer`
      : 'the pack is too warm to be charged: it is derated to nothing';
  }
  const open = openVoltage(pack, from);
  const { least } = feed.voltage;
  if (open < least)
    return `the ${wall.by === 'station' ? 'station' : 'charger'} charges from ${least} V on, and with ${percent(from)} the pack has ${open.toFixed(0)} V: more cells in series, or a ${wall.by === 'station' ? 'station' : 'charger'} for that voltage`;
  if (!(feed.current * open > charger.overhead))
    return `at ${open.toFixed(0)} V the ${wall.by === 'station' ? 'station' : 'charger'} gives no more than the ${charger.overhead} W that are drawn beside the pack`;
  if (plant.modeAt(initial) < 0)
    return `the pack is full with ${percent(from)}: at its highest voltage the current is below C/20`;
  return '';
}

/** At the highest voltage a charge that ends this close below what is wished for is as good as that. */
const FULL = 0.01;

/** Why it ended before the wished charge; '' where it did not. */
function whyShort(run: ChargeRun): string {
  const { solution, to } = run;
  if (solution.status === 'level') return '';
  if (solution.status === 'failed') return `the integration ended early: ${solution.reason}`;
  const reached = run.end.charge;
  if (solution.status === 'end') return `after ten days it has ${percent(reached)}`;
  const last = solution.events.at(-1);
  const from = last === undefined ? -1 : limitOf(last.from);
  if (last?.index !== CELL_VOLTAGE && from !== CELL_VOLTAGE)
    return `with ${percent(reached)} the pack has become too ${from === COLD ? 'cold' : 'warm'} to go on`;
  if (reached >= to - FULL) return '';
  return `the highest voltage of the pack allows no ${percent(to)}: with ${percent(reached)} the current has fallen to C/20`;
}

function ledgerOf(run: ChargeRun): Ledger {
  const { states, integrals } = run.end;
  const wall = chargeIntegral(integrals, 'wall');
  const heater = chargeIntegral(integrals, 'heater');
  const out = {
    charger: chargeIntegral(integrals, 'charger'),
    'pumps and controls': chargeIntegral(integrals, 'overhead'),
    'pack heat': chargeIntegral(integrals, 'packHeat'),
    ...(heater !== 0 && { 'pack heater': heater }),
  };
  const stored = {
    'into the cells': chargeIntegral(integrals, 'chemical'),
    polarisation: run.plant.polarisationEnergy(states),
  };
  const found = [...Object.values(out), ...Object.values(stored)].reduce((sum, energy) => sum + energy, 0);
  return { in: { 'from the wall': wall }, out, stored, gap: (wall - found) / Math.max(wall, 1) };
}

function summarise(
  car: Car,
  { consumption, price }: ChargeOptions,
  run: ChargeRun,
  time: Series,
  ledger: Ledger,
  trail: Trail,
): Pick<Result, 'summary' | 'reasons'> {
  const values: { [key: string]: number | string | null } = {};
  const reasons: { [key: string]: string } = {};
  const put = putInto(values, reasons);
  Object.assign(values, currentFigures(trail, chargeOutputs, undefined));
  const end = run.end.time;
  const short = whyShort(run);
  const wall = named(ledger.in, 'from the wall');
  const stored = named(ledger.stored, 'into the cells');
  const most = (key: string): number => numbers(time, key).reduce((a, b) => Math.max(a, b));
  put('from', run.from);
  put('to', run.to);
  put('time', short === '' ? end : null, short);
  put('taper_time', run.taper, 'the pack does not get to its highest voltage');
  put('end_time', end);
  put('charge_end', run.end.charge);
  put('paced_by', [...paceTimes(run)].reduce((a, b) => (b[1] > a[1] ? b : a))[0]);
  put('energy_wall', wall);
  const beside = named(ledger.out, 'pumps and controls') + (ledger.out['pack heater'] ?? 0);
  put('energy_pack', wall - named(ledger.out, 'charger') - beside);
  put('energy_stored', stored);
  put('efficiency', stored / wall);
  put('mean_power', wall / end);
  put('peak_power', most('wall_power_W'));
  const direct = run.wall.by === 'station';
  put('phases', run.wall.currents.filter(amps => amps > 0).length);
  put('peak_phase_current', direct ? null : most('phase_current_A'), 'a station gives direct current');
  put('peak_charge_current', most('charge_current_A'));
  put('peak_pack_voltage', most('pack_voltage_V'));
  put(
    'pack_temperature',
    car.pack.heat === undefined ? null : most('pack_temperature_K'),
    'its heat is not modelled: no cooling is given',
  );
  const gained = consumption === undefined ? null : (consumption.at === 'wall' ? wall : stored) / consumption.energy;
  put('range_gained', gained, 'no consumption is given');
  put('range_per_hour', gained === null ? null : gained / end, 'no consumption is given');
  put('cost', price === undefined ? null : price * wall, 'no price is given');
  return { summary: Object.fromEntries(Object.keys(chargeOutputs).map(key => [key, values[key] ?? null])), reasons };
}

function events(run: ChargeRun): readonly ResultEvent[] {
  const { solution } = run;
  const start = { time: 0, what: `plugged in, paced by ${paceOf(run, nth(solution.modes, 0))}` };
  const changes = solution.events
    .filter(({ kind, to }) => kind === 'switch' && to >= 0)
    .map(({ time, to }) => ({
      time,
      what: limitOf(to) === CELL_VOLTAGE ? 'taper begins' : `paced by ${paceOf(run, to)}`,
    }));
  const short = whyShort(run);
  return [
    start,
    ...changes,
    { time: run.end.time, what: short === '' ? `done with ${percent(run.end.charge)}` : `ends: ${short}` },
  ];
}

function warnings(car: Car, options: ChargeOptions, run: ChargeRun, ledger: Ledger): readonly string[] {
  const { pack, charger } = car;
  const { solution, wall, to } = run;
  const list: string[] = [];
  const short = whyShort(run);
  if (short !== '') list.push(`It is not charged as far as wished: ${short}`);
  if (to > pack.window.high)
    list.push(`${percent(to)} is above the ${percent(pack.window.high)} up to which this pack is used`);
  if (charger.count < options.supply.phases && wall.by === 'supply') {
    list.push(
      `${charger.count} of ${options.supply.phases} phases ${charger.count === 1 ? 'is' : 'are'} used: each charger is on one. A three-phase charger is written as three with a third of its power`,
    );
  }
  if (pack.heat === undefined) list.push('The heat of the pack is not modelled: no cooling is given');
  if (solution.statistics.lateSwitches > 0)
    list.push(`${solution.statistics.lateSwitches} changes of pace were found late: times may be off by a step`);
  if (Math.abs(ledger.gap) > 1e-6) list.push(`The energy ledger does not close: ${ledger.gap.toExponential(1)} of it`);
  return list;
}

const PHASES: Rule = (value, path) => {
  if (value !== 1 && value !== 2 && value !== 3) throw refused(path, value, '1, 2 or 3');
};

const RULES: Rules<ChargeOptions> = {
  from: SHARE,
  to: SHARE,
  supply: group<Supply>({
    voltage: NOT_BELOW_0,
    current: NOT_BELOW_0,
    phases: PHASES,
    station: optional(group<Station>({ power: ABOVE_0, current: UNLIMITED, least: NOT_BELOW_0, greatest: UNLIMITED })),
  }),
  temperature: TEMPERATURE,
  packTemperature: TEMPERATURE,
  consumption: group<NonNullable<ChargeOptions['consumption']>>({
    energy: within(0, 1e5, 'J/m'),
    at: oneOf(['wall', 'pack']),
  }),
  price: NOT_BELOW_0,
};
