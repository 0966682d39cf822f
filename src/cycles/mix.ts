/** Several schedules driven in turn so that each makes up its share of the way. */
import { item, nth } from '../columns.ts';
import type { Schedule } from './schedule.ts';
import { distanceOf } from './statistics.ts';

export interface Share {
  readonly schedule: Schedule;
  /** Of the distance; all shares together are 1. */
  readonly share: number;
}

/** Shares that differ from 1 in sum by no more than rounding. */
const ROUNDING = 1e-9;

/** Legs that a mix has at most when nobody says how many. */
const MOST_LEGS = 60;
/** How far the shares may be off when nobody says how many legs: 1 in 100 of the distance. */
const CLOSE = 0.01;

/**
 * The order of whole schedules that keeps the shares, as their indices: each leg is the schedule that lags most behind its share of the way so far,
 * among equals the one with the larger share, then the one that was named first.
 * @throws RangeError for shares that are not above 0 or do not add up to 1, a schedule that goes nowhere, or no whole number of legs.
 */
export function mix(shares: readonly Share[], legs: number): readonly number[] {
  const lengths = lengthsOf(shares);
  if (!Number.isInteger(legs) || legs < 1) throw new RangeError(`${legs} is no number of legs`);
  return orderOf(shares, lengths, legs);
}

/** The fewest legs whose shares of the way are within 1 in 100 of those asked for; of 60 legs the closest number where none are. */
export function legsOfMix(shares: readonly Share[]): number {
  const lengths = lengthsOf(shares);
  const driven = shares.map(() => 0);
  let [best, least, whole] = [1, Infinity, 0];
  for (const [n, k] of orderOf(shares, lengths, MOST_LEGS).entries()) {
    driven[k] = nth(driven, k) + nth(lengths, k);
    whole += nth(lengths, k);
    const error = Math.max(...shares.map(({ share }, j) => Math.abs(nth(driven, j) / whole - share)));
    if (error < least) [best, least] = [n + 1, error];
    if (error <= CLOSE) return n + 1;
  }
  return best;
}

function orderOf(shares: readonly Share[], lengths: readonly number[], legs: number): readonly number[] {
  const driven = shares.map(() => 0);
  let whole = 0;
  return Array.from({ length: legs }, () => {
    let next = 0;
    for (let k = 1; k < shares.length; k++) {
      const [lag, most] = [
        item(shares, k).share * whole - nth(driven, k),
        item(shares, next).share * whole - nth(driven, next),
      ];
      if (lag > most || (lag === most && item(shares, k).share > item(shares, next).share)) next = k;
    }
    driven[next] = nth(driven, next) + nth(lengths, next);
    whole += nth(lengths, next);
    return next;
  });
}

function lengthsOf(shares: readonly Share[]): readonly number[] {
  if (!shares.every(({ share }) => share > 0)) throw new RangeError('a share is not above 0');
  const sum = shares.reduce((total, { share }) => total + share, 0);
  if (Math.abs(sum - 1) > ROUNDING) throw new RangeError(`the shares add up to ${sum}, not to 1`);
  return shares.map(({ schedule }) => {
    const length = distanceOf(schedule);
    if (length > 0) return length;
    throw new RangeError(`"${schedule.title}" goes nowhere`);
  });
}
