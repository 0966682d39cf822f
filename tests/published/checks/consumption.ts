import type { Check, Topic } from '../check.ts';
import { CYCLES, consumptionFigures, predictedConsumption } from '../predicted-consumption.ts';
import type { ConsumptionErrors, CycleName, PredictedConsumption } from '../predicted-consumption.ts';

const SOURCE = 'US EPA test-car data MY2015 to MY2024, procedures 81 and 84: energy from the wall of 53 battery cars';
const REGRESSION = 'a regression with five coefficients fitted to these very records';

let memory: readonly PredictedConsumption[] | null = null;

/** All records, driven once. */
export function allConsumption(): readonly PredictedConsumption[] {
  memory ??= predictedConsumption();
  return memory;
}

const TITLES = { udds: 'UDDS', hwfet: 'HWFET' } as const;

function within(figure: keyof ConsumptionErrors, cycles: readonly CycleName[], limit: number, why: string): Check {
  const name = cycles.length > 1 ? 'both' : cycles.join('');
  const where = cycles.map(cycle => TITLES[cycle]).join(' and ');
  const words = {
    bias: 'mean error',
    median: 'median error without sign',
    ninetieth: '90 % of the cars within',
    worst: 'worst error',
  };
  return {
    id: `consumption.${name}.${figure}`,
    what: `wall consumption, predicted over published less one, ${where}: ${words[figure]}; ${why}`,
    source: SOURCE,
    expected: 0,
    computed: () => consumptionFigures(allConsumption(), cycles)[figure],
    unit: '1',
    tolerance: { absolute: limit },
  };
}

export const consumption: Topic = {
  title: 'Battery cars with measured road load and consumption',
  checks: [
    within('bias', CYCLES, 0.03, 'asked for: 0.03'),
    within('bias', ['udds'], 0.03, 'asked for: 0.03'),
    within('bias', ['hwfet'], 0.03, 'asked for: 0.03'),
    within('median', CYCLES, 0.056, `0.056 by ${REGRESSION}`),
    within('median', ['udds'], 0.08, `0.080 by ${REGRESSION}`),
    within('median', ['hwfet'], 0.04, `0.036 by ${REGRESSION}`),
    within('ninetieth', CYCLES, 0.13, `0.13 by ${REGRESSION}`),
  ],
};
