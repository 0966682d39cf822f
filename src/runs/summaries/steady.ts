/** Written by `npm run defaults` from the tables of outputs: do not edit. */
import type { TravelCurrents } from './currents.ts';

/** Figures of a steady; null where there is none, with the reason in `reasons`. */
export type SteadySummary = TravelCurrents & {
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
  /** Speed of the longest range: among the speeds of the curve. In m/s. */
  readonly farthest_speed: number | null;
  /** Longest range: at that speed. In m. */
  readonly farthest: number | null;
};
