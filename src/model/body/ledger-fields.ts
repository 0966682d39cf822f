/** What is said about the masses of a car: the tables behind reading, checking, defaults and the printed reference. */
import type { Field, Fields } from '../fields/field.ts';
import { LOAD_INDICES, SPEED_SYMBOLS } from '../tyre/load-index.ts';
import { assume, COMMON, KG, KMH, number, type SpecOf, usually } from '../fields/table.ts';
import { carFields } from '../spec.ts';
import { PERSON, PERSON_SOURCE } from '../fields/person.ts';
import { trailerFields } from './trailer-fields.ts';

const METRES = ['m', 'in'] as const;
const X_RANGE = [-3, 9] as const;
const AT_THE_CENTRE = 'the height of the centre of gravity before: it moves the centre neither up nor down';

/** Something with a mass and a place. */
export const itemFields = {
  name: { kind: 'text', doc: 'what it is, in a word or two', required: true },
  mass: number('kg', KG, [0.01, 10_000], 'of one piece', { required: true }),
  count: number('1', '1', [1, 10_000], 'pieces at this place', assume(1, 'one piece')),
  x: number('m', METRES, X_RANGE, 'of its centre behind the front axle; negative in front of it', { required: true }),
  height: number('m', METRES, [0, 4], 'of its centre above the road', { derived: AT_THE_CENTRE }),
} as const satisfies Fields;

/** Who drives. */
export const driverFields = {
  mass: number('kg', KG, [0, 300], 'of the driver', assume(PERSON, PERSON_SOURCE)),
  x: number('m', METRES, X_RANGE, 'of the driver’s middle behind the front axle', {
    derived: '0.52 of the wheelbase, ± 0.1 m as a standard uncertainty (common practice, no source)',
  }),
  height: number('m', METRES, [0, 3], 'of the driver’s middle above the road', assume(0.6, COMMON, [0.45, 0.75])),
} as const satisfies Fields;

/** What two alike tyres of an axle are marked with. */
export const tyreMarkFields = {
  size: { kind: 'text', doc: 'the text on the side wall, such as "155/80 R 13 79T"; gives index and symbol' },
  loadIndex: number('1', '1', [LOAD_INDICES.first, LOAD_INDICES.last], 'load index', {
    derived: 'from the text on the side wall; not known when it has none',
    computed: true,
  }),
  speedSymbol: { kind: 'choice', choices: SPEED_SYMBOLS, doc: 'speed symbol; left out: from the side wall' },
} as const satisfies Fields;

const mark = (doc: string): Field => ({ kind: 'group', part: '', fields: tyreMarkFields, doc });
const NOT_KNOWN = { derived: 'not known, and not checked' } as const;

/** The scales before; required, because everything starts from them. */
export const scalesFields = {
  front: number('kg', KG, [10, 20_000], 'on the front axle', { required: true, ...usually(100, 2000) }),
  rear: number('kg', KG, [10, 20_000], 'on the rear axle', { required: true, ...usually(100, 2000) }),
} as const satisfies Fields;

/** The plate. */
export const permittedFields = {
  front: number('kg', KG, [10, 20_000], 'on the front axle', NOT_KNOWN),
  rear: number('kg', KG, [10, 20_000], 'on the rear axle', NOT_KNOWN),
  gross: number(
    'kg',
    KG,
    [10, 40_000],
    'of the whole car, people, luggage and what rests on its hitch included',
    NOT_KNOWN,
  ),
  train: number('kg', KG, [10, 60_000], 'of car and trailer together', NOT_KNOWN),
  hitch: number('kg', KG, [1, 1000], 'on the hitch', NOT_KNOWN),
} as const satisfies Fields;

/** A trailer on the hitch: what rests there is part of the fully loaded car. */
export const hitchedFields = {
  mass: trailerFields.mass,
  hitchLoad: trailerFields.hitchLoad,
  hitchHeight: trailerFields.hitchHeight,
  overhang: trailerFields.overhang,
} as const satisfies Fields;

/** A car on the scales, and what is changed about it. */
export const weighFields = {
  scales: {
    kind: 'group',
    part: '',
    fields: scalesFields,
    doc: 'what the scales said before: level ground, nobody in the car',
    required: true,
  },
  wheelbase: number('m', METRES, [1, 6], 'distance between the axles', { required: true }),
  cgHeight: { ...carFields.cgHeight, doc: 'height of the centre of gravity before' },
  out: { kind: 'groups', fields: itemFields, doc: 'what comes out' },
  in: { kind: 'groups', fields: itemFields, doc: 'what goes in' },
  driver: { kind: 'group', part: '', fields: driverFields, doc: 'the driver' },
  load: { kind: 'groups', fields: itemFields, doc: 'passengers and luggage of the fully loaded car' },
  trailer: { kind: 'group', part: '', fields: hitchedFields, doc: 'a trailer on the hitch of the fully loaded car' },
  permitted: { kind: 'group', part: '', fields: permittedFields, doc: 'the permitted masses, from the plate' },
  tyres: mark('the tyres of both axles'),
  frontTyres: mark('the tyres of the front axle, where they differ'),
  rearTyres: mark('the tyres of the rear axle, where they differ'),
  topSpeed: number('m/s', KMH, [1, 150], 'top speed, for the speed symbol of the tyres', NOT_KNOWN),
  move: { kind: 'text', doc: 'name of one thing under `in`: how far must it move to keep the front share?' },
  keepShare: number('1', '%', [0.05, 0.95], 'front share of the empty car that is to be kept or reached', {
    derived: 'the front share of the empty car before',
    computed: true,
  }),
  minX: number('m', METRES, X_RANGE, 'foremost place that the centre of a thing may take', {
    derived: '0.6 m in front of the front axle (common practice, no source)',
  }),
  maxX: number('m', METRES, X_RANGE, 'rearmost place that the centre of a thing may take', {
    derived: '0.7 m behind the rear axle (common practice, no source)',
  }),
} as const satisfies Fields;

export type ItemSpec = SpecOf<typeof itemFields>;
export type TyreMarkSpec = SpecOf<typeof tyreMarkFields>;
export type WeighSpec = Omit<SpecOf<typeof weighFields>, 'tyres' | 'frontTyres' | 'rearTyres'> & {
  readonly tyres?: TyreMarkSpec;
  readonly frontTyres?: TyreMarkSpec;
  readonly rearTyres?: TyreMarkSpec;
};
