/** Written by `npm run defaults` from the tables of outputs: do not edit. */

/** Figures of a sheet; null where there is none, with the reason in `reasons`. */
export type SheetSummary = {
  /** Test mass: kerb mass, driver and load as the car cell says. In kg. */
  readonly test_mass: number | null;
  /** Gross mass: as given. In kg. */
  readonly gross_mass: number | null;
  /** Top speed: where drive and resistance balance, at the charge of the start; ISO 8715 calls it maximum speed. In m/s. */
  readonly top_speed: number | null;
  /** Top speed is set by: what holds the car back there. */
  readonly top_speed_limiter: string | null;
  /** Nearly the top speed lasts: 99 % of it, starting cold; looked at for 1800 s: that long, or longer. In s. */
  readonly top_speed_time: number | null;
  /** 30-minute speed: greatest speed that is held for 1800 s, starting cold. In m/s. */
  readonly thirty_minute_speed: number | null;
  /** 30-minute speed is set by: what ends a hold at a speed a little higher. */
  readonly thirty_minute_speed_limiter: string | null;
  /** Drive unit after it: lumped, of the hotter one. In K. */
  readonly thirty_minute_unit_temperature: number | null;
  /** Pack after it: lumped. In K. */
  readonly thirty_minute_pack_temperature: number | null;
  /** State of charge after it: at the end of the 1800 s. A pure number. */
  readonly thirty_minute_charge: number | null;
  /** 0 to 50 km/h: full pedal from rest. In s. */
  readonly time_to_50_km_h: number | null;
  /** 0 to 50 km/h is set by: what holds the car back for the longest part. */
  readonly time_to_50_km_h_limiter: string | null;
  /** 50 to 80 km/h: full pedal from 50 km/h, no shift down. In s. */
  readonly time_50_to_80_km_h: number | null;
  /** 50 to 80 km/h is set by: what holds the car back for the longest part. */
  readonly time_50_to_80_km_h_limiter: string | null;
  /** 0 to 100 km/h: full pedal from rest. In s. */
  readonly time_to_100_km_h: number | null;
  /** 0 to 100 km/h is set by: what holds the car back for the longest part. */
  readonly time_to_100_km_h_limiter: string | null;
  /** Speed on a 4 % slope: greatest speed that is kept up, at the charge of the start. In m/s. */
  readonly speed_4_percent: number | null;
  /** Speed on 4 % is set by: what holds the car back there. */
  readonly speed_4_percent_limiter: string | null;
  /** Speed on a 12 % slope: greatest speed that is kept up, at the charge of the start. In m/s. */
  readonly speed_12_percent: number | null;
  /** Speed on 12 % is set by: what holds the car back there. */
  readonly speed_12_percent_limiter: string | null;
  /** Steepest start: steepest slope, straight up, that it moves off on from rest. A pure number. */
  readonly start_slope: number | null;
  /** Steepest start is set by: what holds the car back there. */
  readonly start_slope_limiter: string | null;
  /** Steepest start, by the tyres alone: with a drive that has no limit. A pure number. */
  readonly start_slope_grip: number | null;
  /** Steepest start, by the drive alone: with tyres that never slip away. A pure number. */
  readonly start_slope_drive: number | null;
  /** Steepest hold: steepest slope on which the drive alone keeps it from rolling back; for moments only. A pure number. */
  readonly hold_slope: number | null;
  /** Steepest hold is set by: what holds the car back there. */
  readonly hold_slope_limiter: string | null;
  /** Steepest hold, by the tyres alone: with a drive that has no limit. A pure number. */
  readonly hold_slope_grip: number | null;
  /** Steepest hold, by the drive alone: with tyres that never slip away. A pure number. */
  readonly hold_slope_drive: number | null;
  /** Speed on a 4 % slope, gross mass: greatest speed that is kept up, at the charge of the start. In m/s. */
  readonly speed_4_percent_gross: number | null;
  /** Speed on 4 %, gross mass is set by: what holds the car back there. */
  readonly speed_4_percent_gross_limiter: string | null;
  /** Speed on a 12 % slope, gross mass: greatest speed that is kept up, at the charge of the start. In m/s. */
  readonly speed_12_percent_gross: number | null;
  /** Speed on 12 %, gross mass is set by: what holds the car back there. */
  readonly speed_12_percent_gross_limiter: string | null;
  /** Steepest start, gross mass: steepest slope, straight up, that it moves off on from rest. A pure number. */
  readonly start_slope_gross: number | null;
  /** Steepest start, gross mass is set by: what holds the car back there. */
  readonly start_slope_gross_limiter: string | null;
  /** Steepest start, gross mass, by the tyres alone: with a drive that has no limit. A pure number. */
  readonly start_slope_gross_grip: number | null;
  /** Steepest start, gross mass, by the drive alone: with tyres that never slip away. A pure number. */
  readonly start_slope_gross_drive: number | null;
  /** Steepest hold, gross mass: steepest slope on which the drive alone keeps it from rolling back; for moments only. A pure number. */
  readonly hold_slope_gross: number | null;
  /** Steepest hold, gross mass is set by: what holds the car back there. */
  readonly hold_slope_gross_limiter: string | null;
  /** Steepest hold, gross mass, by the tyres alone: with a drive that has no limit. A pure number. */
  readonly hold_slope_gross_grip: number | null;
  /** Steepest hold, gross mass, by the drive alone: with tyres that never slip away. A pure number. */
  readonly hold_slope_gross_drive: number | null;
};
