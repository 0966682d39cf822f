/** A performance sheet as a kind of run. */
import { loadedMass } from '../../model/body/loaded-mass.ts';
import { filler } from '../../model/fields/filler.ts';
import { runKind } from '../kind.ts';
import { soakedIn } from '../soaked.ts';
import { sheetFields } from './fields.ts';
import { sheetOutputs } from './outputs.ts';
import { sheet, sheetFigures } from './sheet.ts';
import type { SheetOptions } from './sheet.ts';

/** A steeper slope, a higher speed, a shorter time. */
const better = Object.fromEntries(
  Object.entries(sheetOutputs).flatMap(([key, { unit }]): [string, 'low' | 'high'][] => {
    if (unit === 's') return [[key, key.startsWith('time_') ? 'low' : 'high']];
    return unit === 'm/s' || (unit === '1' && key.includes('_slope')) ? [[key, 'high']] : [];
  }),
);

export const sheetKind = runKind<SheetOptions>({
  kind: 'sheet',
  doc: 'a performance sheet: maximum and 30-minute speed, times, slopes, hill start',
  notes: ['there is no slope here: every test has its own'],
  fields: sheetFields,
  drivesTrip: false,
  atFullPedal: true,
  outputs: sheetOutputs,
  renamed: {
    max_speed: 'top_speed',
    max_speed_limiter: 'top_speed_limiter',
    max_speed_time: 'top_speed_time',
    time_0_to_50_km_h: 'time_to_50_km_h',
    time_0_to_50_km_h_limiter: 'time_to_50_km_h_limiter',
    time_0_to_100_km_h: 'time_to_100_km_h',
    time_0_to_100_km_h_limiter: 'time_to_100_km_h_limiter',
  },
  headlines: ['top_speed', 'time_to_100_km_h', 'start_slope'],
  intervals: [
    'top_speed',
    'top_speed_time',
    'thirty_minute_speed',
    'time_to_50_km_h',
    'time_50_to_80_km_h',
    'time_to_100_km_h',
    'speed_12_percent',
    'start_slope',
  ],
  better,
  slow: false,
  read(asked) {
    const { car, name, values, inputs } = asked;
    const fill = filler(name, sheetFields, values, inputs);
    const optional = (key: 'grossMass' | 'grossFrontShare'): number | undefined =>
      values[key] === undefined ? undefined : fill.number(key);
    const [grossMass, grossFrontShare] = [optional('grossMass'), optional('grossFrontShare')];
    const lightest = loadedMass(car.body);
    if (grossMass !== undefined && grossMass < lightest) {
      const message = `is below the ${lightest} kg of the car with its driver and load`;
      throw fill.error('grossMass', message, 'the mass of the fully loaded car');
    }
    const options = {
      // Every test has a slope of its own.
      surroundings: soakedIn(asked, { slope: 0 }),
      ...(grossMass !== undefined && { grossMass }),
      ...(grossFrontShare !== undefined && { grossFrontShare }),
    };
    return { car, options };
  },
  run: ({ car, options }) => sheet(car, options),
  createAnswer:
    wanted =>
    ({ car, options }) =>
      sheetFigures(car, options, wanted),
});
