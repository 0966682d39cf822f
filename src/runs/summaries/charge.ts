/** Written by `npm run defaults` from the tables of outputs: do not edit. */

/** Figures of a charge; null where there is none, with the reason in `reasons`. */
export type ChargeSummary = {
  /** Charged from: state of charge at the start. A pure number. */
  readonly from: number | null;
  /** Charged to: state of charge that is wished for. A pure number. */
  readonly to: number | null;
  /** Time to charge: from plugging in until the state of charge that is wished for, or the end at C/20 less than 1 % below it. In s. */
  readonly time: number | null;
  /** Taper begins after: when the pack gets to its highest voltage, from where on the current falls. In s. */
  readonly taper_time: number | null;
  /** Charging ends after: wished for or not: it also ends when the current has fallen to C/20 at the highest voltage. In s. */
  readonly end_time: number | null;
  /** State of charge at the end: when charging ends. A pure number. */
  readonly charge_end: number | null;
  /** Paced by: what holds the charge back for the longest time. */
  readonly paced_by: string | null;
  /** Energy from the wall: what the meter counts. In J. */
  readonly energy_wall: number | null;
  /** Energy into the pack: at its terminals. In J. */
  readonly energy_pack: number | null;
  /** Energy stored: in the cells, at their open-circuit voltage. In J. */
  readonly energy_stored: number | null;
  /** Efficiency: energy stored over energy from the wall. A pure number. */
  readonly efficiency: number | null;
  /** Mean power: from the wall. In W. */
  readonly mean_power: number | null;
  /** Highest power: from the wall. In W. */
  readonly peak_power: number | null;
  /** Phases used: that chargers are on. A pure number. */
  readonly phases: number | null;
  /** Highest current in a phase: from the wall. In A. */
  readonly peak_phase_current: number | null;
  /** Highest charge current: into the pack. In A. */
  readonly peak_charge_current: number | null;
  /** R.m.s. of the pack current: of the whole run, both ways: what warms cables and fuses. In A. */
  readonly current_rms: number | null;
  /** Current into the pack over 1 s: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly charge_current_1_s: number | null;
  /** Current into the pack over 10 s: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly charge_current_10_s: number | null;
  /** Current into the pack over 60 s: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly charge_current_60_s: number | null;
  /** Current into the pack over 30 min: root mean square of the worst stretch of that length; a shorter run has nothing before and after it. In A. */
  readonly charge_current_1800_s: number | null;
  /** Highest pack voltage: at its terminals while charging. In V. */
  readonly peak_pack_voltage: number | null;
  /** Warmest pack: lumped, while charging. In K. */
  readonly pack_temperature: number | null;
  /** Range gained: at the consumption given. In m. */
  readonly range_gained: number | null;
  /** Range per hour: range gained over the time at the charger. In m/s. */
  readonly range_per_hour: number | null;
  /** Cost: energy from the wall at the price given, in the money of the price. A pure number. */
  readonly cost: number | null;
};
