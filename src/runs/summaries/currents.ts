/** Written by `npm run defaults` from the tables of outputs: do not edit. */

/** What flows and what turns, as several runs tell it. */
export type LaunchCurrents = {
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
  /** Torque in a half shaft: the greatest, driving; an open differential gives each half of the axle. In N m. */
  readonly half_shaft_torque: number | null;
};

/** What flows and what turns, as several runs tell it. */
export type TravelCurrents = LaunchCurrents & {
  /** Current into the pack over 1 s: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly charge_current_1_s: number | null;
  /** Current into the pack over 10 s: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly charge_current_10_s: number | null;
  /** Current into the pack over 60 s: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly charge_current_60_s: number | null;
  /** Current into the pack over 30 min: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly charge_current_1800_s: number | null;
  /** Torque in a half shaft, braking: the greatest against the motion, by the drive. In N m. */
  readonly half_shaft_torque_back: number | null;
};
