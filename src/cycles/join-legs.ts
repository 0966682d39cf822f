/** Makes the legs of a trip follow each other without a jump of speed. */
import { lastOf, nth } from '../columns.ts';
import { join } from './join.ts';
import { withSlope } from './slope.ts';
import { rampTo, withRamps } from './steady.ts';
import type { Leg, Stop } from './trip.ts';
import { distanceOf } from './statistics.ts';

/** A leg before it is known what comes before and after it. */
export interface LooseLeg extends Leg {
  /** For a leg of one speed: what stays the same when ramps to and from that speed become part of it; null for others. */
  readonly steady: 'distance' | 'time' | null;
  /** Rise over run of the whole leg, ramps included; null for what its schedule says. */
  readonly slope: number | null;
}

export interface Met {
  readonly parts: readonly (Leg | Stop)[];
  /** Ramps that had to be put between schedules, and the m that they add. */
  readonly ramps: number;
  readonly added: number;
}

/** A steady leg that is too short for its ramps. */
export class TooShort extends RangeError {
  /** Index of the leg. */
  readonly part: number;
  constructor(part: number, message: string) {
    super(message);
    this.name = 'TooShort';
    this.part = part;
  }
}

/**
 * From rest to rest, through each stop at rest, by ramps of `UNHURRIED`. The ramps of a steady leg lie within its distance or its time;
 * those between two other schedules are added.
 * @throws TooShort
 */
export function meet(parts: readonly (LooseLeg | Stop)[]): Met {
  const met: (Leg | Stop)[] = [];
  let [speed, ramps, added] = [0, 0, 0];
  for (const [k, part] of parts.entries()) {
    if (part.kind === 'stop') {
      met.push(part);
      speed = 0;
      continue;
    }
    const next = parts[k + 1];
    const nextSpeed = next === undefined || next.kind === 'stop' ? 0 : nth(next.schedule.speed, 0);
    let { schedule } = part;
    if (part.steady !== null) {
      const to = next?.kind === 'leg' && next.steady !== null ? nth(schedule.speed, 0) : nextSpeed;
      try {
        schedule = withRamps(schedule, part.steady, { from: speed, to });
      } catch (error) {
        if (error instanceof RangeError) throw new TooShort(k, error.message);
        throw error;
      }
    } else {
      const ends = next === undefined || next.kind === 'stop';
      const before = speed === nth(schedule.speed, 0) ? [] : [rampTo(speed, nth(schedule.speed, 0))];
      const after = !ends || schedule.speed.at(-1) === 0 ? [] : [rampTo(lastOf(schedule.speed), 0)];
      if (before.length + after.length > 0) {
        const pieces = [...before, schedule, ...after].map(each => ({ name: '', schedule: each }));
        schedule = join(schedule.title, schedule.source, pieces);
      }
      for (const ramp of [...before, ...after]) {
        ramps++;
        added += distanceOf(ramp);
      }
    }
    speed = lastOf(schedule.speed);
    met.push({
      kind: 'leg',
      schedule: part.slope === null ? schedule : withSlope(schedule, part.slope),
      load: part.load,
    });
  }
  return { parts: met, ramps, added };
}
