/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** What a drive takes back when the car slows down. SI units throughout. */
export type RegenerationSpec = {
  /** Blended: the brake pedal asks the drive first; lift: only what lifting the foot gives, friction does the rest; none. Default blended: the brake pedal of cars built as electric ones. */
  readonly kind?: 'blended' | 'lift' | 'none';
  /** Share of the braking at the wheels beyond coasting that the drive is asked for. A pure number, 0 to 1. Default 0.85 (0.6 to 1): conversions: friction of the other axle and of hard stops; cars built as electric ones 0.95; common practice, no source. */
  readonly share?: number;
  /** Greatest braking torque at the motor shaft. In N m, 0 to 20000. Default by rule: 0.6 of the peak torque; lift: 0.25 of it (common practice, no source). */
  readonly torque?: number;
  /** Greatest braking power at the motor shaft. In W, 0 to 3000000. Default by rule: 0.5 of the peak power (common practice, no source). */
  readonly power?: number;
  /** Speed below which it fades out. In m/s, 0 to 20. Default 3.333333 (2.222222 to 4.444444): common practice, no source. */
  readonly fadeFrom?: number;
  /** Speed at which nothing is left. In m/s, 0 to 20. Default 1.388889 (0.5555556 to 2.222222): common practice, no source. */
  readonly fadeTo?: number;
  /** Share of the grip of the driven axle that it may use. A pure number, 0 to 1. Default 0.5 (0.3 to 0.7): so that the axle stays stable on a wet bend; common practice, no source. */
  readonly gripShare?: number;
};
