/** Puts a drive of a log on the road that its altitudes tell of. */
import { nth } from '../../columns.ts';
import type { Schedule } from '../schedule.ts';
import { type Profile, withProfile } from '../slope.ts';
import { statistics } from '../statistics.ts';
import { type Altitudes, roadProfile } from './altitude.ts';
import { LogError } from './error.ts';
import { counted, type Tally } from './repair.ts';

/** Slopes above which a sentence is said, and those that no road has. The steepest streets have 0.35 (from memory). */
const STEEP = 0.25;
const NO_ROAD = 0.5;

/**
 * The schedule with the slopes of its road; null where there is too little of a road or of altitudes.
 * @param line of the log in which the drive begins. @throws LogError for altitudes that no road has.
 */
export function onItsRoad(schedule: Schedule, altitudes: Altitudes, line: number, tally: Tally): Schedule | null {
  const profile = roadProfile(schedule, altitudes);
  if (profile === null) return null;
  const steepest = steepestOf(profile, line);
  const road = withProfile(schedule, profile);
  const climb = round(statistics(road).climb);
  const hint = steepest > STEEP ? ': check the altitude' : '';
  const left = profile.left === 0 ? '' : `, ${counted(profile.left, 'false reading')} left out`;
  const text = `altitude smoothed over 100 m to either side: ${climb} m of climb, slopes up to ${round(100 * steepest)} %${left}${hint}`;
  tally.note('altitude', line, () => text);
  return road;
}

function steepestOf({ distance, altitude }: Profile, line: number): number {
  let steepest = 0;
  for (let k = 1; k < distance.length; k++) {
    const [way, rise] = [nth(distance, k) - nth(distance, k - 1), nth(altitude, k) - nth(altitude, k - 1)];
    steepest = Math.max(steepest, Math.abs(rise) / way);
    if (Math.abs(rise) <= NO_ROAD * way) continue;
    const place = { line, column: 1, length: 1, source: '' };
    const where = `${round(nth(distance, k - 1) / 1000)} km from here`;
    const message = `the altitude changes by ${round(rise)} m over ${round(way)} m of road, ${where}`;
    throw new LogError(place, 'altitude', message, 'the altitude of a road; without that column the road is level');
  }
  return steepest;
}

function round(value: number): number {
  return Number(value.toPrecision(3));
}
