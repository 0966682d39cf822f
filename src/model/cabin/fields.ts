/** What a user says about heating, cooling and the 12 V side. */
import type { Fields } from '../fields/field.ts';
import { assume, COMMON, number } from '../fields/table.ts';

/** Heat and cold for the people. */
export const cabinFields = {
  heater: {
    kind: 'choice',
    choices: ['resistive', 'heat pump', 'none'],
    doc: 'how the cabin is heated',
    default: { value: 'none', source: 'nothing is heated unless it is said' },
  },
  cooler: {
    kind: 'choice',
    choices: ['yes', 'no'],
    doc: 'whether the cabin is cooled when it is warm',
    default: { value: 'no', source: 'nothing is cooled unless it is said' },
  },
  temperature: number('K', ['degC', 'degF'], [278.15, 308.15], 'wished for in the cabin', {
    ...assume(293.15, COMMON, [291.15, 295.15]),
  }),
  loss: number('W/K', 'W/K', [0, 2000], 'through walls, windows and fresh air, per kelvin', {
    ...assume(70, 'about 2 to 2.5 kW at 30 K; common practice, no source', [50, 110]),
  }),
  heatCapacity: number('J/K', 'kJ/K', [0, 1e7], 'of what is warmed up at the start: air, seats, panels', {
    ...assume(40e3, COMMON, [20e3, 80e3]),
  }),
  heaterPower: number('W', 'kW', [100, 30_000], 'greatest heat into the cabin', assume(5000, COMMON, [4000, 6000])),
  heatPumpFactor: number('1', '1', [1, 8], 'heat over power of a heat pump at 7 °C outside', {
    ...assume(2.5, 'car heat pumps 2 to 3 (from memory)', [2, 3]),
  }),
  heatPumpSlope: number('1/K', '1/K', [0, 0.2], 'how that factor rises with the temperature outside; 1 at least', {
    ...assume(0.05, COMMON, [0.03, 0.07]),
  }),
  coolerFactor: number('1', '1', [0.5, 8], 'heat taken out over power of the cooling', assume(2.2, COMMON, [1.7, 3])),
  sun: number('W', 'W', [0, 3000], 'heat of the sun and of people', assume(0, 'dull weather, one person left aside')),
} as const satisfies Fields;

export const auxiliariesFields = {
  power: number('W', 'W', [0, 20_000], 'drawn on the 12 V side while driving', {
    ...assume(250, '150 to 400 W on test benches without heating or cooling (from memory)', [120, 400]),
  }),
  converterEfficiency: number('1', '%', [0.3, 1], 'of the dc-dc converter', { ...assume(0.9, COMMON, [0.86, 0.94]) }),
} as const satisfies Fields;
