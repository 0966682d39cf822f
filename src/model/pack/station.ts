/** A station that charges a pack with direct current, past the chargers on board. */
import type { Charger } from '../car.ts';
import { feedOf } from './charging.ts';
import type { Feed } from './charging.ts';
import { wallLimit } from './supply.ts';
import type { Station, Supply, WallLimit } from './supply.ts';

/** What a car hangs on, and what that lets it draw. */
export interface Fed {
  readonly feed: Feed;
  readonly wall: WallLimit;
}

/** Through the chargers on board, or past them. */
export function fedFrom(supply: Supply, charger: Charger): Fed {
  const { station } = supply;
  if (station === undefined) {
    const wall = wallLimit(supply, charger);
    return { wall, feed: feedOf(charger, wall.power) };
  }
  return { wall: { power: station.power, currents: [], by: 'station' }, feed: stationFeed(station, charger.overhead) };
}

/** Energy is counted at its plug, in direct current: what the station loses itself is not the car's. */
function stationFeed({ power, current, least, greatest }: Station, overhead: number): Feed {
  return { power, idle: 0, efficiency: 1, overhead, current, voltage: { least, greatest } };
}
