/** The records on the dynamometer, each with its predicted consumption from the wall, and how far off the predictions are. */
import { scheduleNamed } from '../../src/cycles/schedules.ts';
import { createAsk } from '../../src/runs/answer/ask.ts';
import { plainTrip } from '../../src/runs/answer/question.ts';
import type { Run } from '../../src/runs/answer/question.ts';
import { quantile } from './predicted-times.ts';
import { ROAD_LOAD_RULES, roadLoadRecords, specOfRoadLoad } from './road-load-records.ts';
import type { RoadLoadRecord, RoadLoadRules } from './road-load-records.ts';

export type CycleName = 'udds' | 'hwfet';

export const CYCLES: readonly CycleName[] = ['udds', 'hwfet'];

/** What is asked: the energy that puts back, through the charger on board, what a schedule took out of the pack. */
export const WALL = 'consumption_wall';

export interface PredictedConsumption {
  readonly record: RoadLoadRecord;
  /** J/m. */
  readonly predicted: { readonly [cycle in CycleName]: number };
}

/** Errors are predicted over published consumption less one. */
export interface ConsumptionErrors {
  /** Mean of the errors. */
  readonly bias: number;
  /** Of the errors without their signs. */
  readonly median: number;
  readonly ninetieth: number;
  readonly worst: number;
}

/** One schedule from rest, in dry air of 20 °C, the pack at 90 %. */
export function runOf(cycle: CycleName): Run {
  const trip = plainTrip({ title: cycle, parts: [{ kind: 'leg', schedule: scheduleNamed(cycle), load: null }] });
  return { kind: 'drive', values: { humidity: 0 }, trip };
}

export function predictedConsumption(rules: RoadLoadRules = ROAD_LOAD_RULES): readonly PredictedConsumption[] {
  return roadLoadRecords.map(record => ({
    record,
    predicted: { udds: consumptionOf(record, 'udds', rules), hwfet: consumptionOf(record, 'hwfet', rules) },
  }));
}

/** @throws Error when the schedule is not driven as it is. */
function consumptionOf(record: RoadLoadRecord, cycle: CycleName, rules: RoadLoadRules): number {
  const spec = specOfRoadLoad(record, rules);
  const ask = createAsk(
    { car: 'car', name: 'run', spec, measured: [], run: runOf(cycle) },
    { wanted: [WALL, 'time_too_slow'] },
  );
  const { [WALL]: wall, time_too_slow: late } = ask([]).summary;
  if (typeof wall !== 'number' || late !== 0) throw new Error(`record ${record.record} does not do ${cycle}`);
  return wall;
}

export function consumptionErrors(
  cars: readonly PredictedConsumption[],
  cycles: readonly CycleName[] = CYCLES,
): readonly number[] {
  return cycles.flatMap(cycle => cars.map(({ record, predicted }) => predicted[cycle] / record.published[cycle] - 1));
}

export function consumptionFigures(
  cars: readonly PredictedConsumption[],
  cycles: readonly CycleName[] = CYCLES,
): ConsumptionErrors {
  const errors = consumptionErrors(cars, cycles);
  const sizes = errors.map(Math.abs);
  return {
    bias: errors.reduce((sum, each) => sum + each, 0) / errors.length,
    median: quantile(sizes, 0.5),
    ninetieth: quantile(sizes, 0.9),
    worst: Math.max(...sizes),
  };
}
