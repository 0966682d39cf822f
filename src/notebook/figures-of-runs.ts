/** The figures of each kind of run that studies can ask for; the first ones are those that a study shows unasked. */
import type { Question } from '../runs/answer/question.ts';

export const RUN_FIGURES: { readonly [kind in Question['run']['kind']]: readonly string[] } = {
  launch: [
    'time',
    'time_quarter_mile',
    'speed_quarter_mile',
    'time_to_50_km_h',
    'time_to_80_km_h',
    'time_to_60_mph',
    'time_to_100_km_h',
    'time_60_ft',
    'time_eighth_mile',
  ],
  drive: ['consumption', 'consumption_wall', 'charge_end', 'time_late', 'energy', 'distance', 'time'],
  range: ['range', 'consumption', 'consumption_wall', 'energy', 'time', 'time_late'],
  steady: ['range', 'consumption', 'consumption_wall', 'time', 'energy'],
  charge: ['time', 'energy_wall'],
};

/** How many of them are shown unasked. */
export const HEADLINES: { readonly [kind in Question['run']['kind']]: number } = {
  launch: 2,
  drive: 3,
  range: 3,
  steady: 3,
  charge: 2,
};

/** Whether a figure is better when low or when high; those of which neither can be said are left out. */
export const BETTER: { readonly [kind in Question['run']['kind']]: { readonly [key: string]: 'low' | 'high' } } = {
  launch: {
    time: 'low',
    time_quarter_mile: 'low',
    speed_quarter_mile: 'high',
    time_to_50_km_h: 'low',
    time_to_80_km_h: 'low',
    time_to_60_mph: 'low',
    time_to_100_km_h: 'low',
    time_60_ft: 'low',
    time_eighth_mile: 'low',
  },
  drive: { consumption: 'low', consumption_wall: 'low', charge_end: 'high', time_late: 'low', energy: 'low' },
  range: { range: 'high', consumption: 'low', consumption_wall: 'low', time_late: 'low' },
  steady: { range: 'high', consumption: 'low', consumption_wall: 'low' },
  charge: { time: 'low', energy_wall: 'low' },
};
