/**
 * How much work the model has done in this thread: what a run costs, the same on every machine and under every load. A unit is a tenth of
 * a microsecond of a quiet machine of today, more or less.
 */
export const effort = { spent: 0 };

/** A call of the rates of a car at full pedal, with its share of the solver; one of an axle that is asked for a force; a step of the pack. */
export const EFFORT = { rates: 4, axle: 1, pack: 2 } as const;
