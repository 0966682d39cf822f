/** From what is said about the masses of a car to a ledger that can be worked out. */
import { type Filler, filler } from '../fields/filler.ts';
import type { AxleLimits, Limits } from './axle-check.ts';
import type { Item, MassLedger, Room } from './mass-ledger.ts';
import { massOf, weighed } from './mass-ledger.ts';
import type { ItemSpec, TyreMarkSpec, WeighSpec } from './ledger-fields.ts';
import {
  driverFields,
  hitchedFields,
  itemFields,
  permittedFields,
  scalesFields,
  tyreMarkFields,
  weighFields,
} from './ledger-fields.ts';
import { hitchLoad } from './trailer.ts';
import type { Input } from '../fields/input.ts';
import { readTyreSize, type TyreSize, TyreSizeError } from '../tyre/size.ts';
import { SpecError } from '../fields/spec-error.ts';

/** A ledger with all that is asked of it. */
export interface CompletedLedger {
  readonly ledger: MassLedger;
  readonly limits: Limits;
  readonly keep: Keep;
  readonly hitched: Hitched | null;
  /** What was assumed, paths below `name`. */
  readonly inputs: readonly Input[];
}

/** A trailer: kg of all of it, and what of it rests on the hitch. */
export interface Hitched {
  readonly mass: number;
  readonly item: Item;
}

/** The question how far things must move. */
export interface Keep {
  /** Front share of the empty car. */
  readonly share: number;
  readonly room: Room;
  /** Name of the thing that is to move; null when none is named. */
  readonly move: string | null;
}

/**
 * Completes a ledger.
 * @param name prefix of the paths in `inputs` and in errors; '' for none.
 * @throws SpecError when a required field is missing or the masses can stand on no two axles.
 */
export function completeLedger(spec: WeighSpec, name = ''): CompletedLedger {
  const inputs: Input[] = [];
  const below = (key: string): string => (name === '' ? key : `${name}.${key}`);
  const fill = filler(name, weighFields, spec, inputs);
  fill.need('scales');
  const scales = filler(below('scales'), scalesFields, spec.scales ?? {}, inputs);
  const wheelbase = fill.number('wheelbase');
  const height = fill.number('cgHeight');
  const items = (key: 'out' | 'in' | 'load'): readonly Item[] =>
    (spec[key] ?? []).map((item, i) => completeItem(`${below(key)}[${i + 1}]`, item, height, inputs));
  const driver = filler(below('driver'), driverFields, spec.driver ?? {}, inputs);
  const hitched = completeHitched(below('trailer'), spec.trailer, wheelbase, inputs);
  const ledger: MassLedger = {
    wheelbase,
    scales: { front: scales.number('front'), rear: scales.number('rear') },
    height,
    out: items('out'),
    in: items('in'),
    driver: {
      name: 'driver',
      count: 1,
      mass: driver.number('mass'),
      x: driver.derived('x', () => 0.52 * wheelbase, { kind: 'normal', standard: 0.1 }),
      height: driver.number('height'),
    },
    load: items('load'),
    ...(hitched !== null && { hitch: hitched.item }),
  };
  refuseImpossible(ledger, below, fill);
  const limits = completeLimits(spec, below, fill, inputs);
  return { ledger, limits, keep: completeKeep(spec, ledger, fill), hitched, inputs };
}

/** What rests on the hitch stands behind the rear axle like a thing in the car. @throws SpecError */
function completeHitched(path: string, spec: WeighSpec['trailer'], wheelbase: number, inputs: Input[]): Hitched | null {
  if (spec === undefined) return null;
  const fill = filler(path, hitchedFields, spec, inputs);
  fill.need('mass');
  const mass = fill.number('mass');
  const x = wheelbase + fill.number('overhang');
  const item = {
    name: 'trailer, on the hitch',
    count: 1,
    mass: hitchLoad(fill, mass),
    x,
    height: fill.number('hitchHeight'),
  };
  return { mass, item };
}

function completeItem(path: string, spec: ItemSpec, height: number, inputs: Input[]): Item {
  const fill = filler(path, itemFields, spec, inputs);
  fill.need('name');
  // One piece is what a line means that says nothing of pieces: no assumption to be listed.
  const count = spec.count === undefined ? 1 : fill.number('count');
  if (!Number.isInteger(count)) throw fill.error('count', `${count} is not a whole number`);
  return {
    name: spec.name ?? '',
    count,
    mass: fill.number('mass'),
    x: fill.number('x'),
    height: fill.derived('height', () => height),
  };
}

/** Every state must rest on both axles, with its centre of gravity above the road. */
function refuseImpossible(ledger: MassLedger, below: (key: string) => string, fill: Filler<typeof weighFields>): void {
  const stripped = weighed({ ...ledger, in: [] }).kerb;
  for (const axle of ['front', 'rear'] as const) {
    if (stripped[axle] <= 0) {
      throw new SpecError(below('out'), `takes more off the ${axle} axle than the scales say stands on it`);
    }
  }
  const { kerb, driven, full } = weighed(ledger);
  const states = [
    ['in', kerb],
    ['driver', driven],
    ['load', full],
  ] as const;
  for (const [key, state] of states) {
    for (const axle of ['front', 'rear'] as const) {
      if (state[axle] <= 0) throw new SpecError(below(key), `lifts the ${axle} axle off the road`);
    }
  }
  if (stripped.height <= 0) {
    throw fill.error(
      'cgHeight',
      'leaves nothing above the road once the things under out are gone',
      'a greater height',
    );
  }
}

function completeLimits(
  spec: WeighSpec,
  below: (key: string) => string,
  fill: Filler<typeof weighFields>,
  inputs: Input[],
): Limits {
  const permitted = filler(below('permitted'), permittedFields, spec.permitted ?? {}, inputs);
  const known = (key: 'front' | 'rear' | 'gross' | 'train' | 'hitch'): number | null =>
    spec.permitted?.[key] === undefined ? null : permitted.number(key);
  const axle = (key: 'front' | 'rear'): AxleLimits => {
    const own = key === 'front' ? spec.frontTyres : spec.rearTyres;
    const path = own === undefined ? 'tyres' : key === 'front' ? 'front_tyres' : 'rear_tyres';
    return { permitted: known(key), ...completeMark(below(path), own ?? spec.tyres ?? {}) };
  };
  const front = axle('front');
  return {
    front,
    rear: axle('rear'),
    gross: known('gross'),
    train: known('train'),
    hitch: known('hitch'),
    topSpeed: spec.topSpeed === undefined ? null : fill.number('topSpeed'),
  };
}

/** What is said of its own goes before what the side wall says. */
function completeMark(path: string, spec: TyreMarkSpec): Omit<AxleLimits, 'permitted'> {
  const wall = spec.size === undefined ? null : sideWall(path, spec.size);
  const fill = filler(path, tyreMarkFields, spec, []);
  const loadIndex = spec.loadIndex === undefined ? (wall?.loadIndex ?? null) : fill.number('loadIndex');
  if (loadIndex !== null && !Number.isInteger(loadIndex)) {
    throw fill.error('loadIndex', `${loadIndex} is not a whole number`);
  }
  const speedSymbol = spec.speedSymbol === undefined ? (wall?.speedSymbol ?? null) : fill.choice('speedSymbol');
  return { loadIndex, speedSymbol, radius: wall === null ? null : wall.freeDiameter / 2 };
}

function sideWall(path: string, size: string): TyreSize {
  try {
    return readTyreSize(size);
  } catch (cause) {
    if (cause instanceof TyreSizeError)
      throw new SpecError(
        `${path}.size`,
        cause.message,
        'a text such as "155/80 R 13 79T", or load_index and speed_symbol',
      );
    throw cause;
  }
}

function completeKeep(spec: WeighSpec, ledger: MassLedger, fill: Filler<typeof weighFields>): Keep {
  const share = fill.derived('keepShare', () => weighed(ledger).before.frontShare);
  const min = fill.derived('minX', () => -0.6);
  const max = fill.derived('maxX', () => ledger.wheelbase + 0.7);
  if (min >= max) throw fill.error('minX', 'is not in front of max_x', `less than ${max} m`);
  const { move = null } = spec;
  if (move !== null) {
    const named = ledger.in.filter(item => item.name === move && massOf(item) > 0);
    const names = ledger.in.map(item => item.name).join(', ');
    if (named.length === 0) throw fill.error('move', `nothing under in is called "${move}"`, `one of ${names}`);
    if (named.length > 1)
      throw fill.error('move', `${named.length} things under in are called "${move}"`, 'one name each');
  }
  return { share, room: { min, max }, move };
}
