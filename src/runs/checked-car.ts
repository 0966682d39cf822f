/**
 * Whether a car can be one: `completeCar` makes no other, but a program may change what it made, or read one from a file. The signs and shapes alone are
 * asked for, not the limits of the fields: a car that was fitted or made up for a test may lie beyond them.
 */
import type { LumpedHeat, VoltageWindow } from '../model/car.ts';
import type { Auxiliaries, Body, Cabin, Car, Cell, Charger, Drive, DriveUnit } from '../model/car.ts';
import type {
  Friction,
  Gear,
  Gearbox,
  LiveAxle,
  Pack,
  Regeneration,
  Traction,
  Trailer,
  Tyre,
  Warming,
} from '../model/car.ts';
import type { LossMap } from '../model/drive/efficiency-map.ts';
import { SpecError } from '../model/fields/spec-error.ts';
import {
  ABOVE_0,
  each,
  ABOVE_0_TO_1,
  FINITE,
  group,
  NOT_BELOW_0,
  oneOf,
  optional,
  orNull,
  refused,
  SHARE,
  UNLIMITED,
  YES_OR_NO,
} from './rules.ts';
import type { Rule } from './rules.ts';

/**
 * @throws SpecError for what describes a car, or what `completeCar` gives with its list of inputs, in the place of the car itself; and for a car with a
 * value that none can have, at its path below `car`.
 */
export function checkCar(car: Partial<Car> | null | undefined): void {
  if (!Array.isArray(car?.drives)) {
    const expected = 'a complete car: completeCar(spec).car';
    throw new SpecError('car', `car is not complete; expected ${expected}`, expected, '', 'outside');
  }
  CAR(car, 'car');
}

/** A list of numbers, without a path made up for each of them. */
function numbers(rule: Rule, keeps: (one: unknown) => boolean): Rule {
  const all = each(rule);
  return (value, path) => {
    if (!Array.isArray(value) || !value.every(keeps)) all(value, path);
  };
}

const NUMBERS = numbers(FINITE, Number.isFinite);
const POSITIVES = numbers(NOT_BELOW_0, one => typeof one === 'number' && one >= 0 && one < Infinity);

/** A list of one or more. */
function some(rule: Rule): Rule {
  const all = each(rule);
  return (value, path) => {
    if (Array.isArray(value) && value.length === 0) throw refused(path, value, 'one or more');
    all(value, path);
  };
}

/** Two columns, the first of them ascending, the second not below 0. */
function curve(x: string, y: string): Rule {
  const columns = group<{ readonly [column: string]: readonly number[] }>({ [x]: NUMBERS, [y]: POSITIVES });
  return (value, path) => {
    columns(value, path);
    const { [x]: at = [], [y]: of = [] } = value as { readonly [column: string]: readonly number[] };
    if (at.length === 0) throw refused(`${path}.${x}`, at, 'one point or more');
    if (at.length !== of.length) throw refused(`${path}.${y}`, of, `${at.length} values, as many as ${x}`);
    const back = at.findIndex((here, row) => here <= (at[row - 1] ?? -Infinity));
    if (back >= 0) throw refused(`${path}.${x}[${back}]`, at[back], 'more than the one before');
  };
}

const LUMP = { capacity: ABOVE_0, cooling: NOT_BELOW_0, derateAt: ABOVE_0, derateRange: ABOVE_0 };
const FRICTION = group<Friction>({ peak: NOT_BELOW_0, slide: NOT_BELOW_0 });
const WINDOW = optional(group<VoltageWindow>({ least: NOT_BELOW_0, greatest: UNLIMITED }));

const BODY = group<Body>({
  mass: ABOVE_0,
  driver: NOT_BELOW_0,
  load: NOT_BELOW_0,
  frontShare: SHARE,
  wheelbase: ABOVE_0,
  cgHeight: NOT_BELOW_0,
  dragArea: NOT_BELOW_0,
  dragHeight: NOT_BELOW_0,
  liftAreaFront: FINITE,
  liftAreaRear: FINITE,
  hubDrag: optional(NOT_BELOW_0),
  track: optional(ABOVE_0),
  frontRollShare: optional(SHARE),
});

const TYRE = group<Tyre>({
  radius: ABOVE_0,
  inertia: NOT_BELOW_0,
  // A measured road load may leave a constant or a slope of either sign.
  rolling: group<Tyre['rolling']>({ c0: FINITE, c1: FINITE, c2: FINITE }),
  dry: FRICTION,
  wet: FRICTION,
  snow: optional(FRICTION),
  ice: optional(FRICTION),
  slipAtPeak: SHARE,
  loadExponent: FINITE,
  loadReference: ABOVE_0,
  warming: optional(group<Warming>({ rise: NOT_BELOW_0, warmAfter: ABOVE_0, coldAfter: ABOVE_0 })),
});

const UNIT = group<DriveUnit>({
  peakTorque: ABOVE_0,
  peakPower: ABOVE_0,
  powerAtTop: SHARE,
  torqueRise: NOT_BELOW_0,
  referenceVoltage: ABOVE_0,
  voltage: WINDOW,
  maxSpeed: ABOVE_0,
  taperSpeed: ABOVE_0,
  table: orNull(curve('speed', 'torque')),
  inertia: NOT_BELOW_0,
  losses: group<DriveUnit['losses']>({
    copper: NOT_BELOW_0,
    iron: NOT_BELOW_0,
    windage: NOT_BELOW_0,
    fixed: NOT_BELOW_0,
    map: optional(
      group<LossMap>({
        includes: oneOf(['motor', 'motor and inverter']),
        speed: NUMBERS,
        torque: NUMBERS,
        loss: NUMBERS,
        reach: NUMBERS,
      }),
    ),
  }),
  standstillLoss: NOT_BELOW_0,
  inverterEfficiency: ABOVE_0_TO_1,
  heat: optional(group<LumpedHeat & { readonly continuousShare: number }>({ ...LUMP, continuousShare: SHARE })),
});

const DRIVE = group<Drive>({
  axle: oneOf(['front', 'rear']),
  unit: UNIT,
  ratio: ABOVE_0,
  gearbox: optional(
    group<Gearbox>({
      gears: some(group<Gear>({ ratio: ABOVE_0, efficiency: ABOVE_0_TO_1, inertia: NOT_BELOW_0, upshift: UNLIMITED })),
      shiftTime: NOT_BELOW_0,
      best: optional(YES_OR_NO),
    }),
  ),
  efficiency: ABOVE_0_TO_1,
  dragTorque: NOT_BELOW_0,
  coldOil: optional(NOT_BELOW_0),
  inertia: NOT_BELOW_0,
  shaftTorque: orNull(ABOVE_0),
  liveAxle: optional(group<LiveAxle>({ ratio: ABOVE_0 })),
  traction: group<Traction>({ policy: oneOf(['held', 'share', 'spin']), share: SHARE }),
  regeneration: group<Regeneration>({
    kind: oneOf(['blended', 'lift', 'none']),
    share: SHARE,
    torque: NOT_BELOW_0,
    power: NOT_BELOW_0,
    // Below nothing: it does not fade.
    fadeFrom: FINITE,
    fadeTo: FINITE,
    gripShare: SHARE,
  }),
});

const CELL = group<Cell>({
  capacity: ABOVE_0,
  ocv: curve('charge', 'voltage'),
  resistance: curve('charge', 'ohm'),
  pairs: each(group<Cell['pairs'][number]>({ resistance: NOT_BELOW_0, timeConstant: ABOVE_0 })),
  maxCurrent: UNLIMITED,
  maxChargeCurrent: UNLIMITED,
  coulombicEfficiency: ABOVE_0_TO_1,
  minVoltage: NOT_BELOW_0,
  maxVoltage: ABOVE_0,
  mass: NOT_BELOW_0,
});

const PACK = group<Pack>({
  cell: CELL,
  series: ABOVE_0,
  parallel: ABOVE_0,
  charge: SHARE,
  health: ABOVE_0,
  resistanceGrowth: ABOVE_0,
  wiringResistance: NOT_BELOW_0,
  maxCurrent: UNLIMITED,
  minVoltage: NOT_BELOW_0,
  maxVoltage: ABOVE_0,
  maxChargeCurrent: UNLIMITED,
  pulses: optional(
    group<NonNullable<Pack['pulses']>>({ time: UNLIMITED, continuous: UNLIMITED, continuousCharge: UNLIMITED }),
  ),
  weak: optional(
    group<NonNullable<Pack['weak']>>({
      cold: group<Pack['chargeCold']>({ none: ABOVE_0, full: ABOVE_0 }),
      low: group<NonNullable<Pack['weak']>['low']>({ charge: SHARE, share: SHARE }),
    }),
  ),
  chargeCold: group<Pack['chargeCold']>({ none: ABOVE_0, full: ABOVE_0 }),
  heater: optional(group<NonNullable<Pack['heater']>>({ power: NOT_BELOW_0, until: ABOVE_0 })),
  window: group<Pack['window']>({ low: SHARE, high: SHARE }),
  heat: optional(group<NonNullable<Pack['heat']>>({ ...LUMP, resistanceActivation: FINITE })),
});

const CABIN = group<Cabin>({
  heater: oneOf(['resistive', 'heat pump', 'none']),
  cooled: YES_OR_NO,
  temperature: ABOVE_0,
  loss: NOT_BELOW_0,
  heatCapacity: NOT_BELOW_0,
  heaterPower: NOT_BELOW_0,
  heatPumpFactor: ABOVE_0,
  heatPumpSlope: FINITE,
  coolerFactor: ABOVE_0,
  sun: NOT_BELOW_0,
});

const CHARGER = group<Charger>({
  power: NOT_BELOW_0,
  count: ABOVE_0,
  efficiency: ABOVE_0_TO_1,
  idleShare: SHARE,
  usualPower: NOT_BELOW_0,
  overhead: NOT_BELOW_0,
  maxCurrent: optional(UNLIMITED),
  voltage: WINDOW,
});

const CAR = group<Car>({
  body: BODY,
  tyres: group<Car['tyres']>({ front: TYRE, rear: TYRE }),
  drives: some(DRIVE),
  frontTorqueShare: optional(SHARE),
  pack: PACK,
  auxiliaries: group<Auxiliaries>({ power: NOT_BELOW_0, converterEfficiency: ABOVE_0_TO_1 }),
  cabin: CABIN,
  charger: CHARGER,
  trailer: optional(
    group<Trailer>({
      mass: NOT_BELOW_0,
      hitchLoad: FINITE,
      hitchHeight: NOT_BELOW_0,
      overhang: FINITE,
      dragArea: NOT_BELOW_0,
      rolling: NOT_BELOW_0,
    }),
  ),
});
