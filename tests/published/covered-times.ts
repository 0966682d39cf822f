/** The published cars with the intervals of their times to 100 km/h. */
import { notebookKey } from '../../src/model/fields/filler.ts';
import { shippedPart } from '../../src/model/parts/shipped.ts';
import type { Spread } from '../../src/model/fields/input.ts';
import { intervalOf } from './intervals.ts';
import type { Covered, Uncertain, UncertainCar } from './intervals.ts';
import { FULL_TORQUE_SPREAD } from './road-load-records.ts';
import { publishedTimes } from './predicted-times.ts';
import { isOnSportTyres, RULES, specOfRecord } from './records.ts';
import type { CarRecord } from './records.ts';

const SEED = 4;

const between = (low: number, high: number): Spread => ({ kind: 'rectangular', low, high });

/** Of the rules by which a record is read: common practice, no source. */
const RULE_SPREADS: readonly Uncertain[] = [
  { value: RULES.corner, spread: FULL_TORQUE_SPREAD },
  { value: RULES.section, spread: between(0.1, 0.12) },
  // Resistance of the cells, ± 40 % as their part says.
  { value: 1, spread: between(0.6, 1.4) },
];

/**
 * Of what a catalogue prints. Power and torque: UN Regulation No. 85 lets a car deviate by 5 % from its declared power (from
 * memory), and the peak is one of some seconds that a maker may hold back or exceed: five cars of this set with the same 100 kW and
 * 260 N m take 8.1 to 9.5 s at masses within 10 %. People: an empty mass holds a driver of 75 kg or does not, and a test has one
 * or two people in the car. Time: printed to 0.1 s.
 */
const CATALOGUE: readonly Uncertain[] = [
  { value: 1, spread: between(0.9, 1.1) },
  { value: 1, spread: between(0.9, 1.1) },
  { value: 75, spread: between(0, 150) },
];
const ROUNDING = between(-0.05, 0.05);

export function coveredTimes(): readonly Covered[] {
  return publishedTimes.map(({ row, record, published }) => ({
    record: row,
    published,
    ...intervalOf(
      uncertainCar(record),
      {
        run: { kind: 'launch', values: {} },
        key: 'time_to_100_km_h',
        noise: [ROUNDING],
        printed: (time, [rounded = 0]) => time + rounded,
      },
      SEED,
    ),
  }));
}

function uncertainCar(record: CarRecord): UncertainCar {
  return {
    rules: [...CATALOGUE, ...RULE_SPREADS],
    specOf: ([power = 1, torque = 1, driver = 75, corner = RULES.corner, section = RULES.section, resistance = 1]) => {
      const read = { ...record, peakPower: power * record.peakPower, peakTorque: torque * record.peakTorque };
      const { pack = {}, ...spec } = specOfRecord(read, { ...RULES, corner, section });
      return { ...spec, driver, pack: { ...pack, resistanceGrowth: resistance } };
    },
    given: isOnSportTyres(record) ? sportSpreads() : {},
  };
}

/** Of `tyre_sport`, whose values are given where a car stands on it. */
function sportSpreads(): { [path: string]: Spread } {
  const spreads = Object.entries(shippedPart('tyre', 'tyre_sport')?.spreads ?? {});
  return Object.fromEntries(spreads.map(([key, spread]) => [`tyres.${notebookKey(key)}`, spread]));
}
