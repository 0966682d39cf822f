/** The records on the dynamometer with the intervals of their consumption. */
import type { Spread } from '../../src/model/fields/input.ts';
import { intervalOf } from './intervals.ts';
import type { Asked, Covered, UncertainCar } from './intervals.ts';
import { runOf, WALL } from './predicted-consumption.ts';
import type { CycleName } from './predicted-consumption.ts';
import { powerSpread, ROAD_LOAD_RULES, RULE_SPREADS, roadLoadRecords, specOfRoadLoad } from './road-load-records.ts';
import type { RoadLoadRecord } from './road-load-records.ts';

const SEED = 4;

/** The published figure is a measurement: two tests of one car differ by 2 to 3 %; common practice, no source. */
const TEST_SCATTER: Spread = { kind: 'rectangular', low: 0.97, high: 1.03 };

export function coveredConsumption(cycle: CycleName): readonly Covered[] {
  const asked: Asked = {
    run: runOf(cycle),
    key: WALL,
    noise: [TEST_SCATTER],
    printed: (consumption, [scatter = 1]) => scatter * consumption,
  };
  return roadLoadRecords.map(record => ({
    record: record.record,
    published: record.published[cycle],
    ...intervalOf(uncertainCar(record), asked, SEED),
  }));
}

/** Those that matter most first. */
const DRAWN = ['roadLoad', 'braking', 'charger', 'corner', 'resistance'] as const;

/** By mass and driven axles alone, every rule drawn. */
function uncertainCar(record: RoadLoadRecord): UncertainCar {
  return {
    rules: [
      { value: 0, spread: powerSpread(record) },
      ...DRAWN.map(rule => ({ value: ROAD_LOAD_RULES[rule], spread: RULE_SPREADS[rule] })),
    ],
    specOf: ([power = 0, ...rest]) => {
      const drawn = Object.fromEntries(DRAWN.map((rule, i) => [rule, rest[i]]));
      return specOfRoadLoad(record, { ...ROAD_LOAD_RULES, ...drawn, power: Math.exp(power) });
    },
  };
}
