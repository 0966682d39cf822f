/** What a calibrate cell takes. */
import type { Fields } from '../../model/fields/field.ts';
import { assume, COMMON, KG, KMH, number } from '../../model/fields/table.ts';
import { surroundingsFields } from '../../model/surroundings-fields.ts';
import { LAUNCH_PARAMETERS } from '../../fit/launch/parameters.ts';
import { busColumns, logFields, wayFields } from './trip-fields.ts';

const { temperature, altitude, humidity, wind, slope, surface } = surroundingsFields;

const coastRow = {
  log: {
    kind: 'text',
    doc: 'a CSV file of time and speed in the folder of the notebook: one coast-down',
    required: true,
  },
  direction: {
    kind: 'choice',
    choices: ['there', 'back'],
    doc: 'which way along the same road; as many there as back',
    required: true,
  },
} as const satisfies Fields;

const launchRow = {
  log: {
    kind: 'text',
    doc: 'a CSV file of time and speed, and what the bus of the car tells beside: power of the pack, or its voltage and current; speed of the driven wheels. One launch at full pedal, from before the pedal goes down',
    required: true,
  },
} as const satisfies Fields;

const driveRow = {
  ...wayFields,
  energy: number('J', 'kWh', [1e4, 1e10], 'out of the pack on this drive, what came back taken off, by its meter', {
    required: true,
  }),
  temperature,
  charge: number('1', '%', [0.001, 1], 'state of charge at the start', { derived: 'that of the car', computed: true }),
} as const satisfies Fields;

const chargeRow = {
  from: number('1', '%', [0, 1], 'state of charge before, by a gauge', { derived: 'by the voltage at rest' }),
  to: number('1', '%', [0, 1], 'state of charge after, by a gauge', { derived: 'by the voltage at rest' }),
  restBefore: number('V', 'V', [1, 2000], 'voltage of the pack at rest before, after an hour or more without current', {
    derived: 'that of the log, or the gauge tells',
  }),
  restAfter: number('V', 'V', [1, 2000], 'the same after; both give the state of charge by the curve of the cells', {
    derived: 'that of the log, or the gauge tells',
  }),
  log: {
    kind: 'text',
    doc: 'a CSV file of time, voltage and current of the pack over a charge or a drive, from half an hour of rest or more to as much again: counts the charge and tells both voltages',
  },
  counted: number('C', 'A h', [100, 1e8], 'into the pack, by the counter of its management; or out of it', {
    derived: 'by the log, or not counted',
  }),
  wall: number('J', 'kWh', [1e4, 1e10], 'from the wall, by its meter', { derived: 'not metered' }),
  into: number('J', 'kWh', [1e4, 1e10], 'into the pack, by its meter', { derived: 'by the log, or not metered' }),
} as const satisfies Fields;

export const calibrateFields = {
  car: { kind: 'reference', to: ['car'], doc: 'the car as it is known so far', required: true },
  coast: { kind: 'groups', fields: coastRow, doc: 'coast-downs, in the order of driving' },
  launch: { kind: 'groups', fields: launchRow, doc: 'launches from rest on the same day' },
  drives: { kind: 'groups', fields: driveRow, doc: 'drives of a season with the energy of each' },
  charges: { kind: 'groups', fields: chargeRow, doc: 'charges of a season' },
  from: number('m/s', KMH, [3, 90], 'for coast: speed below which a run counts', {
    derived: 'the highest of each log, and 2 s later',
  }),
  to: number(
    'm/s',
    KMH,
    [1, 60],
    'for coast: speed down to which it counts; for launch: up to which, else nearly the highest',
    {
      ...assume(15 / 3.6, `for coast; ${COMMON}`),
    },
  ),
  fit: {
    kind: 'words',
    doc: `what is asked for. For launch, of ${LAUNCH_PARAMETERS.join(', ')}; left out, all but mass; copper_loss with the power of the pack alone. For drives: of auxiliaries, drag, rolling; left out, all`,
  },
  receiver: number(
    's',
    's',
    [0, 2],
    'for launch: time over which the receiver averages each speed, and the bus its power',
    {
      derived: 'from one row to the next, at most 0.2 s (common practice, no source)',
    },
  ),
  meter: number('1', '%', [0, 0.2], 'for launch: standard uncertainty of the power that the bus tells', {
    ...assume(0.01, COMMON),
  }),
  curve: number(
    'V',
    'mV',
    [0, 0.2],
    'for charges: standard uncertainty of the open-circuit voltage of a cell over its charge',
    {
      ...assume(0.015, `cells of one kind differ by as much; ${COMMON}`),
    },
  ),
  testMass: number('kg', KG, [50, 40_000], 'of the car when it was measured, people included', {
    derived: 'that of the car with driver and load',
    computed: true,
  }),
  turningMass: number('kg', KG, [0, 2000], 'by which what turns adds to it: wheels, shafts, a motor that turns along', {
    derived: 'from the inertias of the car, known to 20 % (common practice, no source)',
  }),
  sideWind: number('m/s', KMH, [0, 20], 'for coast: wind across the road, by its size: no run tells it', {
    derived: 'unknown, and nothing is taken off; with a value but no ±, known to 30 % (common practice, no source)',
  }),
  temperature,
  altitude,
  humidity,
  wind,
  slope,
  surface,
  ...logFields,
  columns: { ...logFields.columns, fields: { ...logFields.columns.fields, ...busColumns } },
} as const satisfies Fields;
