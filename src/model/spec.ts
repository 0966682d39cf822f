/**
 * What a user says about a car: the tables behind reading, checking, defaults and the printed reference. Everything but
 * the required fields may be left out; `complete.ts` fills the gaps and says with what.
 */
import type { Field, FieldDefault, Fields, NumberField } from './fields/field.ts';
import { mapFields } from './drive/map-fields.ts';

/** c2 in s2/m2: radial-ply car tyres 0.40e-7 V^2, V in km/h (Wong, *Theory of Ground Vehicles*, from memory). */
export const RADIAL_QUADRATIC = 0.4e-7 * 3.6 ** 2;

/** Base of most sources below. */
export const COMMON = 'common practice, no source';

/** A number field; `display` is one unit for both systems or one for each. */
export function number(
  unit: string,
  display: string | readonly [string, string],
  range: readonly [number, number],
  doc: string,
  rest: { required?: true; default?: FieldDefault; derived?: string; computed?: true } = {},
): NumberField {
  const [metric, imperial] = typeof display === 'string' ? [display, display] : display;
  return { kind: 'number', unit, display: { metric, imperial }, min: range[0], max: range[1], doc, ...rest };
}

/** The default of a field, with the limits of its spread where it has one. */
export function assume(value: number, source: string, spread?: readonly [number, number]): { default: FieldDefault } {
  return {
    default:
      spread === undefined
        ? { value, source }
        : { value, source, spread: { kind: 'rectangular', low: spread[0], high: spread[1] } },
  };
}

export const KG = ['kg', 'lb'] as const;
export const KMH = ['km/h', 'mph'] as const;
const NM = ['N m', 'lbf ft'] as const;
const RPM = 2 * (Math.PI / 60);

/** A tyre, for both wheels of an axle. */
export const tyreFields = {
  size: {
    kind: 'text',
    doc: 'size code on the sidewall, such as "165/80 R 13"; gives the radius, and by itself no grip',
  },
  radius: number('m', ['mm', 'in'], [0.1, 0.8], 'effective rolling radius', {
    derived: 'from the size: rolling circumference 3.05 times the free diameter (ETRTO rule, from memory)',
    computed: true,
  }),
  rollingResistance: number('1', '1', [0, 0.1], 'rolling resistance coefficient c0 at walking pace and 25 °C', {
    ...assume(
      0.0096,
      'class E of Regulation (EC) 1222/2009 Annex I Part A (9.1 to 10.5 kg/t), less the rise up to the 80 km/h of the label',
      [0.0075, 0.0117],
    ),
  }),
  rollingLinear: number('s/m', 's/m', [0, 0.01], 'c1 in c0 + c1 v + c2 v^2', {
    ...assume(0, 'radial-ply tyres rise with the square alone, Wong, Theory of Ground Vehicles (from memory)'),
  }),
  rollingQuadratic: number('s^2/m^2', 's^2/m^2', [0, 0.001], 'c2 in c0 + c1 v + c2 v^2', {
    ...assume(
      RADIAL_QUADRATIC,
      'radial-ply car tyres 0.40e-7 V^2, V in km/h, Wong, Theory of Ground Vehicles (from memory)',
    ),
  }),
  dryPeak: number('1', '1', [0.05, 3], 'peak friction on a dry road at the reference load', {
    ...assume(0.95, 'between new and worn tyres at 50 and 90 km/h, Bosch Automotive Handbook', [0.85, 1.05]),
  }),
  drySlide: number('1', '1', [0.02, 3], 'friction of the sliding tyre on a dry road', {
    derived: '0.85 of the peak (Wong, Theory of Ground Vehicles: 0.75 against 0.85 to 0.9 on dry asphalt; from memory)',
  }),
  wetPeak: number('1', '1', [0.05, 3], 'peak friction on a wet road at the reference load', {
    derived: '0.68 of the dry peak (Bosch Automotive Handbook: 0.65 against 0.85 to 1 at 50 km/h, new and worn)',
  }),
  wetSlide: number('1', '1', [0.02, 3], 'friction of the sliding tyre on a wet road', {
    derived: '0.85 of the wet peak (Wong, Theory of Ground Vehicles: 0.45 to 0.6 against 0.5 to 0.7; from memory)',
  }),
  slipAtPeak: number('1', '%', [0, 0.6], 'longitudinal slip at the peak; 0 takes the tyre as rigid', {
    ...assume(0.12, 'usual range on hard roads, Wong, Theory of Ground Vehicles (from memory)', [0.08, 0.2]),
  }),
  loadExponent: number('1', '1', [0, 0.5], 'q in mu = mu0 (N/N0)^-q: friction falls as the load grows', {
    ...assume(0.1, COMMON, [0.05, 0.15]),
  }),
  loadReference: number('N', ['N', 'lbf'], [100, 50_000], 'load of the axle N0 at which the friction is stated', {
    derived: 'the static load of the axle',
    computed: true,
  }),
  inertia: number('kg m^2', 'kg m^2', [0, 10], 'of one wheel with tyre, disc or drum, and hub', {
    derived: '0.9 kg m^2 at 0.30 m radius, with the fourth power of the radius (common practice, no source)',
  }),
} as const satisfies Fields;

const BY_TABLE = 'needed unless there is a torque table, which gives it';

/** Motor and inverter. */
export const unitFields = {
  peakTorque: number('N m', NM, [1, 20_000], 'peak torque at the motor shaft', { derived: BY_TABLE }),
  peakPower: number('W', ['kW', 'hp'], [100, 3e6], 'peak power at the motor shaft', { derived: BY_TABLE }),
  referenceVoltage: number('V', 'V', [20, 1500], 'voltage at and above which the peak power is reached', {
    derived: 'open-circuit voltage of the pack at half charge (makers state peak power at nominal voltage)',
    computed: true,
  }),
  maxSpeed: number('rad/s', 'rpm', [100 * RPM, 40_000 * RPM], 'greatest motor speed', {
    derived: '3.6 times the speed where peak torque and peak power meet, 2.5 to 5 times (the shipped units: 3.4 to 4)',
  }),
  taperSpeed: number('rad/s', 'rpm', [100 * RPM, 40_000 * RPM], 'motor speed from which the torque falls to nothing', {
    derived: '0.96 of the greatest speed (common practice, no source)',
  }),
  tableSpeed: {
    kind: 'numbers',
    unit: 'rad/s',
    min: 0,
    max: 40_000 * RPM,
    display: { metric: 'rpm', imperial: 'rpm' },
    doc: 'speeds of a torque table, ascending; takes the place of the two peaks',
  },
  tableTorque: { kind: 'numbers', unit: 'N m', min: 0, max: 20_000, doc: 'peak torque at those speeds' },
  ...mapFields,
  inertia: number('kg m^2', 'kg m^2', [0, 5], 'of the rotor', { ...assume(0.045, COMMON, [0.02, 0.08]) }),
  copperLoss: number('W/(N m)^2', 'W/(N m)^2', [0, 50], 'kc in loss = kc T^2 + ki w + kw w^3 + c', {
    derived: '6.5 % of the peak power at peak torque (as in Larminie & Lowry, eq. 7.23), ± 30 %',
  }),
  ironLoss: number('W s/rad', 'W s/rad', [0, 100], 'ki in the loss formula', {
    derived: '1.2 % of the peak power at greatest speed, ± 50 % (published maps of traction motors, from memory)',
  }),
  windageLoss: number('W s^3/rad^3', 'W s^3/rad^3', [0, 0.01], 'kw in the loss formula', {
    derived: '1 % of the peak power at greatest speed, ± 50 % (published maps of traction motors, from memory)',
  }),
  fixedLoss: number('W', 'W', [0, 10_000], 'c in the loss formula', {
    derived: '0.2 % of the peak power, 0 to 0.35 %: inverter without load; common practice, no source',
  }),
  standstillLoss: number('W', 'W', [0, 10_000], 'drawn while the car stands in a schedule', {
    derived: 'nothing, up to half of the fixed loss: the inverter does not switch then (common practice, no source)',
  }),
  inverterEfficiency: number('1', '%', [0.5, 1], 'share of the power that the inverter passes on', {
    ...assume(0.97, 'Guzzella & Sciarretta, Vehicle Propulsion Systems (from memory)', [0.955, 0.985]),
  }),
  continuousPower: number('W', ['kW', 'hp'], [100, 3e6], 'power it can give for ever; its heat is then modelled', {
    derived: 'its heat is not modelled',
  }),
  overloadTime: number('s', 's', [1, 3600], 'time for which it can give its peak power, starting cold', {
    ...assume(60, 'makers state 30 s to 2 min; common practice, no source', [30, 120]),
  }),
  coldTemperature: number('K', ['degC', 'degF'], [233.15, 373.15], 'temperature at which those ratings start', {
    ...assume(298.15, COMMON),
  }),
  derateTemperature: number('K', ['degC', 'degF'], [303.15, 523.15], 'temperature from which its ratings are reduced', {
    ...assume(393.15, COMMON, [373.15, 413.15]),
  }),
  derateRange: number('K', 'K', [1, 200], 'warming over which the peak rating falls to the continuous one', {
    ...assume(20, COMMON),
  }),
} as const satisfies Fields;

/** A gearbox that was kept. */
export const gearboxFields = {
  gears: { kind: 'numbers', unit: '1', min: 0.2, max: 20, doc: 'ratios of the gears, the first first', required: true },
  efficiency: number('1', '%', [0.5, 1], 'of each gear', {
    ...assume(0.975, 'spur gear stages 0.97 to 0.98 (from memory)', [0.96, 0.985]),
  }),
  inertia: number('kg m^2', 'kg m^2', [0, 10], 'of its turning parts, referred to the wheel', assume(0.05, COMMON)),
  shift: {
    kind: 'choice',
    choices: ['best', 'speed', 'none'],
    doc: 'best: where the next gear pulls harder; speed: at shift_speed; none: it stays in `gear`',
    default: { value: 'best', source: 'the quickest way' },
  },
  shiftSpeed: number('rad/s', 'rpm', [100 * RPM, 40_000 * RPM], 'motor speed at which the next gear is taken', {
    derived: '0.95 of the greatest motor speed (common practice, no source)',
  }),
  shiftTime: number('s', 's', [0, 5], 'without torque while a gear is changed', {
    ...assume(0.5, 'common practice, no source: 0.3 s with a practised clutch, 1 s without one', [0.3, 1]),
  }),
  gear: number('1', '1', [1, 6], 'for shift: none, the gear it is left in', assume(1, 'the first gear')),
} as const satisfies Fields;

/** What a drive takes back when the car slows down. */
export const regenerationFields = {
  kind: {
    kind: 'choice',
    choices: ['blended', 'lift', 'none'],
    doc: 'blended: the brake pedal asks the drive first; lift: only what lifting the foot gives, friction does the rest; none',
    default: { value: 'blended', source: 'the brake pedal of cars built as electric ones' },
  },
  share: number('1', '%', [0, 1], 'share of the braking at the wheels that the drive is asked for', {
    ...assume(
      0.85,
      'conversions: friction of the other axle and of hard stops; cars built as electric ones 0.95; common practice, no source',
      [0.6, 1],
    ),
  }),
  torque: number('N m', NM, [0, 20_000], 'greatest braking torque at the motor shaft', {
    derived: '0.6 of the peak torque; lift: 0.25 of it (common practice, no source)',
  }),
  power: number('W', ['kW', 'hp'], [0, 3e6], 'greatest braking power at the motor shaft', {
    derived: '0.5 of the peak power (common practice, no source)',
  }),
  fadeFrom: number(
    'm/s',
    KMH,
    [0, 20],
    'speed below which it fades out',
    assume(12 / 3.6, COMMON, [8 / 3.6, 16 / 3.6]),
  ),
  fadeTo: number('m/s', KMH, [0, 20], 'speed at which nothing is left', assume(5 / 3.6, COMMON, [2 / 3.6, 8 / 3.6])),
  gripShare: number('1', '%', [0, 1], 'share of the grip of the driven axle that it may use', {
    ...assume(0.5, 'so that the axle stays stable on a wet bend; common practice, no source', [0.3, 0.7]),
  }),
} as const satisfies Fields;

/** From the motor shaft to one driven axle. */
export const driveFields = {
  axle: { kind: 'choice', choices: ['front', 'rear', 'both'], doc: 'the axle it drives', required: true },
  frontTorqueShare: number('1', '%', [0.05, 0.95], 'for both: share of the wheel torque that goes to the front', {
    ...assume(0.5, 'an open or lockable centre differential'),
  }),
  unit: { kind: 'group', part: 'unit', fields: unitFields, doc: 'motor and inverter', required: true },
  ratio: number('1', '1', [0.2, 100], 'turns of the motor (or gearbox output) for one turn of the wheel', {
    required: true,
  }),
  gearbox: { kind: 'group', part: '', fields: gearboxFields, doc: 'a gearbox that was kept, before that ratio' },
  efficiency: number(
    '1',
    '%',
    [0.5, 1],
    'share of the torque that the gears pass on; an old hypoid axle 0.95 to 0.97',
    {
      ...assume(
        0.975,
        'two helical meshes of 0.5 to 1 % each and the differential; what turns without load is in drag_torque (from memory)',
        [0.965, 0.985],
      ),
    },
  ),
  dragTorque: number('N m', NM, [0, 50], 'lost to oil, seals and bearings at any load, at the motor shaft', {
    ...assume(0.5, 'a single reduction in warm oil, 0.3 kW at 5000 rpm; common practice, no source', [0.2, 1]),
  }),
  inertia: number('kg m^2', 'kg m^2', [0, 10], 'of gears and shafts, referred to the wheel', assume(0.1, COMMON)),
  shaftTorque: number('N m', NM, [10, 100_000], 'limit of both half shafts together', {
    derived: 'no limit is modelled',
  }),
  regeneration: { kind: 'group', part: '', fields: regenerationFields, doc: 'what it takes back when slowing down' },
  traction: {
    kind: 'choice',
    choices: ['held', 'share', 'spin'],
    doc: 'held: slip kept at the peak of friction; share: force kept at a share of it; spin: no traction control',
    default: { value: 'held', source: 'the best that the tyres allow' },
  },
  tractionShare: number('1', '%', [0.05, 1], 'for share: share of the peak friction that is used', {
    ...assume(1, 'the whole of the peak'),
  }),
} as const satisfies Fields;

/** One battery cell at 25 degC, new. */
export const cellFields = {
  capacity: number('C', 'Ah', [360, 3.6e6], 'capacity', { required: true }),
  ocvCharge: { kind: 'numbers', unit: '1', min: 0, max: 1, doc: 'states of charge, from 0 to 1', required: true },
  ocvVoltage: { kind: 'numbers', unit: 'V', min: 0.5, max: 6, doc: 'open-circuit voltage there', required: true },
  resistanceCharge: { kind: 'numbers', unit: '1', min: 0, max: 1, doc: 'states of charge', required: true },
  resistanceOhm: { kind: 'numbers', unit: 'ohm', min: 0, max: 1, doc: 'ohmic resistance there', required: true },
  pairResistance: { kind: 'numbers', unit: 'ohm', min: 1e-6, max: 1, doc: 'polarisation resistance of each RC pair' },
  pairTimeConstant: { kind: 'numbers', unit: 's', min: 0.1, max: 100_000, doc: 'time constant of each RC pair' },
  maxCurrent: number('A', 'A', [0.1, 10_000], 'discharge current for some seconds', { required: true }),
  maxChargeCurrent: number('A', 'A', [0, 10_000], 'charge current for some seconds at room temperature', {
    derived: 'half of the discharge current, 1.5 times the capacity in Ah at most (common practice, no source)',
  }),
  minVoltage: number('V', 'V', [0.5, 5], 'lowest voltage under load', { required: true }),
  maxVoltage: number('V', 'V', [0.5, 6], 'highest voltage', { required: true }),
  mass: number('kg', KG, [0.001, 100], 'mass of the cell', { required: true }),
} as const satisfies Fields;

/** The traction battery. */
export const packFields = {
  cell: { kind: 'group', part: 'cell', fields: cellFields, doc: 'the cell it is made of', required: true },
  series: number('1', '1', [1, 500], 'cells in series', { required: true }),
  parallel: number('1', '1', [1, 1000], 'cells in parallel', { required: true }),
  charge: number('1', '%', [0, 1], 'state of charge at the start', { ...assume(0.9, COMMON) }),
  health: number('1', '%', [0.3, 1.1], 'capacity left over capacity when new', assume(1, 'a new pack')),
  resistanceGrowth: number('1', '1', [0.5, 5], 'resistance over resistance when new', assume(1, 'a new pack')),
  wiringResistance: number('ohm', 'mohm', [0, 1], 'busbars, contactors, fuses and cables to the inverter', {
    derived: '6 V at the current limit, 3 to 12 V: cables are chosen by the current (common practice, no source)',
  }),
  maxCurrent: number('A', 'A', [1, 10_000], 'discharge limit of the whole pack', {
    derived: 'the limit of the cell times the cells in parallel',
    computed: true,
  }),
  minVoltage: number('V', 'V', [5, 1500], 'lowest voltage of the whole pack under load', {
    derived: 'the limit of the cell times the cells in series',
    computed: true,
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
    },
  ),
  windowLow: number('1', '%', [0, 0.9], 'state of charge at which the car stops giving power', {
    ...assume(0.05, COMMON, [0.03, 0.08]),
  }),
  windowHigh: number('1', '%', [0.1, 1], 'state of charge up to which it is charged', assume(0.97, COMMON, [0.95, 1])),
  cooling: number('W/K', 'W/K', [0, 10_000], 'heat it gives off per kelvin; its heat is then modelled', {
    derived: 'its heat is not modelled',
  }),
  heatCapacity: number('J/K', 'kJ/K', [100, 1e8], 'of all cells together', {
    derived: 'mass of the cells times 1000 J/(kg K) (cells 900 to 1100 J/(kg K), from memory)',
  }),
  derateTemperature: number('K', ['degC', 'degF'], [293.15, 373.15], 'temperature from which the current is reduced', {
    ...assume(323.15, COMMON, [318.15, 328.15]),
  }),
  derateRange: number('K', 'K', [1, 100], 'warming over which the current falls to nothing', assume(10, COMMON)),
  resistanceActivation: number('K', 'K', [0, 20_000], 'activation energy of the resistance over the gas constant', {
    ...assume(2400, 'about 20 kJ/mol, Plett, Battery Management Systems I (from memory)', [1500, 4000]),
  }),
} as const satisfies Fields;

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

/** On board, from the wall to the pack. */
export const chargerFields = {
  power: number('W', 'kW', [100, 400_000], 'greatest power that one takes from the wall', {
    ...assume(6600, 'usual single-phase charger of 6.6 kW; common practice, no source'),
  }),
  count: number('1', '1', [1, 12], 'chargers side by side', assume(1, 'one charger')),
  efficiency: number('1', '%', [0.5, 1], 'share of the power from the wall that reaches the pack and the 12 V side', {
    ...assume(0.9, 'on-board chargers 0.88 to 0.94 (from memory)', [0.86, 0.94]),
  }),
  overhead: number('W', 'W', [0, 3000], 'drawn at the pack while charging: pumps, controls, 12 V side', {
    ...assume(200, 'cars that charge from the wall (from memory)', [100, 300]),
  }),
} as const satisfies Fields;

/** What a coast-down says; takes the place of rolling resistance and drag. */
export const roadLoadFields = {
  f0: number('N', ['N', 'lbf'], [0, 5000], 'F0 in F0 + F1 v + F2 v^2', { required: true }),
  f1: number('N s/m', ['N s/m', 'lbf/mph'], [-50, 200], 'F1', { required: true }),
  f2: number('N s^2/m^2', ['N s^2/m^2', 'N s^2/m^2'], [0, 10], 'F2', { required: true }),
  testMass: number('kg', KG, [50, 40_000], 'of the car when it was measured, people included', {
    derived: 'the mass of car, driver and load',
    computed: true,
  }),
  temperature: number('K', ['degC', 'degF'], [253.15, 323.15], 'of the air to which the figures are corrected', {
    ...assume(293.15, 'UN GTR 15 and SAE J1263 correct to 20 °C (from memory)'),
  }),
  coupled: {
    kind: 'choice',
    choices: ['yes', 'no'],
    doc:
      'whether motor and gears turned along: then drag_torque, windage_loss and iron_loss of the drive are in the measured figures ' +
      'and are not counted again; no: out of gear, or measured before the conversion',
    default: { value: 'yes', source: 'a drive of one ratio has no neutral' },
  },
  contained: number('1', '%', [0, 1], 'for coupled: share of the iron loss that the figures contain', {
    ...assume(
      1,
      'magnets turn along; an induction motor without flux has no iron loss; common practice, no source',
      [0.6, 1],
    ),
  }),
} as const satisfies Fields;

export const auxiliariesFields = {
  power: number('W', 'W', [0, 20_000], 'drawn on the 12 V side while driving', {
    ...assume(250, '150 to 400 W on test benches without heating or cooling (from memory)', [120, 400]),
  }),
  converterEfficiency: number('1', '%', [0.3, 1], 'of the dc-dc converter', { ...assume(0.9, COMMON, [0.86, 0.94]) }),
} as const satisfies Fields;

const axleTyre = (doc: string): Field => ({ kind: 'group', part: 'tyre', fields: tyreFields, doc });

/** The whole car. */
export const carFields = {
  mass: number('kg', KG, [50, 20_000], 'the finished car on the scales, without people and luggage', {
    required: true,
  }),
  driver: number('kg', KG, [0, 300], 'the driver', assume(75, 'Directive 92/21/EEC (from memory)')),
  load: number('kg', KG, [0, 10_000], 'passengers and luggage', assume(0, 'driver alone')),
  frontShare: number('1', '%', [0.05, 0.95], 'share of the weight on the front axle, driver and load included', {
    derived:
      'front drive 0.58, rear drive 0.48, both 0.50, ± 0.03 as a standard uncertainty (common practice, no source)',
  }),
  wheelbase: number('m', ['m', 'in'], [1, 6], 'distance between the axles', {
    ...assume(2.5, COMMON, [2.3, 2.75]),
  }),
  cgHeight: number('m', ['m', 'in'], [0.1, 2], 'height of the centre of gravity', {
    ...assume(0.55, 'passenger cars 0.5 to 0.6 m, Gillespie (from memory)', [0.5, 0.6]),
  }),
  dragArea: number('m^2', ['m^2', 'ft^2'], [0, 10], 'drag coefficient times frontal area', {
    derived: 'drag coefficient times frontal area',
    computed: true,
  }),
  dragCoefficient: number('1', '1', [0.1, 2], 'drag coefficient, where the drag area is not given', {
    ...assume(0.36, COMMON, [0.28, 0.45]),
  }),
  frontalArea: number('m^2', ['m^2', 'ft^2'], [0.5, 10], 'frontal area, where the drag area is not given', {
    derived: '0.81 of width times height when both are given (common practice, no source), else 2.0 m^2, 1.8 to 2.2',
  }),
  width: number('m', ['m', 'in'], [0.8, 3], 'width without mirrors', { derived: 'not needed when the area is given' }),
  height: number('m', ['m', 'in'], [0.8, 4], 'height', { derived: 'not needed when the area is given' }),
  dragHeight: number('m', ['m', 'in'], [0, 2], 'height at which drag acts', {
    derived: 'the height of the centre of gravity',
    computed: true,
  }),
  liftAreaFront: number('m^2', ['m^2', 'ft^2'], [-3, 3], 'lift coefficient times frontal area at the front', {
    ...assume(0, COMMON),
  }),
  liftAreaRear: number('m^2', ['m^2', 'ft^2'], [-3, 3], 'lift coefficient times frontal area at the rear', {
    ...assume(0, COMMON),
  }),
  tyres: axleTyre('the tyres of both axles'),
  frontTyres: axleTyre('the tyres of the front axle, where they differ'),
  rearTyres: axleTyre('the tyres of the rear axle, where they differ'),
  drive: { kind: 'group', part: '', fields: driveFields, doc: 'drive unit, gears and the driven axle', required: true },
  secondDrive: {
    kind: 'group',
    part: '',
    fields: driveFields,
    doc: 'the drive of the other axle, where it has its own',
  },
  frontTorqueShare: number('1', '%', [0.05, 0.95], 'with two drives: fixed share of the wheel torque at the front', {
    derived: 'each axle takes what it can',
  }),
  pack: { kind: 'group', part: 'pack', fields: packFields, doc: 'the traction battery', required: true },
  auxiliaries: { kind: 'group', part: '', fields: auxiliariesFields, doc: 'what the 12 V side takes' },
  cabin: { kind: 'group', part: '', fields: cabinFields, doc: 'heating and cooling' },
  charger: { kind: 'group', part: '', fields: chargerFields, doc: 'the charger on board' },
  roadLoad: {
    kind: 'group',
    part: '',
    fields: roadLoadFields,
    doc: 'from a coast-down: takes the place of rolling resistance and drag',
  },
} as const satisfies Fields;

/** Where and when. */
export const surroundingsFields = {
  temperature: number('K', ['degC', 'degF'], [223.15, 333.15], 'of the air', {
    ...assume(293.15, 'the temperature that SAE J2452 and ISO 28580 work around (20 to 28 °C)'),
  }),
  altitude: number('m', ['m', 'ft'], [-450, 6000], 'above sea level', assume(0, 'sea level')),
  humidity: number('1', '%', [0, 1], 'relative humidity', assume(0.5, COMMON)),
  wind: number('m/s', KMH, [-40, 40], 'along the road, positive from the front', assume(0, 'no wind')),
  slope: number('1', '%', [-0.6, 0.6], 'rise over run of the road', assume(0, 'level road')),
  surface: {
    kind: 'choice',
    choices: ['dry', 'wet'],
    doc: 'of the road',
    default: { value: 'dry', source: 'a dry road' },
  },
} as const satisfies Fields;

/** Values of a field table as the notebook reads them: SI numbers, words, lists, nested groups; all may be missing. */
export type SpecOf<F extends Fields> = {
  readonly [K in keyof F]?: F[K] extends { kind: 'number' }
    ? number
    : F[K] extends { kind: 'choice'; choices: infer C extends readonly string[] }
      ? C[number]
      : F[K] extends { kind: 'text' | 'reference' }
        ? string
        : F[K] extends { kind: 'words' }
          ? readonly string[]
          : F[K] extends { kind: 'numbers' }
            ? readonly number[]
            : F[K] extends { kind: 'group'; fields: infer G extends Fields }
              ? SpecOf<G>
              : F[K] extends { kind: 'groups'; fields: infer G extends Fields }
                ? readonly SpecOf<G>[]
                : never;
};

export type TyreSpec = SpecOf<typeof tyreFields>;
export type UnitSpec = SpecOf<typeof unitFields>;
export type DriveSpec = SpecOf<typeof driveFields>;
export type CellSpec = SpecOf<typeof cellFields>;
export type PackSpec = SpecOf<typeof packFields>;
export type RegenerationSpec = SpecOf<typeof regenerationFields>;
export type SurroundingsSpec = SpecOf<typeof surroundingsFields>;
export type CarSpec = Omit<SpecOf<typeof carFields>, 'tyres' | 'frontTyres' | 'rearTyres'> & {
  readonly tyres?: TyreSpec;
  readonly frontTyres?: TyreSpec;
  readonly rearTyres?: TyreSpec;
};
