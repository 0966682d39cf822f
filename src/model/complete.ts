/** From what a user says about a car to the car as the physics sees it, with a list of everything that was assumed. */
import { filler, notebookKey } from './fields/filler.ts';
import type { Filler } from './fields/filler.ts';
import type { Body, Car, Drive, Surroundings } from './car.ts';
import { completeDrive } from './drive/complete.ts';
import type { CompletedDrive, DriveContext, MeasuredUnit } from './drive/complete.ts';
import { completeCabin } from './cabin/complete.ts';
import { completeCharger } from './pack/charger.ts';
import { completePack } from './pack/complete.ts';
import { completeRoadLoad, containedShare } from './body/road-load.ts';
import { completeTrailer } from './body/trailer.ts';
import { completeTyre } from './tyre/complete.ts';
import type { Input } from './fields/input.ts';
import { auxiliariesFields } from './cabin/fields.ts';
import { onceEach } from './fields/once.ts';
import { carFields } from './spec.ts';
import { surroundingsFields } from './surroundings-fields.ts';
import type { CarSpec } from './spec.ts';
import type { SurroundingsSpec } from './surroundings-fields.ts';
import { SpecError } from './fields/spec-error.ts';

/** The car, and the inputs that were assumed for it (origin `assumed`), paths below `name`. */
export interface CompletedCar {
  readonly car: Car;
  readonly inputs: readonly Input[];
  /** What was done to measured tables, in sentences that the reader must see. */
  readonly notes: readonly string[];
}

const packOf = onceEach<Car['pack']>();
const drivesOf = onceEach<CompletedDrive>();
const tyreOf = onceEach<Car['tyres']['front']>();
const auxiliariesOf = onceEach<Car['auxiliaries']>();
const cabinOf = onceEach<Car['cabin']>();
const chargerOf = onceEach<ReturnType<typeof completeCharger>>();
const NOTHING = {};

/** Where and when, and what of it was assumed, paths below `name`. */
export interface CompletedSurroundings {
  readonly surroundings: Surroundings;
  readonly inputs: readonly Input[];
}

/**
 * Completes a car.
 * @param name prefix of the paths in `inputs` and in errors; '' for none.
 * @param measured what the files say that its drive units name, by the path of the unit: `drive.unit` below `name`.
 * @param inputs the list that is filled; `UNLISTED` where nobody reads it.
 * @throws SpecError when a required field is missing or numbers do not fit together.
 */
export function completeCar(
  spec: CarSpec,
  name = '',
  measured: ReadonlyMap<string, MeasuredUnit> = new Map(),
  inputs: Input[] = [],
): CompletedCar {
  const fill = filler(name, carFields, spec, inputs);
  const below = (key: string): string => (name === '' ? key : `${name}.${key}`);
  fill.need('mass');
  fill.need('drive');
  fill.need('pack');
  const pack = packOf(spec.pack ?? NOTHING, [name], inputs, () =>
    completePack(below('pack'), spec.pack ?? NOTHING, inputs),
  );
  const contained = containedShare(below('road_load'), spec, inputs);
  const besides = [name, pack, measured, contained, spec.secondDrive, spec.frontTorqueShare];
  const { drives, notes, frontTorqueShare } = drivesOf(spec.drive ?? NOTHING, besides, inputs, () =>
    completeDrives(spec, below, fill, { pack, measured, contained }, inputs),
  );
  const body = completeBody(spec, drives, fill);
  const tyre = (key: 'frontTyres' | 'rearTyres'): Car['tyres']['front'] => {
    const own = spec[key];
    const both = spec.tyres;
    if (own === undefined && both === undefined)
      throw fill.error('tyres', 'is missing', 'a size or a radius', 'missing');
    const path = own === undefined ? below('tyres') : below(key === 'frontTyres' ? 'front_tyres' : 'rear_tyres');
    const said = own ?? both ?? NOTHING;
    return tyreOf(said, [path], inputs, () => completeTyre(path, said, inputs));
  };
  const front = tyre('frontTyres');
  const before = inputs.length;
  const rear = tyre('rearTyres');
  // The same set on both axles is assumed once, not twice.
  if (inputs.length > before && spec.frontTyres === undefined && spec.rearTyres === undefined) inputs.length = before;
  for (const { axle, traction } of drives) {
    if (traction.policy === 'spin' && (axle === 'front' ? front : rear).slipAtPeak === 0) {
      throw new SpecError(
        below('drive.traction'),
        'a rigid tyre (slip_at_peak 0) cannot spin',
        'held, or a slip at the peak',
      );
    }
  }
  const driven = completeRoadLoad(below('road_load'), spec.roadLoad, body, { front, rear }, inputs);
  const aux = spec.auxiliaries ?? NOTHING;
  const auxiliaries = auxiliariesOf(aux, [name], inputs, () => {
    const own = filler(below('auxiliaries'), auxiliariesFields, aux, inputs);
    return { power: own.number('power'), converterEfficiency: own.number('converterEfficiency') };
  });
  const comfort = spec.cabin ?? NOTHING;
  const cabin = cabinOf(comfort, [name], inputs, () => completeCabin(below('cabin'), comfort, inputs));
  const plug = spec.charger ?? NOTHING;
  const charging = chargerOf(plug, [name, pack], inputs, () => completeCharger(below('charger'), plug, pack, inputs));
  const trailer = completeTrailer(below('trailer'), spec.trailer, inputs);
  const whole = { body: driven.body, tyres: driven.tyres, drives, pack, auxiliaries, cabin, charger: charging.charger };
  const shared: Car = frontTorqueShare === undefined ? whole : { ...whole, frontTorqueShare };
  const car = trailer === undefined ? shared : { ...shared, trailer };
  return {
    car,
    inputs,
    notes: [...notes, ...charging.notes, ...(spec.roadLoad === undefined ? [] : measuredIn(spec, below))],
  };
}

/** What a measured road load contains, the tyres as they were pumped among it. */
function measuredIn(spec: CarSpec, below: (key: string) => string): readonly string[] {
  const hubs = spec.hubDrag === undefined ? [] : [`${below('hub_drag')} is in the measured road load already`];
  const tyres = (['tyres', 'frontTyres', 'rearTyres'] as const).flatMap(key =>
    spec[key]?.pressure === undefined
      ? []
      : [`${below(notebookKey(key))}.pressure is in the measured road load already`],
  );
  return [...hubs, ...tyres];
}

/** The drives, and how two of them share the wheel torque where that is fixed. */
function completeDrives(
  spec: CarSpec,
  below: (key: string) => string,
  fill: Filler<typeof carFields>,
  context: DriveContext,
  inputs: Input[],
): CompletedDrive {
  const first = completeDrive(below('drive'), spec.drive ?? {}, context, inputs);
  if (spec.secondDrive === undefined) {
    if (spec.frontTorqueShare !== undefined) {
      throw fill.error(
        'frontTorqueShare',
        'needs two drives',
        'second_drive, or front_torque_share inside a drive of both',
      );
    }
    return first;
  }
  const second = completeDrive(below('second_drive'), spec.secondDrive, context, inputs);
  const drives = [...first.drives, ...second.drives];
  const notes = [...first.notes, ...second.notes];
  const axles = drives.map(drive => drive.axle);
  if (drives.length !== 2 || axles[0] === axles[1]) {
    throw fill.error('secondDrive', `drives the ${axles.at(-1)} axle again`, 'the axle that has no drive yet');
  }
  if (drives.filter(drive => drive.gearbox !== undefined).length > 1) {
    throw fill.error('secondDrive', 'has a gearbox, and so has the other drive', 'one gearbox at most');
  }
  return spec.frontTorqueShare === undefined
    ? { drives, notes }
    : { drives, notes, frontTorqueShare: fill.number('frontTorqueShare') };
}

/** Share of the weight on the front axle by the driven axles: common practice, no source. */
function frontShareOf([first, second]: readonly Drive[]): number {
  if (second !== undefined) return 0.5;
  return first?.axle === 'front' ? 0.58 : 0.48;
}

const FRONT_SHARE_SPREAD = { kind: 'normal', standard: 0.03 } as const;

function completeBody(
  spec: CarSpec,
  drives: readonly Drive[],
  fill: ReturnType<typeof filler<typeof carFields>>,
): Body {
  const frontShare = fill.derived('frontShare', () => frontShareOf(drives), FRONT_SHARE_SPREAD);
  const cgHeight = fill.number('cgHeight');
  const body = {
    mass: fill.number('mass'),
    driver: fill.number('driver'),
    load: fill.number('load'),
    frontShare,
    wheelbase: fill.number('wheelbase'),
    cgHeight,
    dragArea: dragArea(spec, fill),
    dragHeight: fill.derived('dragHeight', () => cgHeight),
    liftAreaFront: fill.number('liftAreaFront'),
    liftAreaRear: fill.number('liftAreaRear'),
    hubDrag: fill.number('hubDrag'),
  };
  for (const { liveAxle } of drives)
    if (liveAxle !== undefined)
      return { ...body, track: fill.number('track'), frontRollShare: fill.number('frontRollShare') };
  return body;
}

/** The given drag area, or coefficient times area, the area from width and height where they are known. */
function dragArea(spec: CarSpec, fill: ReturnType<typeof filler<typeof carFields>>): number {
  if (spec.dragArea !== undefined) return fill.number('dragArea');
  const coefficient = fill.number('dragCoefficient');
  const { width, height } = spec;
  const known = width !== undefined && height !== undefined;
  const spread = known ? undefined : ({ kind: 'rectangular', low: 1.8, high: 2.2 } as const);
  return coefficient * fill.derived('frontalArea', () => (known ? 0.81 * width * height : 2), spread);
}

/** Completes where and when; see `completeCar`. */
export function completeSurroundings(spec: SurroundingsSpec, name = '', inputs: Input[] = []): CompletedSurroundings {
  const fill = filler(name, surroundingsFields, spec, inputs);
  const surface = fill.choice('surface');
  if (surface !== 'dry' && surface !== 'wet' && surface !== 'snow' && surface !== 'ice')
    throw new SpecError(`${name}.surface`, `unknown surface ${surface}`);
  return {
    surroundings: {
      temperature: fill.number('temperature'),
      altitude: fill.number('altitude'),
      humidity: fill.number('humidity'),
      wind: fill.number('wind'),
      slope: fill.number('slope'),
      surface,
    },
    inputs,
  };
}
