/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** A gearbox that was kept. SI units throughout. */
export type GearboxSpec = {
  /** Ratios of the gears, the first first. A pure number, 0.2 to 20. */
  readonly gears: readonly number[];
  /** Of each gear. A pure number, 0.5 to 1. Default 0.975 (0.96 to 0.985): spur gear stages 0.97 to 0.98 (from memory). */
  readonly efficiency?: number;
  /** Of its turning parts, referred to the wheel. In kg m^2, 0 to 10. Default 0.05: common practice, no source. */
  readonly inertia?: number;
  /** Best: for the least time to the target speed, the break of each change counted; speed: at shift_speed; none: it stays in `gear`. Default best: the quickest way. */
  readonly shift?: 'best' | 'speed' | 'none';
  /** Motor speed at which the next gear is taken. In rad/s, 10.47198 to 4188.79. Default by rule: 0.95 of the greatest motor speed (common practice, no source). */
  readonly shiftSpeed?: number;
  /** Without torque while a gear is changed. In s, 0 to 5. Default 0.5 (0.3 to 1): common practice, no source: 0.3 s with a practised clutch, 1 s without one. */
  readonly shiftTime?: number;
  /** For shift: none, the gear it is left in. A pure number, 1 to 6. Default 1: the first gear. */
  readonly gear?: number;
};
