/** What the cells that drive somewhere take: a schedule, a log, a steady speed, a trip of several of these, or a mix of them. */
import { scheduleNames } from '../../cycles/schedules.ts';
import type { Fields } from '../../model/fields/field.ts';
import { KG, KMH, number } from '../../model/fields/table.ts';
import { supplyFields } from '../../model/pack/supply-fields.ts';
import type { FieldValues } from '../fields/read-context.ts';

const DAY = 86_400;

/** One thing to drive: exactly one of schedule, log and speed. */
export const wayFields = {
  schedule: { kind: 'choice', choices: scheduleNames, doc: 'a schedule that ships' },
  log: { kind: 'text', doc: 'a CSV file of time and speed, or time and position, in the folder of the notebook' },
  speed: number('m/s', KMH, [0.1, 90], 'a steady speed, with distance or time where it is driven once'),
  distance: number('m', ['km', 'mi'], [1, 1e7], 'at that speed'),
  time: number('s', 'min', [1, 30 * DAY], 'at that speed'),
} as const satisfies Fields;

const unit = (kind: string, choices: readonly string[]) =>
  ({ kind: 'choice', choices, doc: `unit of the ${kind} in logs whose header names none` }) as const;

const column = (kind: string) => ({ kind: 'text', doc: `the column of ${kind}` }) as const;

/** Columns of the bus of a car, for what has a use for them. */
export const busColumns = {
  wheel: column('speed of the driven wheels'),
  power: column('power out of the pack'),
  voltage: column('voltage of the pack'),
  current: column('current of the pack'),
} as const satisfies Fields;

/** How a log is read where its header does not say it all. */
export const logFields = {
  timeUnit: unit('time', ['s', 'ms', 'min', 'h']),
  speedUnit: unit('speed', ['km/h', 'mph', 'm/s', 'kn']),
  altitudeUnit: unit('altitude', ['m', 'ft']),
  columns: {
    kind: 'group',
    part: '',
    fields: {
      time: column('time'),
      speed: column('speed'),
      latitude: column('latitude'),
      longitude: column('longitude'),
      altitude: column('altitude'),
    },
    doc: 'names of columns as the header of a log has them, where they are not found by themselves',
  },
} as const satisfies Fields;

const load = number('kg', KG, [0, 10_000], 'passengers and luggage on this leg', { derived: 'what the car says' });

const plugFields = {
  hours: number('s', 'h', [60, 30 * DAY], 'that the car stands there', { derived: 'until it is charged' }),
  to: number('1', '%', [0.01, 1], 'state of charge up to which it is charged', {
    derived: 'the high end of the window of the pack',
    computed: true,
  }),
  ...supplyFields,
} as const satisfies Fields;

const rowFields = {
  ...wayFields,
  ...logFields,
  times: number('1', '1', [1, 1000], 'how often, one after the other', { derived: 'once' }),
  load,
  slope: number('1', '%', [-0.5, 0.5], 'rise over run of the whole leg', { derived: 'level, or what the log says' }),
  plug: { kind: 'group', part: '', fields: plugFields, doc: 'in place of a leg: the car stands and is charged' },
  stop: number('s', 'h', [1, 30 * DAY], 'in place of a leg: the car stands switched off for so long'),
} as const satisfies Fields;

const shareFields = {
  ...wayFields,
  distance: number('m', ['km', 'mi'], [1, 1e7], 'at that speed, in one piece', {
    derived: 'where no time is said either, what makes up the share beside whole other schedules',
  }),
  ...logFields,
  share: number('1', '%', [0.001, 1], 'of the whole distance; all together 100 %', { required: true }),
  load,
} as const satisfies Fields;

/** To be spread into the fields of a cell. */
export const tripFields = {
  ...wayFields,
  trip: { kind: 'groups', fields: rowFields, doc: 'legs and stops in the order of driving' },
  mix: { kind: 'groups', fields: shareFields, doc: 'schedules, each with its share of the distance, driven in turn' },
  legs: number('1', '1', [1, 1000], 'of a mix', { derived: 'the fewest that keep the shares within 1 %, at most 60' }),
  ...logFields,
} as const satisfies Fields;

/** The values of a cell that are not about its trip. */
export function withoutTrip(values: FieldValues): FieldValues {
  return Object.fromEntries(Object.entries(values).filter(([key]) => !Object.hasOwn(tripFields, key)));
}
