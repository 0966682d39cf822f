/** What a user says about a drive: drive unit, gearbox, gears and shafts, what it takes back. */
import type { Fields } from '../fields/field.ts';
import { assume, COMMON, KMH, NM, ordered, RPM, number, stated, usually } from '../fields/table.ts';
import type { SpecOf } from '../fields/table.ts';
import { mapFields } from './map-fields.ts';

/** What a maker's figure of a drive unit may be off by. */
const RATED = stated(
  0.05,
  'UN Regulation No. 85: 2 % of the declared figure when approved, 5 % in production (from memory)',
);

const BY_TABLE = 'needed unless there is a torque table, which gives it';

/** Share of the greatest speed below which a straight line is no picture of how the torque falls off. */
export const LOWEST_TAPER = 2 / 3;

/** Motor and inverter. */
export const unitFields = {
  peakTorque: number('N m', NM, [1, 20_000], 'peak torque at the motor shaft', {
    derived: BY_TABLE,
    ...RATED,
    ...usually(20, 1500),
  }),
  peakPower: number('W', ['kW', 'hp'], [100, 3e6], 'peak power at the motor shaft', {
    derived: BY_TABLE,
    ...RATED,
    ...usually(4e3, 800e3),
  }),
  powerAtTop: number('1', '%', [0.5, 1], 'share of the peak power that is left at the greatest speed', {
    ...assume(
      0.85,
      'published torque curves of traction motors with buried magnets keep 70 to 100 % (from memory); less than a half is for a torque table',
      [0.7, 1],
    ),
  }),
  torqueRise: number('s', 's', [0, 1], 'in which the torque builds up to its peak when the pedal goes down', {
    ...assume(
      0.15,
      'controllers ramp the torque up in 0.1 to 0.3 s so that nothing jerks; 0 for none; common practice, no source',
      [0, 0.3],
    ),
  }),
  referenceVoltage: number('V', 'V', [20, 1500], 'voltage at and above which the peak power is reached', {
    derived: 'open-circuit voltage of the pack at half charge (makers state peak power at nominal voltage)',
    computed: true,
  }),
  leastVoltage: number('V', 'V', [5, 1500], 'voltage of the pack from which on the inverter works', {
    derived: '0.6 of the reference voltage, 0.5 to 0.7 (from memory: inverters of 400 V work from 180 to 240 V on)',
  }),
  greatestVoltage: number('V', 'V', [10, 2000], 'voltage that the inverter bears', {
    derived: '1.35 of the reference voltage (from memory: inverters of 330 to 350 V bear 420 to 475 V)',
  }),
  maxSpeed: number('rad/s', 'rpm', [100 * RPM, 40_000 * RPM], 'greatest motor speed', {
    derived: '3.6 times the speed where peak torque and peak power meet, 2.5 to 5 times (the shipped units: 3.4 to 4)',
    ...usually(2500 * RPM, 25_000 * RPM),
  }),
  taperSpeed: number('rad/s', 'rpm', [100 * RPM, 40_000 * RPM], 'motor speed from which the torque falls to nothing', {
    derived: '0.96 of the greatest speed (common practice, no source)',
    below: { as: 'share', path: 'max_speed', least: LOWEST_TAPER },
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
    derived:
      '1.2 % of the peak power at 3.6 times the speed where peak torque and peak power meet, or at the greatest speed where that is higher, ± 50 % (published maps of traction motors, from memory)',
  }),
  windageLoss: number('W s^3/rad^3', 'W s^3/rad^3', [0, 0.01], 'kw in the loss formula', {
    derived: '1 % of the peak power at that same speed, ± 50 % (published maps of traction motors, from memory)',
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
    ...ordered('peak_power'),
  }),
  continuousTorque: number(
    'N m',
    NM,
    [0.1, 20_000],
    'torque it can give for ever; with the continuous power it says the speed at which the unit can give both',
    {
      derived: 'continuous power over its speed',
      computed: true,
      ...ordered('peak_torque'),
    },
  ),
  continuousSpeed: number('rad/s', 'rpm', [100 * RPM, 40_000 * RPM], 'motor speed at which it can', {
    derived:
      'the middle of the speeds from the corner, where peak torque and peak power meet, to where 90 % of the peak power is left, anywhere between: UN Regulation No. 85, 5.3.2, lets a maker state the 30-minute power at any of them (from memory)',
    ...ordered('max_speed'),
  }),
  overloadTime: number('s', 's', [1, 3600], 'time for which it can give its peak power, starting cold', {
    ...assume(60, 'makers state 30 s to 2 min; common practice, no source', [30, 120]),
  }),
  coldTemperature: number('K', ['degC', 'degF'], [233.15, 373.15], 'temperature at which those ratings start', {
    ...assume(298.15, COMMON),
    ...ordered('derate_temperature'),
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
    doc: 'best: for the least time to the target speed, the break of each change counted; speed: at shift_speed; none: it stays in `gear`',
    default: { value: 'best', source: 'the quickest way' },
  },
  shiftSpeed: number('rad/s', 'rpm', [100 * RPM, 40_000 * RPM], 'motor speed at which the next gear is taken', {
    derived: '0.95 of the greatest motor speed (common practice, no source)',
    ...ordered('../unit/max_speed'),
  }),
  shiftTime: number('s', 's', [0, 5], 'without torque while a gear is changed', {
    ...assume(0.5, 'common practice, no source: 0.3 s with a practised clutch, 1 s without one', [0.3, 1]),
  }),
  gear: number('1', '1', [1, 6], 'for shift: none, the gear it is left in', {
    ...assume(1, 'the first gear'),
    whole: true,
  }),
} as const satisfies Fields;

/** What a drive takes back when the car slows down. */
export const regenerationFields = {
  kind: {
    kind: 'choice',
    choices: ['blended', 'lift', 'none'],
    doc: 'blended: the brake pedal asks the drive first; lift: only what lifting the foot gives, friction does the rest; none',
    default: { value: 'blended', source: 'the brake pedal of cars built as electric ones' },
  },
  share: number('1', '%', [0, 1], 'share of the braking at the wheels beyond coasting that the drive is asked for', {
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
  fadeTo: number('m/s', KMH, [0, 20], 'speed at which nothing is left', {
    ...assume(5 / 3.6, COMMON, [2 / 3.6, 8 / 3.6]),
    ...ordered('fade_from'),
  }),
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
  dragTorque: number(
    'N m',
    NM,
    [0, 50],
    'lost to oil, seals and bearings at any load, at the motor shaft, in air of 20 °C',
    {
      ...assume(0.5, 'a single reduction in warm oil, 0.3 kW at 5000 rpm; common practice, no source', [0.2, 1]),
    },
  ),
  coldOil: number(
    '1/K',
    '1/K',
    [0, 0.1],
    'by how much drag_torque grows for each kelvin below 20 °C, as an exponential',
    {
      ...assume(
        0.02,
        'SAE 80W-90 is ten times as thick at -10 °C as at 20 °C (from memory), and churning goes with about its fourth root; common practice, no source',
        [0.01, 0.03],
      ),
    },
  ),
  inertia: number('kg m^2', 'kg m^2', [0, 10], 'of gears and shafts, referred to the wheel', assume(0.1, COMMON)),
  shaftTorque: number(
    'N m',
    NM,
    [10, 100_000],
    'limit of both half shafts of the axle together: twice what one bears',
    {
      derived: 'no limit is modelled',
    },
  ),
  suspension: {
    kind: 'choice',
    choices: ['independent', 'live'],
    doc: 'of the driven axle; live: rigid, its gears turned by a propeller shaft, whose torque unloads one wheel',
    default: { value: 'independent', source: 'and for a motor that sits on the axle: there is no propeller shaft' },
  },
  differential: {
    kind: 'choice',
    choices: ['open', 'locking'],
    doc: 'for a live axle; open: both wheels pull what the lighter one can; locking: limited slip, or locked',
    default: { value: 'open', source: 'what ordinary cars have' },
  },
  axleRatio: number('1', '1', [0.2, 20], 'for a live axle: turns of the propeller shaft for one turn of the wheel', {
    derived: 'ratio',
    computed: true,
    ...usually(2.5, 7),
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

export type UnitSpec = SpecOf<typeof unitFields>;
export type DriveSpec = SpecOf<typeof driveFields>;
export type RegenerationSpec = SpecOf<typeof regenerationFields>;
