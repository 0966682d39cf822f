/** Schedules one after the other, with stops, loads and hills: what a day or a week asks of a car. */
import type { Schedule } from './schedule.ts';

/** A schedule that is driven. */
export interface Leg {
  readonly kind: 'leg';
  readonly schedule: Schedule;
  /** kg of passengers and luggage; null: what the car says. */
  readonly load: number | null;
}

/** The car stands, switched off, and takes the temperature of the air in time. */
export interface Stop {
  readonly kind: 'stop';
  /** s. */
  readonly seconds: number;
}

export interface Trip {
  readonly title: string;
  /** In the order of driving; at least one leg. */
  readonly parts: readonly (Leg | Stop)[];
}
