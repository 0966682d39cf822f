/** How far a step of an interval goes before anything is known of it. */
import type { Schedule } from '../../cycles/schedule.ts';
import type { Journey } from './journey.ts';
import { part } from './memory.ts';

/** s; a point of a schedule every second is usual. */
export const LONGEST_STEP = 1;
/** The same at a steady speed: the pack alone changes, with time constants of tens of seconds. */
const LONGEST_STEADY_STEP = 4;
/** Of the time in which what a cold cabin takes on top fades: no step is longer until it has faded. */
const FADING_STEP = 0.25;
const FADED = 12;

/** s; what happens within it happens at its start. */
const SHORTEST = 1e-9;
/** Of a speed. */
const ROUND_OFF = 1e-12;

/** The car comes to an interval, or to several in which it rests. @param since s since the heater was switched on when the schedule begins. @param end the point to which it is driven. */
export function beginInterval(
  interval: Journey['interval'],
  { time, speed }: Schedule,
  since: number,
  index: number,
  end: number,
): void {
  const start = part(time, index);
  const from = part(speed, index);
  const length = part(time, end) - start;
  interval.start = start;
  interval.length = length;
  interval.from = from;
  interval.rise = (part(speed, end) - from) / length;
  interval.heaterFrom = since + start;
  interval.trusted = -1;
}

/** The step at hand is driven: the car is at its end. */
export function endStep(car: Journey): void {
  const { interval, held } = car;
  interval.s0 = interval.s1;
  car.speed = held > 0 ? held : interval.from + interval.rise * interval.s1;
}

/** Steps that an interval is driven in at least. */
export function piecesOf({ length, rise }: Journey['interval']): number {
  return Math.max(1, Math.ceil(length / (rise === 0 ? LONGEST_STEADY_STEP : LONGEST_STEP) - 1e-9));
}

/** Sets the end of the step at hand, of an interval that is driven in so many at least. */
export function planStep(car: Journey, steps: number): void {
  const { interval } = car;
  const { length, s0 } = interval;
  interval.s1 =
    steps === 1 ? length : Math.min(length, (Math.floor((s0 / length) * steps + 1e-9) + 1) * (length / steps));
  if (car.held > 0) staysHeld(car);
  goWithHeater(car);
  endAtLull(car);
  endAtTop(car);
}

/** Ends the step before what the heater draws has changed much. */
function goWithHeater({ interval, consumers: { extra, fading } }: Journey): void {
  if (extra === 0 || interval.heaterFrom + interval.s0 > FADED * fading) return;
  interval.s1 = Math.min(interval.s1, interval.s0 + FADING_STEP * fading);
}

/** Ends the step where the car has the speed of a wind from behind: drag bends there. */
function endAtLull({ interval, held, following }: Journey): void {
  const { wind } = following.moving.car;
  if (wind >= 0 || held > 0) return;
  const at = (-wind - interval.from) / interval.rise;
  if (at > interval.s0 + SHORTEST && at < interval.s1) interval.s1 = at;
}

/** Ends the step where a schedule that rises comes to the speed at which a unit turns as fast as it may: the car is held there. */
function endAtTop({ interval, held, fastest }: Journey): void {
  if (held > 0 || !(interval.rise > 0) || interval.from + interval.rise * interval.s1 < fastest) return;
  const at = (fastest - interval.from) / interval.rise;
  if (at > interval.s0 + SHORTEST && at < interval.s1) interval.s1 = at;
}

/** Ends the step where the schedule is down to the speed that the car is held at, or holds it no longer. */
function staysHeld(car: Journey): void {
  const { interval } = car;
  const above = interval.from + interval.rise * interval.s0 - car.held;
  if (above < -ROUND_OFF * car.held || (interval.rise < 0 && above <= ROUND_OFF * car.held)) car.held = 0;
  else if (interval.rise < 0) interval.s1 = Math.min(interval.s1, interval.s0 - above / interval.rise);
}
