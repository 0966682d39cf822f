/**
 * The statics of a car on its two axles: what the scales said, what comes out, what goes in, who sits in it. Every x is
 * measured backwards from the front axle, every height upwards from the road; kg, m.
 */

/** A thing, or several alike at one place. */
export interface Item {
  readonly name: string;
  readonly count: number;
  /** kg of one of them. */
  readonly mass: number;
  /** m behind the front axle, of its centre. */
  readonly x: number;
  /** m above the road, of its centre. */
  readonly height: number;
}

export interface MassLedger {
  /** m. */
  readonly wheelbase: number;
  /** kg on each axle before anything was changed, the car level and nobody in it. */
  readonly scales: { readonly front: number; readonly rear: number };
  /** m, height of the centre of gravity then. */
  readonly height: number;
  readonly out: readonly Item[];
  readonly in: readonly Item[];
  readonly driver: Item;
  /** Passengers and luggage. */
  readonly load: readonly Item[];
  /** What of a trailer rests on the hitch of the loaded car. */
  readonly hitch?: Item;
}

/** A car in balance on its axles. */
export interface Balance {
  /** kg. */
  readonly mass: number;
  /** kg on each axle. */
  readonly front: number;
  readonly rear: number;
  /** Part of the mass on the front axle. */
  readonly frontShare: number;
  /** m, the centre of gravity: behind the front axle, and above the road. */
  readonly x: number;
  readonly height: number;
}

/** The same car four times. */
export interface Weighed {
  /** As it was, empty. */
  readonly before: Balance;
  /** As it is now, empty: the kerb mass. */
  readonly kerb: Balance;
  /** Now, with the driver. */
  readonly driven: Balance;
  /** Now, with the driver and the whole load. */
  readonly full: Balance;
}

/** kg of all pieces of an item. */
export function massOf({ count, mass }: Item): number {
  return count * mass;
}

/** kg on each axle under a mass at a place: moments about the axles. */
export function axleLoads(
  mass: number,
  x: number,
  wheelbase: number,
): { readonly front: number; readonly rear: number } {
  const rear = (mass * x) / wheelbase;
  return { front: mass - rear, rear };
}

/** The balance that belongs to axle loads; the inverse of `axleLoads`. */
export function balance(front: number, rear: number, height: number, wheelbase: number): Balance {
  const mass = front + rear;
  return { mass, front, rear, frontShare: front / mass, x: (wheelbase * rear) / mass, height };
}

/** The balance with these items put in (`sign` 1) or taken out (-1). */
function changed(from: Balance, items: readonly Item[], sign: 1 | -1, wheelbase: number): Balance {
  let { front, rear } = from;
  let moment = from.mass * from.height;
  for (const item of items) {
    const mass = sign * massOf(item);
    const loads = axleLoads(mass, item.x, wheelbase);
    front += loads.front;
    rear += loads.rear;
    moment += mass * item.height;
  }
  return items.length === 0 ? from : balance(front, rear, moment / (front + rear), wheelbase);
}

/** Passengers and luggage, and what rests on the hitch. */
export function carried({ load, hitch }: Pick<MassLedger, 'load' | 'hitch'>): readonly Item[] {
  return hitch === undefined ? load : [...load, hitch];
}

/** Works the ledger out. */
export function weighed({ wheelbase, scales, height, ...items }: MassLedger): Weighed {
  const before = balance(scales.front, scales.rear, height, wheelbase);
  const stripped = changed(before, items.out, -1, wheelbase);
  const kerb = changed(stripped, items.in, 1, wheelbase);
  const driven = changed(kerb, [items.driver], 1, wheelbase);
  return { before, kerb, driven, full: changed(driven, carried(items), 1, wheelbase) };
}

/**
 * The car as it is now with a driver and a load of other masses at the places of the ledger, the load at the centre of
 * the ledger's own; null when the ledger has no load that would say where.
 */
export function withPeople(ledger: MassLedger, driver: number, load: number): Balance | null {
  const { kerb } = weighed(ledger);
  const seated = [{ ...ledger.driver, count: 1, mass: driver }];
  if (load === 0) return changed(kerb, seated, 1, ledger.wheelbase);
  const total = ledger.load.reduce((sum, item) => sum + massOf(item), 0);
  if (!(total > 0)) return null;
  const part = load / total;
  const loaded = ledger.load.map(item => ({ ...item, mass: item.mass * part }));
  return changed(kerb, [...seated, ...loaded], 1, ledger.wheelbase);
}

/** Where an item may stand, m behind the front axle. */
export interface Room {
  readonly min: number;
  readonly max: number;
}

/** How far an item moves, m, backwards positive; or why it can not, with the nearest place it may take. */
export type Move =
  | { readonly kind: 'moved'; readonly by: number; readonly to: number }
  /** `to` is out of the car; at `limit` the front share comes to `share`. */
  | { readonly kind: 'outside'; readonly to: number; readonly limit: number; readonly share: number };

/**
 * How far an item that is part of `car` must move for the front share to become `share`. Moving it back by d takes
 * m d / L off the front axle and leaves the mass alone, so that d = L (F - s M) / m.
 */
export function moveToKeep(car: Balance, wheelbase: number, item: Item, share: number, room: Room): Move {
  const mass = massOf(item);
  const by = (wheelbase * (car.front - share * car.mass)) / mass;
  const to = item.x + by;
  if (to >= room.min && to <= room.max) return { kind: 'moved', by, to };
  const limit = Math.min(room.max, Math.max(room.min, to));
  const reached = (car.front - (mass * (limit - item.x)) / wheelbase) / car.mass;
  return { kind: 'outside', to, limit, share: reached };
}
