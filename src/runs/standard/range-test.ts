/** The range tests behind the figures on window stickers, at 23 degC with nothing heated or cooled. */
import { item, nth } from '../../columns.ts';
import type { Trip } from '../../cycles/trip.ts';
import type { Car, Surroundings } from '../../model/car.ts';
import { inOrder, travelWarnings, unitAxleOf } from '../trip/drive.ts';
import { driveOpinion } from '../trip/travel-opinion.ts';
import { finer } from '../trip/finer.ts';
import { column, textColumn } from '../column.ts';
import { drivenColumns, namesOf, numbersOf } from '../schedule/series.ts';
import type { Driven } from '../schedule/series.ts';
import { checkCar } from '../checked-car.ts';
import { oneOf } from '../rules.ts';
import { noAnswer } from '../no-answer.ts';
import type { None } from '../no-answer.ts';
import { rangeSettings, thinned } from '../trip/range.ts';
import type { Result, Series } from '../result.ts';
import type { StandardSummary } from '../summaries/standard.ts';
import { sound } from '../sound.ts';
import type { Figures as Told } from '../sound.ts';
import { standardOutputs } from './outputs.ts';
import {
  cyclesOfTest,
  multiCycleDistance,
  multiCycleTrip,
  STANDARD_TESTS,
  type StandardTest,
  testTrip,
  TEST_TITLES,
} from './trips.ts';
import { cityAndHighway, cycleWeights, type DrivenCycle, STICKER_FACTOR, weightedConsumption } from './weights.ts';
import { travelLedger } from '../schedule/ledger.ts';
import { GALLON } from '../schedule/summary.ts';
import { recordOf, travelOnce } from '../schedule/trip.ts';
import type { DrivenLeg, Traveller, TravelRun } from '../schedule/trip.ts';
import { TEST_TEMPERATURE, wallEnergy } from '../schedule/wall-energy.ts';

export type { StandardTest } from './trips.ts';
export { isStandardTest, STANDARD_TESTS } from './trips.ts';

const MILE = 1609.344;

/** The hall of the test: UN GTR No. 15 has 23 degC, SAE J1634 20 to 30 degC (from memory). */
const HALL: Surroundings = {
  temperature: TEST_TEMPERATURE,
  altitude: 0,
  humidity: 0.5,
  wind: 0,
  slope: 0,
  surface: 'dry',
};

/** A test, and the run behind it. */
interface Tested extends Told {
  readonly run: TravelRun;
  readonly trip: Trip;
  readonly settings: ReturnType<typeof rangeSettings>;
  /** Of the cycles of each kind, in the order of `cyclesOfTest`. */
  readonly weights: readonly (readonly number[])[];
}

/** The figures of a test; or why there is none. */
export function standardFigures(
  car: Car,
  test: StandardTest,
  travel: Traveller = travelOnce,
  whole = false,
): Tested | None {
  const still = onRollers(car);
  // Rollers are set to a road load that was measured with warm tyres (UN GTR 15, Annex 4, from memory).
  const settings = { ...rangeSettings(still, { surroundings: HALL }), warmTyres: true };
  const trip = test === 'mct' ? multiCycleTrip(way => travel(still, way, settings)) : testTrip(test);
  const run = travel(still, finer(trip), { ...settings, ...(whole && { record: 1_000_000, trail: true }) });
  const short = tooShort(run, test);
  if (short !== null) return { none: short, ...(run.status === 'failed' && { ended: run.reason }) };
  const usable = run.legs.reduce((sum, { energy }) => sum + energy, 0);
  const { charger } = still;
  const strong = { ...still, charger: { ...charger, usualPower: charger.count * charger.power } };
  const wall = wallEnergy(strong, run.legs.at(-1)?.charge ?? run.charge, run.charge);
  const { values, reasons, weights } = figures(run, test, usable, wall);
  return { run, trip, settings, weights, summary: inOrder(values, standardOutputs), reasons };
}

/** Nothing is heated or cooled in the hall. */
function onRollers(car: Car): Car {
  return { ...car, cabin: { ...car.cabin, heater: 'none', cooled: false } };
}

/**
 * The car on the rollers from a full pack to an empty one. It is tested with the driver and the load that it has; the standards have
 * their own test masses.
 * @throws SpecError for a car that can not be, and for a test that there is none of.
 */
export function standardTest(car: Car, test: StandardTest): Result<StandardSummary> {
  checkCar(car);
  oneOf(STANDARD_TESTS)(test, 'test');
  const tested = standardFigures(car, test, travelOnce, true);
  if ('none' in tested) return noAnswer('standard', standardOutputs, tested.none, tested.ended);
  const { run, trip, settings, weights, summary, reasons } = tested;
  const still = onRollers(car);
  const ledger = travelLedger(run);
  const opinion = driveOpinion(run, still, trip, settings);
  return sound({
    kind: 'standard',
    summary,
    reasons,
    outputs: standardOutputs,
    series: {
      distance: thinned(numbersOf(recordOf(run), unitAxleOf(still))),
      cycles: cycleTable(run, test, weights),
    },
    bands: [],
    events: [{ time: run.duration, what: 'the pack is empty' }],
    ledger,
    warnings: travelWarnings(run, ledger.gap),
    opinion,
    ...(run.trail !== null && { trail: run.trail }),
    ...(run.status === 'failed' && { ended: run.reason }),
  });
}

function tooShort(run: TravelRun, test: StandardTest): string | null {
  if (run.status === 'failed') return `the integration ended early: ${run.reason}`;
  if (run.status === 'stuck') return 'the car can not drive the cycle: at full pedal it does not gain speed';
  const complete = cyclesOfTest(test).map(cycle => wholeCycles(run, cycle.title).length);
  if (test === 'mct') {
    if (complete[0] === 4 && complete[1] === 2) return null;
    const km = (multiCycleDistance() / 1000).toFixed(0);
    return `the pack is empty before the ${km} km of cycles of the multi-cycle test are driven: one cycle over and over suits it (udds, hwfet)`;
  }
  return (complete[0] ?? 0) > 0 ? null : 'the pack does not last for one cycle';
}

function wholeCycles(run: TravelRun, title: string): readonly DrivenLeg[] {
  return run.legs.filter(({ leg, status }) => status === 'done' && leg.schedule.title === title);
}

interface Figures {
  readonly values: { readonly [key: string]: number | string | null };
  readonly reasons: { readonly [key: string]: string };
  /** Of the cycles of each kind, in the order of `cyclesOfTest`. */
  readonly weights: readonly (readonly number[])[];
}

function figures(run: TravelRun, test: StandardTest, usable: number, wall: number | null): Figures {
  const kinds: readonly (readonly DrivenCycle[])[] = cyclesOfTest(test).map(({ title }) => wholeCycles(run, title));
  // The two HWFET of the multi-cycle test count alike: J1634 (from memory).
  const weights = kinds.map((cycles, k) =>
    k > 0 ? cycles.map(() => 1 / cycles.length) : cycleWeights(cycles, usable),
  );
  const alone = test === 'udds' || test === 'hwfet';
  // A test of one cycle by J1634 counts the way that was driven (from memory), the others the usable energy over the weighted consumption.
  const each = kinds.map((cycles, k) =>
    alone ? usable / run.distance : weightedConsumption(cycles, item(weights, k)),
  );
  const [first, second] = [nth(each, 0), each[1]];
  const consumption = second === undefined ? first : cityAndHighway(first, second);
  const ranges = each.map(one => usable / one);
  const range = second === undefined ? nth(ranges, 0) : cityAndHighway(nth(ranges, 0), nth(ranges, 1));
  const factor = test === 'wltp' ? 1 : STICKER_FACTOR;
  const loss = wall === null ? null : wall / usable;
  const atWall = (pack: number | undefined): number | null =>
    loss === null || pack === undefined ? null : pack * loss;
  const consumptionWall = atWall(consumption);
  const mpg = consumptionWall === null ? null : GALLON / (consumptionWall * MILE);
  const city = test === 'udds' || test === 'mct' ? 0 : -1;
  const highway = test === 'hwfet' ? 0 : test === 'mct' ? 1 : -1;
  const steady = run.legs.reduce((sum, { leg, distance }) => sum + (isSteady(leg.schedule.title) ? distance : 0), 0);
  return {
    weights,
    values: {
      test: TEST_TITLES[test],
      range,
      consumption_wall: consumptionWall,
      consumption,
      mpg_equivalent: mpg,
      range_city: ranges[city] ?? null,
      range_highway: ranges[highway] ?? null,
      consumption_city: atWall(each[city]),
      consumption_highway: atWall(each[highway]),
      sticker_range: factor * range,
      sticker_consumption: consumptionWall === null ? null : consumptionWall / factor,
      sticker_mpg: mpg === null ? null : mpg * factor,
      usable_energy: usable,
      wall_energy: wall,
      distance: run.distance,
      cycles: kinds.reduce((sum, cycles) => sum + cycles.length, 0),
      first_share: alone ? null : nth(item(weights, 0), 0),
      steady_share: test === 'mct' ? steady / run.distance : null,
      time_too_slow: run.follower.inner.totals.late,
    },
    reasons: reasonsOf(test),
  };
}

function isSteady(title: string): boolean {
  return title.startsWith('steady');
}

function reasonsOf(test: StandardTest): { readonly [key: string]: string } {
  const uncharged = 'the chargers on board do not charge this pack';
  const city = 'this test has no UDDS';
  const highway = 'this test has no HWFET';
  const noCity = test === 'wltp' || test === 'hwfet';
  const noHighway = test === 'wltp' || test === 'udds';
  return {
    consumption_wall: uncharged,
    mpg_equivalent: uncharged,
    sticker_consumption: uncharged,
    sticker_mpg: uncharged,
    wall_energy: uncharged,
    range_city: city,
    range_highway: highway,
    consumption_city: noCity ? city : uncharged,
    consumption_highway: noHighway ? highway : uncharged,
    first_share: 'no cycle of this test has a weight of its own',
    steady_share: 'nothing in this test is driven at a steady speed',
  };
}

/** One row for each cycle in the order of driving, the one in which the pack got empty and pauses left aside. */
function cycleTable(run: TravelRun, test: StandardTest, weights: Figures['weights']): Series {
  const titles = cyclesOfTest(test).map(({ title }) => title);
  const alone = test === 'udds' || test === 'hwfet';
  const seen = new Map<number, number>();
  const rows: (Driven & { readonly weight: number })[] = [];
  for (const { leg, distance, energy, status } of run.legs) {
    const kind = titles.indexOf(leg.schedule.title);
    if (kind < 0 || status !== 'done') continue;
    const count = seen.get(kind) ?? 0;
    seen.set(kind, count + 1);
    const weight = alone ? Number.NaN : nth(item(weights, kind), count);
    rows.push({ name: `${leg.schedule.title} ${count + 1}`, distance, energy, weight });
  }
  const shares = Float64Array.from(rows, row => row.weight);
  return {
    cycle: textColumn('cycle', namesOf(rows)),
    ...drivenColumns(rows, 'energy out of the pack'),
    weight_1: column('weight', '1', '%', '%', shares),
  };
}
