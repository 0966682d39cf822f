/** What a cell says of the parts, completed: the data sheets as the lines take them. */
import { filler } from '../../model/fields/filler.ts';
import type { Filler } from '../../model/fields/filler.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { Input, Spread } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { SpecOf } from '../../model/fields/table.ts';
import { RPM } from '../../model/fields/table.ts';
import {
  brakesDutyFields,
  cableDutyFields,
  dischargeDutyFields,
  dutyFields,
  fuseDutyFields,
  gearDutyFields,
  inverterDutyFields,
  packDutyFields,
  prechargeDutyFields,
  pulseFields,
  shaftDutyFields,
  weakestFields,
} from '../../model/duty/fields.ts';
import type { DutySpec } from '../../model/duty/fields.ts';
import type { Pulse } from '../../model/duty/rating.ts';
import type { Rating } from './lines/currents.ts';
import type { DischargeSheet, PrechargeSheet } from './lines/bus.ts';
import type { ShaftSheet } from './lines/shafts.ts';
import type { Weakest } from './lines/voltages.ts';
import type { CableSheet, FuseSheet } from './lines/wires.ts';

/** Reads the sheets of one cell. */
export interface Sheets {
  readonly lookFrom: number;
  readonly spec: DutySpec;
  rating(part: 'pack' | 'string' | 'inverter' | 'contactor'): Rating;
  /** Of the pack, charged. */
  readonly charge: Rating;
  readonly shafts: ShaftSheet;
  readonly weakest: Weakest;
  /** V at rad/s; null where it is not known. */
  readonly backEmf: { readonly volts: number; readonly at: number } | null;
  readonly fuse: FuseSheet | null;
  readonly cable: CableSheet | null;
  /** Of a pack of so many V and ohm; null where it is not asked. */
  precharge(voltage: number, loop: number): PrechargeSheet | null;
  discharge(voltage: number): DischargeSheet | null;
  readonly brakes: { readonly speed: number; readonly deceleration: number };
}

/**
 * @param name of the cell. @param inputs to which is appended what is assumed. @param given what was written, with its spreads.
 * @throws SpecError
 */
export function sheetsOf(name: string, spec: DutySpec, inputs: Input[], given: readonly Input[] = []): Sheets {
  const group = <F extends Fields>(key: keyof DutySpec, fields: F): Filler<F> =>
    filler(`${name}.${key}`, fields, (spec[key] ?? {}) as { readonly [key: string]: unknown }, inputs);
  const top = filler(name, dutyFields, spec, inputs);
  const written = given.find(({ path }) => path === `${name}.shafts.dynamic_factor`);
  const brakes = group('brakes', brakesDutyFields);
  const weakest = group('weakest', weakestFields);
  const read = {
    lookFrom: top.number('lookFrom'),
    shafts: shaftSheet(spec, group('shafts', shaftDutyFields), group('gears', gearDutyFields), written?.spread),
    weakest: { temperature: weakest.number('temperature'), resistanceGrowth: weakest.number('resistanceGrowth') },
    fuse: spec.fuse === undefined ? null : fuseSheet(name, spec.fuse, group('fuse', fuseDutyFields)),
    cable: spec.cable === undefined ? null : cableSheet(spec.cable, group('cable', cableDutyFields)),
    brakes: { speed: brakes.number('speed'), deceleration: brakes.number('deceleration') },
  };
  const rating = (part: 'pack' | 'string' | 'inverter' | 'contactor'): Rating =>
    ratingOf(`${name}.${part}`, 'pulses', spec[part]?.continuous, spec[part]?.pulses);
  const { pack, inverter } = spec;
  // What is out of order is told whether or not a run comes to it.
  for (const part of ['pack', 'string', 'inverter', 'contactor'] as const) rating(part);
  const emf = inverter?.backEmf;
  return {
    ...read,
    spec,
    rating,
    charge: ratingOf(`${name}.pack`, 'charge_pulses', pack?.chargeContinuous, pack?.chargePulses),
    backEmf:
      emf === undefined
        ? null
        : { volts: emf, at: group('inverter', inverterDutyFields).derived('backEmfAt', () => 1000 * RPM) },
    precharge: (voltage, loop) =>
      spec.precharge === undefined
        ? null
        : prechargeSheet(spec, group('precharge', prechargeDutyFields), voltage, loop),
    discharge: voltage => dischargeSheet(name, spec, group('discharge', dischargeDutyFields), voltage),
  };
}

type PulseSpec = SpecOf<typeof pulseFields>;
type PackSpec = SpecOf<typeof packDutyFields>;

function ratingOf(
  path: string,
  key: string,
  continuous: number | undefined,
  given: PackSpec['pulses'] | readonly PulseSpec[] | undefined,
): Rating {
  const pulses = (given ?? []).map(({ current, time }, i): Pulse => {
    const at = `${path}.${key}[${i + 1}]`;
    if (current === undefined) throw new SpecError(`${at}.current`, 'is missing', 'such as 400 A');
    if (time === undefined) throw new SpecError(`${at}.time`, 'is missing', 'such as 10 s');
    if (continuous === undefined)
      throw new SpecError(
        at,
        'has no current for ever to stand on',
        `${key === 'pulses' ? 'continuous' : 'charge_continuous'}: beside it`,
      );
    if (!(current > continuous))
      throw new SpecError(
        `${at}.current`,
        `is no more than the ${continuous} A that are given for ever`,
        'a greater one',
      );
    return { current, time };
  });
  return { continuous, pulses };
}

function shaftSheet(
  spec: DutySpec,
  shafts: Filler<typeof shaftDutyFields>,
  gears: Filler<typeof gearDutyFields>,
  given: Spread | undefined,
): ShaftSheet {
  const dynamicFactor = shafts.number('dynamicFactor');
  const assumed = spec.shafts?.dynamicFactor === undefined;
  const spread = assumed ? shaftDutyFields.dynamicFactor.default?.spread : given;
  return {
    torque: spec.shafts?.torque,
    joint: spec.shafts?.joint,
    dynamicFactor,
    exponent: shafts.number('exponent'),
    mostDynamic: upperEnd(dynamicFactor, spread),
    gears: spec.gears?.torque,
    gearExponent: gears.number('exponent'),
  };
}

/** The end of a spread: of a standard uncertainty two of them, as 95 % has it. */
function upperEnd(value: number, spread: Spread | undefined): number {
  if (spread === undefined) return value;
  return Math.max(value, spread.kind === 'rectangular' ? spread.high : value + 2 * spread.standard);
}

function fuseSheet(name: string, spec: NonNullable<DutySpec['fuse']>, fill: Filler<typeof fuseDutyFields>): FuseSheet {
  fill.need('rated');
  return {
    rated: fill.number('rated'),
    ambient: fill.number('ambientFactor'),
    share: fill.number('share'),
    pulseShare: fill.number('pulseShare'),
    curve: meltingCurve(`${name}.fuse`, spec),
    voltage: spec.voltage,
    breakingCapacity: spec.breakingCapacity,
    leastBreaking: spec.leastBreaking,
  };
}

function meltingCurve(
  path: string,
  { meltingTime, meltingCurrent }: NonNullable<DutySpec['fuse']>,
): FuseSheet['curve'] {
  if (meltingTime === undefined && meltingCurrent === undefined) return null;
  if (meltingTime === undefined || meltingCurrent === undefined) {
    const [there, missing] =
      meltingTime === undefined ? ['melting_current', 'melting_time'] : ['melting_time', 'melting_current'];
    throw new SpecError(`${path}.${there}`, `stands there without ${missing}`, 'both columns of the curve');
  }
  if (meltingTime.length !== meltingCurrent.length)
    throw new SpecError(
      `${path}.melting_current`,
      `are ${meltingCurrent.length} for ${meltingTime.length} times`,
      'one for each time',
    );
  if (meltingTime.length < 2)
    throw new SpecError(`${path}.melting_time`, 'is one point and no curve', 'two points or more');
  if (meltingTime.some((time, i) => i > 0 && time <= (meltingTime[i - 1] ?? 0)))
    throw new SpecError(`${path}.melting_time`, 'do not ascend', 'the shortest time first');
  if (meltingCurrent.some((amps, i) => i > 0 && amps >= (meltingCurrent[i - 1] ?? 0)))
    throw new SpecError(`${path}.melting_current`, 'do not fall', 'less current for a longer time');
  return { time: meltingTime, current: meltingCurrent };
}

function cableSheet(spec: NonNullable<DutySpec['cable']>, fill: Filler<typeof cableDutyFields>): CableSheet {
  for (const key of ['current', 'rise', 'time'] as const) fill.need(key);
  const ambient = fill.number('ambient');
  if (spec.greatest !== undefined && spec.greatest <= ambient)
    throw fill.error('greatest', 'is no more than its surroundings have', 'a temperature above ambient');
  const shortGreatest = fill.number('shortGreatest');
  if (shortGreatest <= (spec.greatest ?? ambient))
    throw fill.error('shortGreatest', 'is no more than it bears for ever', 'a temperature above it');
  return {
    current: fill.number('current'),
    rise: fill.number('rise'),
    time: fill.number('time'),
    ambient,
    greatest: spec.greatest,
    metal: fill.choice('metal') === 'aluminium' ? 'aluminium' : 'copper',
    section: spec.section,
    shortHeat: spec.shortHeat,
    shortGreatest,
  };
}

function prechargeSheet(
  { precharge = {}, converter, contactor }: DutySpec,
  fill: Filler<typeof prechargeDutyFields>,
  voltage: number,
  loop: number,
): PrechargeSheet {
  const { loadPower = 0, loadFrom = converter?.leastVoltage } = precharge;
  fill.need('capacitance');
  fill.need('resistance');
  if (loadPower > 0 && loadFrom === undefined)
    throw fill.error(
      'loadPower',
      'has no voltage from which on it draws',
      'load_from, or least_voltage of the converter',
    );
  return {
    voltage,
    capacitance: fill.number('capacitance'),
    resistance: fill.number('resistance'),
    share: fill.number('share'),
    loop,
    ...(precharge.bleed !== undefined && { bleed: precharge.bleed }),
    ...(loadPower > 0 && loadFrom !== undefined && { load: { power: loadPower, from: loadFrom } }),
    timeLimit: precharge.time,
    energyLimit: precharge.resistorEnergy,
    powerLimit: precharge.resistorPower,
    closingLimit: contactor?.closingCurrent,
  };
}

function dischargeSheet(
  name: string,
  { discharge, precharge }: DutySpec,
  fill: Filler<typeof dischargeDutyFields>,
  voltage: number,
): DischargeSheet | null {
  if (discharge === undefined) return null;
  fill.need('bleed');
  const limit = fill.choice('limit');
  if (limit === 'own' && discharge.voltage === undefined)
    throw new SpecError(`${name}.discharge.limit`, 'is `own` and no voltage is given', 'voltage: such as 60 V');
  if (limit !== 'own' && discharge.voltage !== undefined)
    throw new SpecError(
      `${name}.discharge.voltage`,
      `stands beside the limit ${limit}, which has its own`,
      'limit: own',
    );
  const capacitance = precharge?.capacitance;
  if (capacitance === undefined)
    throw new SpecError(
      `${name}.discharge`,
      'has no capacitors to discharge',
      'precharge: with capacitance and resistance',
    );
  return {
    voltage,
    capacitance,
    bleed: fill.number('bleed'),
    limit,
    own: discharge.voltage,
    within: discharge.within,
  };
}
