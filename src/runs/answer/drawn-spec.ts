/** A specification with drawn values in it, sample after sample: where each of them goes is found once. */
import { item } from '../../columns.ts';
import { PASSING } from '../../model/fields/once.ts';
import { type Change, isBelow, keysOf } from './change.ts';

/** A group of a specification that samples write to. */
interface Seat {
  /** The group, with a place for all that is drawn: a copy of it has its keys already, and is no slower to read than the group itself. */
  readonly group: { readonly [key: string]: unknown };
  /** Keys, and the numbers of the changes that are written there. */
  readonly own: readonly { readonly key: string; readonly from: number }[];
  readonly parts: readonly { readonly key: string; readonly seat: Seat }[];
}

/**
 * Makes a function that gives the specification with the drawn ones among some changes, those whose paths have this name in front; what
 * they do not touch is shared. It is quick where one sample after the other changes the same paths in the same order.
 */
export function createDrawn<S extends object>(spec: S, name: string): (changes: readonly Change[]) => S {
  let latest: readonly Change[] = [];
  let seat: Seat | null = null;
  return changes => {
    if (!sameWay(changes, latest)) {
      seat = seatOf(spec, 1, ownOf(name, changes));
      latest = changes;
    }
    return seat === null ? spec : (seated(seat, changes) as S);
  };
}

/** Whether all go where the others went. */
function sameWay(a: readonly Change[], b: readonly Change[]): boolean {
  if (a.length !== b.length) return false;
  for (let k = 0; k < a.length; k++) {
    const [one, other] = [item(a, k), item(b, k)];
    if (one.path !== other.path || one.drawn !== other.drawn) return false;
  }
  return true;
}

interface Way {
  readonly keys: readonly string[];
  readonly from: number;
}

function ownOf(name: string, changes: readonly Change[]): readonly Way[] {
  return changes.flatMap((change, from) =>
    change.drawn === true && isBelow(name, change) ? [{ keys: keysOf(change.path), from }] : [],
  );
}

/** @param place in the keys of the ways, of those of this group. Null where no way leads to it. */
function seatOf(group: unknown, place: number, ways: readonly Way[]): Seat | null {
  if (ways.length === 0) return null;
  const key = ({ keys }: Way): string => item(keys, place);
  const [own, below] = [
    ways.filter(way => way.keys.length === place + 1),
    ways.filter(way => way.keys.length > place + 1),
  ];
  const said = typeof group === 'object' && group !== null ? (group as Seat['group']) : {};
  return {
    group: { ...said, ...Object.fromEntries(ways.map(way => [key(way), said[key(way)]])), [PASSING]: true },
    own: own.map(way => ({ key: key(way), from: way.from })),
    parts: [...new Set(below.map(key))].flatMap(part => {
      const seat = seatOf(
        said[part],
        place + 1,
        below.filter(way => key(way) === part),
      );
      return seat === null ? [] : [{ key: part, seat }];
    }),
  };
}

function seated({ group, own, parts }: Seat, changes: readonly Change[]): Seat['group'] {
  const copy: { [key: string]: unknown } = { ...group };
  for (const { key, from } of own) copy[key] = item(changes, from).value;
  for (const { key, seat } of parts) copy[key] = seated(seat, changes);
  return copy;
}
