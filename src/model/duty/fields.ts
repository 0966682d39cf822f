/** What data sheets say of the parts that currents, voltages and torques go through. What is left out is not judged: it is required. */
import type { Field, Fields } from '../fields/field.ts';
import { assume, COMMON, KMH, NM, number, type SpecOf } from '../fields/table.ts';

const NOT_JUDGED = { derived: 'not known: a requirement, and not judged' } as const;
const KELVIN = ['degC', 'degF'] as const;
const amperes = (doc: string): Field => number('A', 'A', [0.1, 20_000], doc, NOT_JUDGED);
const volts = (doc: string): Field => number('V', 'V', [1, 3000], doc, NOT_JUDGED);

/** A current for a time. */
export const pulseFields = {
  current: number('A', 'A', [0.1, 20_000], 'that is given for that time', { required: true }),
  time: number('s', 's', [0.001, 7200], 'from a rested part', { required: true }),
} as const satisfies Fields;

const continuous = (of: string) =>
  number('A', 'A', [0.1, 20_000], `${of} for ever, where it is as warm as it gets`, NOT_JUDGED);
const pulses = (of: string) =>
  ({
    kind: 'groups',
    fields: pulseFields,
    doc: `${of} for a time: current and time, as the sheet pairs them`,
  }) as const;

const current = { continuous: continuous('current'), pulses: pulses('current') } as const;
const window = {
  leastVoltage: number('V', 'V', [1, 3000], 'voltage from which on it works', NOT_JUDGED),
  greatestVoltage: number('V', 'V', [1, 3000], 'voltage that it bears', NOT_JUDGED),
} as const;

/** The whole pack, by the sheet of its cells and its management system. */
export const packDutyFields = {
  ...current,
  chargeContinuous: continuous('charge current'),
  chargePulses: pulses('charge current'),
} as const satisfies Fields;

/** One of its strings: cells in series, with their busbars. */
const stringDutyFields = { ...current } as const satisfies Fields;

export const inverterDutyFields = {
  ...current,
  ...window,
  backEmf: number(
    'V',
    'V',
    [1, 3000],
    'peak between two phases that the turning motor makes with nothing connected, at back_emf_at',
    NOT_JUDGED,
  ),
  backEmfAt: number('rad/s', 'rpm', [1, 4200], 'motor speed of back_emf', { derived: '1000 rpm, as sheets give it' }),
} as const satisfies Fields;

const contactorDutyFields = {
  ...current,
  greatestVoltage: window.greatestVoltage,
  closingCurrent: number('A', 'A', [0.1, 20_000], 'that it may close on', NOT_JUDGED),
} as const satisfies Fields;

const chargerDutyFields = {
  ...window,
  current: number('A', 'A', [0.1, 2000], 'greatest direct current of all together', NOT_JUDGED),
  phaseCurrent: number('A', 'A', [0.1, 500], 'greatest alternating current in a phase', NOT_JUDGED),
} as const satisfies Fields;

const converterDutyFields = {
  ...window,
  power: number('W', 'W', [10, 20_000], 'that it gives on the 12 V side for ever', NOT_JUDGED),
} as const satisfies Fields;

export const shaftDutyFields = {
  torque: number(
    'N m',
    NM,
    [10, 50_000],
    'that one half shaft bears; shaft_torque of the car is both together',
    NOT_JUDGED,
  ),
  joint: number('N m', NM, [10, 50_000], 'that one joint bears at the angle that it works at', NOT_JUDGED),
  dynamicFactor: number(
    '1',
    '1',
    [1, 5],
    'what comes on top of the torque of a smooth run: jerks, play, wheels that hop',
    {
      ...assume(1.5, COMMON, [1.2, 2]),
    },
  ),
  exponent: number('1', '1', [2, 15], 'slope k of the damage over the range of torque', {
    ...assume(5, COMMON, [3, 8]),
  }),
} as const satisfies Fields;

export const gearDutyFields = {
  torque: number('N m', NM, [10, 100_000], 'that the final drive bears, both half shafts together', NOT_JUDGED),
  exponent: number('1', '1', [2, 15], 'slope k of the damage over torque', {
    ...assume(6.6, `tooth flanks about 6.6 (from memory); ${COMMON}`, [3, 10]),
  }),
} as const satisfies Fields;

export const prechargeDutyFields = {
  capacitance: number('F', 'uF', [1e-6, 1], 'of all that hangs on the bus: inverters, converters', { required: true }),
  resistance: number('ohm', 'ohm', [0.1, 100_000], 'of the pre-charge resistor', { required: true }),
  share: number(
    '1',
    '%',
    [0.5, 0.999],
    'of the voltage of the pack, at which the contactor closes',
    assume(0.95, COMMON),
  ),
  bleed: number('ohm', 'ohm', [1, 1e8], 'of what discharges the capacitors all the time', { derived: 'none' }),
  loadPower: number('W', 'W', [0, 20_000], 'of what draws constant power meanwhile: a converter that is on', {
    derived: 'nothing draws',
  }),
  loadFrom: number('V', 'V', [1, 1500], 'voltage from which on it draws', {
    derived: 'least_voltage of the converter',
  }),
  time: number('s', 's', [0.001, 600], 'that it may take', NOT_JUDGED),
  resistorEnergy: number('J', 'J', [0.1, 1e6], 'that the resistor bears at once', NOT_JUDGED),
  resistorPower: number('W', 'W', [0.1, 1e6], 'that the resistor bears at its beginning', NOT_JUDGED),
} as const satisfies Fields;

/** The limits are examples of where such a voltage stands. */
export const dischargeDutyFields = {
  bleed: number('ohm', 'ohm', [1, 1e8], 'of the resistor that discharges the capacitors', { required: true }),
  limit: {
    kind: 'choice',
    choices: ['ISO 6469-3', 'UN R100', 'own'],
    doc: 'whose voltage is to be come down to, 60 V dc in both (from memory); own: that of `voltage`',
    required: true,
  },
  voltage: number('V', 'V', [1, 1500], 'own voltage to come down to', { derived: 'that of the limit' }),
  within: number('s', 's', [0.1, 3600], 'that it may take, as what binds your car says', NOT_JUDGED),
} as const satisfies Fields;

export const fuseDutyFields = {
  rated: number('A', 'A', [1, 5000], 'its rated current', { required: true }),
  ambientFactor: number('1', '1', [0.2, 1.2], 'of its rated current, in the warmth that it is in', {
    ...assume(0.9, 'about 50 °C where 25 °C is rated; common practice, no source', [0.8, 1]),
  }),
  share: number('1', '%', [0.1, 1], 'of that current that it is to carry in the root mean square', {
    ...assume(0.75, COMMON, [0.6, 0.85]),
  }),
  pulseShare: number('1', '%', [0.01, 1], 'of the heat that melts it, that a pulse which comes again may have', {
    ...assume(0.3, COMMON, [0.15, 0.5]),
  }),
  meltingTime: { kind: 'numbers', unit: 's', min: 1e-4, max: 1e5, doc: 'times of the melting curve, ascending' },
  meltingCurrent: { kind: 'numbers', unit: 'A', min: 0.1, max: 1e6, doc: 'currents that melt it in those times' },
  voltage: volts('direct voltage that it breaks'),
  breakingCapacity: number('A', 'A', [10, 1e6], 'greatest direct current that it breaks', NOT_JUDGED),
  leastBreaking: amperes('least current that it breaks'),
} as const satisfies Fields;

export const cableDutyFields = {
  current: number('A', 'A', [1, 5000], 'for ever, as the sheet has it', { required: true }),
  rise: number('K', 'K', [1, 250], 'that it is then warmer than its surroundings', { required: true }),
  time: number('s', 's', [1, 36_000], 'time constant: it is 63 % of the way there', { required: true }),
  ambient: number('K', KELVIN, [223.15, 423.15], 'of its surroundings', {
    ...assume(313.15, `40 °C; ${COMMON}`, [303.15, 333.15]),
  }),
  greatest: number(
    'K',
    KELVIN,
    [293.15, 573.15],
    'temperature that its conductor, and the insulation on it, bears for ever',
    NOT_JUDGED,
  ),
  metal: {
    kind: 'choice',
    choices: ['copper', 'aluminium'],
    doc: 'of the conductor',
    default: { value: 'copper', source: 'usual' },
  },
  section: number('m^2', 'mm^2', [1e-7, 1e-3], 'of the conductor', NOT_JUDGED),
  shortHeat: number(
    'A^2 s',
    'A^2 s',
    [1, 1e12],
    'that its fuse lets through in a short circuit: total I^2 t of the sheet',
    {
      derived: 'not known: the short circuit is not looked at',
    },
  ),
  shortGreatest: number('K', KELVIN, [373.15, 673.15], 'temperature that it bears after a short circuit', {
    ...assume(523.15, 'XLPE 250 °C, IEC 60364-5-54 (from memory)'),
  }),
} as const satisfies Fields;

const coolantDutyFields = {
  power: number('W', 'kW', [10, 1e6], 'that the radiator takes from the drive units on a hot day', NOT_JUDGED),
} as const satisfies Fields;

/** Where the pack is at its weakest. */
export const weakestFields = {
  temperature: number('K', KELVIN, [233.15, 313.15], 'of a cold pack', {
    ...assume(263.15, `-10 °C; ${COMMON}`, [253.15, 273.15]),
  }),
  resistanceGrowth: number('1', '1', [1, 5], 'resistance of a worn pack over that of the car', {
    ...assume(1.5, COMMON, [1.2, 2]),
  }),
} as const satisfies Fields;

export const brakesDutyFields = {
  speed: number('m/s', KMH, [1, 100], 'from which it stops', {
    ...assume(100 / 3.6, 'UN Regulation No. 13-H, type 0 (from memory)'),
  }),
  deceleration: number('m/s^2', ['m/s^2', 'ft/s^2'], [0.5, 12], 'with which it stops', {
    ...assume(6.43, 'UN Regulation No. 13-H, type 0 (from memory)'),
  }),
} as const satisfies Fields;

const part = <F extends Fields>(fields: F, doc: string) => ({ kind: 'group', part: '', fields, doc }) as const;

/** Data-sheet values, part by part. */
export const dutyFields = {
  lookFrom: number('1', '%', [0.1, 1], 'a figure above this share of its data-sheet value is to be looked at', {
    ...assume(0.9, COMMON),
  }),
  pack: part(packDutyFields, 'the whole pack'),
  string: part(stringDutyFields, 'one string of cells in series'),
  inverter: part(inverterDutyFields, 'the direct-current side of one inverter'),
  contactor: part(contactorDutyFields, 'a main contactor'),
  charger: part(chargerDutyFields, 'the chargers'),
  converter: part(converterDutyFields, 'the converter of the 12 V side'),
  shafts: part(shaftDutyFields, 'half shafts and their joints'),
  gears: part(gearDutyFields, 'the final drive'),
  precharge: part(prechargeDutyFields, 'the pre-charge of the capacitors'),
  discharge: part(dischargeDutyFields, 'their discharge'),
  fuse: part(fuseDutyFields, 'the main fuse'),
  cable: part(cableDutyFields, 'the main cable'),
  coolant: part(coolantDutyFields, 'the cooling of the drive units'),
  weakest: part(weakestFields, 'the pack at its weakest, for the lowest voltage'),
  brakes: part(brakesDutyFields, 'a stop, for whoever judges the brakes'),
} as const satisfies Fields;

export type DutySpec = SpecOf<typeof dutyFields>;
