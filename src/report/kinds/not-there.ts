/** A drive whose car has not got to the end of its way when its time is over, and is still too slow. */
import { duration } from '../../plots/kit/duration.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { LIMITER_MEANING, LIMITERS } from '../../model/forward/limiter.ts';
import { item, lastOf, nth } from '../../columns.ts';
import type { Result } from '../../runs/result.ts';
import { SPEED_TOLERANCE } from '../../runs/schedule/shortfall.ts';
import { numbers, texts } from '../../runs/series.ts';
import type { System } from '../../units.ts';
import { figure } from '../../units/rounding.ts';

/** m that are missing of a way before anybody counts them. Common practice, no source. */
const MISSING = 100;

const FAR = { unit: 'm', display: { metric: 'km', imperial: 'mile' } };
const SPEED = { unit: 'm/s', display: { metric: 'km/h', imperial: 'mph' } };

export interface NotThere {
  /** `3.50 km short`. */
  readonly short: string;
  /** Where it fell behind, how it goes at the end, and why. A sentence with its full stop. */
  readonly told: string;
}

/** Null for a drive that arrives, be it late. */
export function notThere(result: Result, system: System): NotThere | null {
  const missed = summaryNumber(result, 'distance_missed') ?? 0;
  const { time } = result.series;
  if (result.kind !== 'drive' || missed < MISSING || time === undefined) return null;
  const [speed, asked, way] = ['speed_m_s', 'schedule_speed_m_s', 'distance_m'].map(key => numbers(time, key));
  if (speed === undefined || asked === undefined || way === undefined || speed.length === 0) return null;
  if (!(lastOf(speed) < lastOf(asked) - SPEED_TOLERANCE)) return null;
  // Who would be there within as long again arrives, and late.
  const took = summaryNumber(result, 'time') ?? 0;
  if (result.reasons['time_lost'] === undefined && missed < lastOf(speed) * took) return null;
  const kept = speed.findLastIndex((own, row) => own >= nth(asked, row) - SPEED_TOLERANCE);
  const [limits, from] = [texts(time, 'limiter'), Math.max(0, kept)];
  const limiter = LIMITERS.find(word => word === item(limits, limits.length - 1));
  const why = limiter === undefined || limiter === 'driver' ? '' : `: ${LIMITER_MEANING[limiter]}`;
  const km = (metres: number): string => figure(metres, FAR, system);
  const pace = (value: number): string => figure(value, SPEED, system, 0);
  const lasts = duration(took);
  const end =
    result.reasons['time_lost'] === undefined
      ? `after ${lasts}, when all of the way should be done, ${km(missed)} are still to go and it does ${pace(lastOf(speed))} where ${pace(lastOf(asked))} are asked`
      : `after ${km(lastOf(way))} and ${lasts} it can not go on, with ${km(missed)} still to go`;
  return {
    short: `${km(missed)} short`,
    told: `It does not get there: from ${km(nth(way, from))} on it falls behind, and ${end}${why}.`,
  };
}
