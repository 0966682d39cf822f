/** Written by `npm run defaults` from the tables of outputs: do not edit. */

/** Figures of a steady; null where there is none, with the reason in `reasons`. */
export type SteadySummary = {
  /** Speed: that is asked about. In m/s. */
  readonly speed: number | null;
  /** Air: temperature of the air. In K. */
  readonly air_temperature: number | null;
  /** Range: at that speed until the car stops giving power. In m. */
  readonly range: number | null;
  /** Time: until then. In s. */
  readonly time: number | null;
  /** Consumption at the pack: energy out of the terminals of the pack over distance. In J/m. */
  readonly consumption: number | null;
  /** Consumption at the wall: energy that charging takes from the wall over distance. In J/m. */
  readonly consumption_wall: number | null;
  /** Mean pack power: at the terminals. In W. */
  readonly power: number | null;
  /** R.m.s. of the pack current: of the whole run, both ways: what warms cables and fuses. In A. */
  readonly current_rms: number | null;
  /** Current out of the pack over 1 s: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly current_1_s: number | null;
  /** Current out of the pack over 10 s: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly current_10_s: number | null;
  /** Current out of the pack over 60 s: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly current_60_s: number | null;
  /** Current out of the pack over 30 min: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly current_1800_s: number | null;
  /** Current into the pack over 1 s: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly charge_current_1_s: number | null;
  /** Current into the pack over 10 s: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly charge_current_10_s: number | null;
  /** Current into the pack over 60 s: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly charge_current_60_s: number | null;
  /** Current into the pack over 30 min: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly charge_current_1800_s: number | null;
  /** Torque in a half shaft: the greatest, driving; an open differential gives each half of the axle. In N m. */
  readonly half_shaft_torque: number | null;
  /** Torque in a half shaft, braking: the greatest against the motion, by the drive. In N m. */
  readonly half_shaft_torque_back: number | null;
  /** Speed of the longest range: among the speeds of the curve. In m/s. */
  readonly farthest_speed: number | null;
  /** Longest range: at that speed. In m. */
  readonly farthest: number | null;
};
