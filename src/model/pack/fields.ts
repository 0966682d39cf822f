/** What a user says about the pack, its cells and its charger. */
import type { Fields } from '../fields/field.ts';
import { assume, COMMON, KG, number, ordered, stated } from '../fields/table.ts';
import type { SpecOf } from '../fields/table.ts';

/** One battery cell at 25 degC, new. */
export const cellFields = {
  capacity: number('C', 'Ah', [360, 3.6e6], 'capacity', {
    required: true,
    ...stated(0.03, 'nominal against least capacity in data sheets of cells (from memory)'),
  }),
  ocvCharge: { kind: 'numbers', unit: '1', min: 0, max: 1, doc: 'states of charge, from 0 to 1', required: true },
  ocvVoltage: { kind: 'numbers', unit: 'V', min: 0.5, max: 6, doc: 'open-circuit voltage there', required: true },
  resistanceCharge: { kind: 'numbers', unit: '1', min: 0, max: 1, doc: 'states of charge', required: true },
  resistanceOhm: { kind: 'numbers', unit: 'ohm', min: 0, max: 1, doc: 'ohmic resistance there', required: true },
  pairResistance: { kind: 'numbers', unit: 'ohm', min: 1e-6, max: 1, doc: 'polarisation resistance of each RC pair' },
  pairTimeConstant: { kind: 'numbers', unit: 's', min: 0.1, max: 100_000, doc: 'time constant of each RC pair' },
  resistanceFactor: number('1', '1', [0.2, 5], 'by which all these resistances are multiplied', {
    ...assume(
      1,
      'stated resistances differ by the pulse they are measured with and from cell to cell; common practice, no source',
      [0.85, 1.15],
    ),
  }),
  maxCurrent: number('A', 'A', [0.1, 10_000], 'discharge current for some seconds', { required: true }),
  maxChargeCurrent: number('A', 'A', [0, 10_000], 'charge current for some seconds at room temperature', {
    derived: 'half of the discharge current, 1.5 times the capacity in Ah at most (common practice, no source)',
  }),
  continuousCurrent: number('A', 'A', [0.1, 10_000], 'discharge current for ever', {
    derived: 'half of that for some seconds, a third to two thirds of it (common practice, no source)',
    below: { as: 'share', path: 'max_current' },
  }),
  continuousChargeCurrent: number('A', 'A', [0, 10_000], 'charge current for ever', {
    derived: 'half of that for some seconds, a third to two thirds of it (common practice, no source)',
    below: { as: 'share', path: 'max_charge_current' },
  }),
  pulseTime: number('s', 's', [0.1, 3600], 'for which the two currents for some seconds last, from a rested pack', {
    ...assume(20, 'data sheets of cells state 10 s or 30 s; common practice, no source', [10, 30]),
  }),
  coulombicEfficiency: number('1', '%', [0.5, 1], 'charge that comes out again over charge that went in', {
    ...assume(0.995, 'lithium cells 0.99 and above, Plett, Battery Management Systems I (from memory)', [0.99, 1]),
  }),
  minVoltage: number('V', 'V', [0.5, 5], 'lowest voltage under load', {
    required: true,
    ...ordered('max_voltage'),
  }),
  maxVoltage: number('V', 'V', [0.5, 6], 'highest voltage', { required: true }),
  mass: number('kg', KG, [0.001, 100], 'mass of the cell', { required: true }),
} as const satisfies Fields;

/** The traction battery. */
export const packFields = {
  cell: { kind: 'group', part: 'cell', fields: cellFields, doc: 'the cell it is made of', required: true },
  series: number('1', '1', [1, 500], 'cells in series', { required: true, whole: true }),
  parallel: number('1', '1', [1, 1000], 'cells in parallel', { required: true, whole: true }),
  charge: number('1', '%', [0, 1], 'state of charge at the start', { ...assume(0.9, COMMON) }),
  health: number('1', '%', [0.3, 1.1], 'capacity left over capacity when new, of the weakest module; or new, or used', {
    ...assume(1, 'a new pack'),
    words: {
      new: { value: 1, source: 'new: all of its capacity' },
      used: {
        value: 0.8,
        source: 'used: modules out of scrapped cars, the weakest of the string; common practice, no source',
        spread: { kind: 'rectangular', low: 0.65, high: 0.95 },
      },
    },
  }),
  moduleHealth: {
    kind: 'numbers',
    unit: '1',
    display: { metric: '%', imperial: '%' },
    min: 0.05,
    max: 1.1,
    doc: 'in place of health: that of each module in the string, as measured; the least of them counts',
  },
  resistanceGrowth: number('1', '1', [0.5, 5], 'resistance over resistance when new', {
    derived:
      '1 and twice what health lacks of 1, once to four times: worn out is 80 % of the capacity or twice the resistance (common practice, no source)',
  }),
  wiringResistance: number('ohm', 'mohm', [0, 1], 'busbars, contactors, fuses and cables to the inverter', {
    derived: '6 V at the current limit, 3 to 12 V: cables are chosen by the current (common practice, no source)',
  }),
  maxCurrent: number('A', 'A', [1, 10_000], 'discharge limit of the whole pack', {
    derived: 'the limit of the cell times the cells in parallel',
    computed: true,
  }),
  continuousCurrent: number('A', 'A', [0.1, 10_000], 'that the whole pack gives for ever', {
    derived: 'that of the cell times the cells in parallel, at most the discharge limit',
    computed: true,
  }),
  continuousChargeCurrent: number('A', 'A', [0, 10_000], 'that the whole pack takes for ever', {
    derived: 'that of the cell times the cells in parallel, at most the charge limit',
    computed: true,
  }),
  minVoltage: number('V', 'V', [5, 1500], 'lowest voltage of the whole pack under load', {
    derived: 'the limit of the cell times the cells in series',
    computed: true,
    ...ordered('cell/max_voltage', 'series'),
  }),
  contactorVoltage: number('V', 'V', [10, 2000], 'voltage that contactors and fuses are rated for', {
    derived: 'not checked',
  }),
  maxChargeCurrent: number('A', 'A', [0, 10_000], 'charge limit of the whole pack, braking included', {
    derived: 'the limit of the cell times the cells in parallel',
    computed: true,
  }),
  chargeFullAbove: number(
    'K',
    ['degC', 'degF'],
    [243.15, 323.15],
    'pack temperature from which it may be charged fully',
    {
      ...assume(288.15, COMMON, [283.15, 298.15]),
    },
  ),
  chargeNoneBelow: number(
    'K',
    ['degC', 'degF'],
    [223.15, 318.15],
    'pack temperature below which it must not be charged',
    {
      ...assume(268.15, 'data sheets of cells: 0 °C, some pulses below; common practice, no source', [263.15, 273.15]),
      ...ordered('charge_full_above'),
    },
  ),
  heaterPower: number('W', 'kW', [50, 20_000], 'of a heater in the pack that warms it while it hangs on a plug', {
    derived: 'none',
  }),
  heaterUntil: number('K', ['degC', 'degF'], [263.15, 313.15], 'pack temperature up to which it is heated then', {
    ...assume(283.15, `10 °C; ${COMMON}`, [278.15, 288.15]),
  }),
  dischargeFullAbove: number(
    'K',
    ['degC', 'degF'],
    [243.15, 323.15],
    'pack temperature from which on it gives its discharge limit',
    { ...assume(283.15, COMMON, [278.15, 288.15]) },
  ),
  dischargeNoneBelow: number('K', ['degC', 'degF'], [203.15, 318.15], 'pack temperature below which it gives nothing', {
    ...assume(233.15, 'half of its limit at -15 °C; common practice, no source', [223.15, 243.15]),
    ...ordered('discharge_full_above'),
  }),
  lowCharge: number('1', '%', [0, 0.9], 'state of charge below which it gives less than its discharge limit', {
    ...assume(0.15, COMMON, [0.1, 0.2]),
  }),
  lowShare: number('1', '%', [0, 1], 'share of its discharge limit at no charge, a straight line below low_charge', {
    ...assume(0.3, COMMON, [0.15, 0.45]),
  }),
  windowLow: number('1', '%', [0, 0.9], 'state of charge at which the car stops giving power', {
    ...assume(0.05, COMMON, [0.03, 0.08]),
    ...ordered('window_high'),
  }),
  windowHigh: number('1', '%', [0.1, 1], 'state of charge up to which it is charged', assume(0.97, COMMON, [0.95, 1])),
  cooling: number('W/K', 'W/K', [0, 10_000], 'heat it gives off per kelvin', {
    derived: '0.03 W/K for each kg of cells: a closed box in still air; common practice, no source',
  }),
  heatCapacity: number('J/K', 'kJ/K', [100, 1e8], 'of the cells with their boxes and busbars', {
    derived: '1.4 times the mass of the cells times 1000 J/(kg K) (from memory)',
  }),
  derateTemperature: number('K', ['degC', 'degF'], [293.15, 373.15], 'temperature from which the current is reduced', {
    ...assume(323.15, COMMON, [318.15, 328.15]),
  }),
  derateRange: number('K', 'K', [1, 100], 'warming over which the current falls to nothing', assume(10, COMMON)),
  resistanceActivation: number('K', 'K', [0, 20_000], 'activation energy of the resistance over the gas constant', {
    ...assume(2400, 'about 20 kJ/mol, Plett, Battery Management Systems I (from memory)', [1500, 4000]),
  }),
} as const satisfies Fields;

/** On board, from the wall to the pack. */
export const chargerFields = {
  power: number('W', 'kW', [100, 400_000], 'greatest power that one takes from the wall', {
    ...assume(6600, 'usual single-phase charger of 6.6 kW; common practice, no source'),
  }),
  count: number('1', '1', [1, 12], 'chargers side by side', { ...assume(1, 'one charger'), whole: true }),
  usualPower: number('W', 'kW', [100, 1e6], 'from the wall, all together, where it is charged as a rule', {
    derived: 'all that the chargers can take: a socket of 230 V and 10 A gives 2.3 kW',
    computed: true,
  }),
  idleShare: number('1', '%', [0, 1], 'part of the loss at their greatest power that they have at any power', {
    ...assume(0.15, 'about one point less of efficiency at a third of the power (from memory)', [0, 0.3]),
  }),
  maxCurrent: number('A', 'A', [1, 2000], 'greatest current of one into the pack', {
    derived:
      'at which it gives its greatest power at 300 V, at 240 to 360 V: chargers for packs of 400 V (from memory); one for a lower voltage gives more',
  }),
  leastVoltage: number('V', 'V', [5, 1500], 'voltage of the pack from which on they charge', {
    derived: 'not checked',
  }),
  greatestVoltage: number('V', 'V', [10, 2000], 'voltage of the pack up to which they charge', {
    derived: 'not checked: the highest of the pack counts',
  }),
  efficiency: number('1', '%', [0.5, 1], 'share of their greatest power that reaches the pack and the 12 V side', {
    ...assume(0.9, 'on-board chargers 0.88 to 0.94 (from memory)', [0.86, 0.94]),
  }),
  overhead: number('W', 'W', [0, 3000], 'drawn at the pack while charging: pumps, controls, 12 V side', {
    ...assume(200, 'cars that charge from the wall (from memory)', [100, 300]),
  }),
} as const satisfies Fields;

export type CellSpec = SpecOf<typeof cellFields>;
export type PackSpec = SpecOf<typeof packFields>;
