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
  /** A supply on the wall that it hangs on. */
  readonly plug?: Plug;
}

/** A supply, and how far the car is charged at it. */
export interface Plug {
  /** V from phase to neutral, A of each phase, phases. */
  readonly supply: {
    readonly voltage: number;
    readonly current: number;
    readonly phases: number;
    /** Of direct current in place of all that: W, A, and V at the pack between which it charges. */
    readonly station?: {
      readonly power: number;
      readonly current: number;
      readonly least: number;
      readonly greatest: number;
    };
  };
  /** State of charge, 0 to 1; null: to the high end of the window of the pack. */
  readonly to: number | null;
  /** It stands for as long as that takes, however long the stop is. */
  readonly waits: boolean;
}

export interface Trip {
  readonly title: string;
  /** In the order of driving; at least one leg. */
  readonly parts: readonly (Leg | Stop)[];
}
