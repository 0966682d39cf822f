/**
 * What a user says about a car and its surroundings: the tables behind reading, checking, defaults and the printed reference. Its parts stand
 * beside their physics (`tyre/fields.ts`, ...). Everything but the required fields may be left out; `complete.ts` fills the gaps and says with what.
 */
import { PERSON, PERSON_SOURCE } from './fields/person.ts';
import { roadLoadFields } from './body/road-load-fields.ts';
import { trailerFields } from './body/trailer-fields.ts';
import { auxiliariesFields, cabinFields } from './cabin/fields.ts';
import { driveFields } from './drive/fields.ts';
import type { Field, Fields } from './fields/field.ts';
import { assume, COMMON, KG, number, usually } from './fields/table.ts';
import type { SpecOf } from './fields/table.ts';
import { chargerFields, packFields } from './pack/fields.ts';
import { tyreFields } from './tyre/fields.ts';
import type { TyreSpec } from './tyre/fields.ts';

const axleTyre = (doc: string): Field => ({ kind: 'group', part: 'tyre', fields: tyreFields, doc });

/** The whole car. */
export const carFields = {
  mass: number('kg', KG, [50, 20_000], 'the finished car on the scales, without people and luggage', {
    required: true,
    ...usually(300, 3500),
  }),
  driver: number('kg', KG, [0, 300], 'the driver', {
    ...assume(PERSON, PERSON_SOURCE),
    ...usually(0, 150),
  }),
  load: number('kg', KG, [0, 10_000], 'passengers and luggage', { ...assume(0, 'driver alone'), ...usually(0, 1000) }),
  frontShare: number('1', '%', [0.05, 0.95], 'share of the weight on the front axle, driver and load included', {
    derived:
      'front drive 0.58, rear drive 0.48, both 0.50, ± 0.03 as a standard uncertainty (common practice, no source)',
  }),
  wheelbase: number('m', ['m', 'in'], [1, 6], 'distance between the axles', {
    ...assume(2.5, COMMON, [2.3, 2.75]),
    ...usually(1.6, 3.6),
  }),
  cgHeight: number('m', ['m', 'in'], [0.1, 2], 'height of the centre of gravity', {
    ...assume(0.55, 'passenger cars 0.5 to 0.6 m, Gillespie (from memory)', [0.5, 0.6]),
    ...usually(0.3, 1),
  }),
  dragArea: number('m^2', ['m^2', 'ft^2'], [0, 10], 'drag coefficient times frontal area', {
    derived: 'drag coefficient times frontal area',
    computed: true,
    ...usually(0.25, 2.5),
  }),
  dragCoefficient: number('1', '1', [0.1, 2], 'drag coefficient, where the drag area is not given', {
    ...assume(0.36, COMMON, [0.28, 0.45]),
    ...usually(0.15, 0.8),
  }),
  frontalArea: number('m^2', ['m^2', 'ft^2'], [0.5, 10], 'frontal area, where the drag area is not given', {
    derived: '0.81 of width times height when both are given (common practice, no source), else 2.0 m^2, 1.8 to 2.2',
  }),
  width: number('m', ['m', 'in'], [0.8, 3], 'width without mirrors', { derived: 'not needed when the area is given' }),
  height: number('m', ['m', 'in'], [0.8, 4], 'height', { derived: 'not needed when the area is given' }),
  hubDrag: number(
    'N',
    ['N', 'lbf'],
    [0, 1000],
    'drag of the wheel bearings and of brakes that rub, all wheels together',
    {
      ...assume(
        25,
        'brake pads and bearings 0.8 to 3 N m a wheel; a figure of a tyre is without them; common practice, no source',
        [10, 40],
      ),
      ...usually(0, 150),
    },
  ),
  track: number('m', ['m', 'in'], [0.8, 2.5], 'with a live axle: distance between its wheels', {
    ...assume(1.32, 'cars of the 1960s to 1980s 1.2 to 1.45 m; common practice, no source', [1.22, 1.42]),
    ...usually(1, 1.8),
  }),
  frontRollShare: number('1', '%', [0, 1], 'with a live axle: share of the roll stiffness that is at the front', {
    ...assume(0.6, 'rear-driven cars roll more stiffly at the front; common practice, no source', [0.5, 0.7]),
  }),
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
  cabin: { kind: 'group', part: 'cabin', fields: cabinFields, doc: 'heating and cooling' },
  charger: { kind: 'group', part: '', fields: chargerFields, doc: 'the charger on board' },
  trailer: { kind: 'group', part: '', fields: trailerFields, doc: 'a trailer behind it; its brakes are left aside' },
  roadLoad: {
    kind: 'group',
    part: 'road_load',
    fields: roadLoadFields,
    doc: 'from a coast-down: takes the place of rolling resistance and drag',
  },
} as const satisfies Fields;

export type CarSpec = Omit<SpecOf<typeof carFields>, 'tyres' | 'frontTyres' | 'rearTyres'> & {
  readonly tyres?: TyreSpec;
  readonly frontTyres?: TyreSpec;
  readonly rearTyres?: TyreSpec;
};
