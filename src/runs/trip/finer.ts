/** Trips as they are driven: a steady hour is told, and stepped, in more than its two ends. */
import { refineTrip } from '../../cycles/densify.ts';
import type { Trip } from '../../cycles/trip.ts';

/** s between two points at most. */
const FINEST = 10;

const known = new WeakMap<Trip, Trip>();

/** The same trip with points so close; worked out once for each. */
export function finer(trip: Trip): Trip {
  const found = known.get(trip) ?? refineTrip(trip, FINEST);
  known.set(trip, found);
  return found;
}
