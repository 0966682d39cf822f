/** A pack of another size weighs something else: the mass of the car follows it. */
import { filler, UNLISTED } from '../../model/fields/filler.ts';
import { carFields } from '../../model/spec.ts';
import type { CarSpec } from '../../model/spec.ts';
import type { PackSpec } from '../../model/pack/fields.ts';

/** Cells with boxes, busbars and cables over cells alone: packs on sale have 60 to 75 % cells; common practice, no source. */
const BOX = 1.4;

/**
 * The changed car with the mass that its other pack brings, half way between the axles, which leaves the balance of the rest: the
 * share of the front axle moves towards one half. Nothing is added where the mass itself was changed.
 */
export function carried(before: CarSpec, after: CarSpec): CarSpec {
  if (after.mass === undefined || after.mass !== before.mass) return after;
  const change = BOX * (cellMass(after.pack) - cellMass(before.pack));
  if (change === 0) return after;
  const mass = Math.max(1, after.mass + change);
  const { frontShare } = after;
  if (frontShare === undefined) return { ...after, mass };
  const fill = filler('', carFields, after, UNLISTED);
  const people = fill.number('driver') + fill.number('load');
  return { ...after, mass, frontShare: (frontShare * (after.mass + people) + 0.5 * change) / (mass + people) };
}

/**
 * kg that the other pack of a car weighs more than that of the first one, where the two say the same mass all the same; 0 where they
 * do not, and where the mass of a cell is not known.
 */
export function uncarried(first: CarSpec, other: CarSpec): number {
  if (first.pack?.cell?.mass === undefined || other.pack?.cell?.mass === undefined) return 0;
  return (carried(first, other).mass ?? 0) - (other.mass ?? 0);
}

function cellMass(pack: PackSpec | undefined): number {
  return (pack?.cell?.mass ?? 0) * (pack?.series ?? 0) * (pack?.parallel ?? 0);
}
