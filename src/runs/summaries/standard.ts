/** Written by `npm run defaults` from the tables of outputs: do not edit. */

/** Figures of a standard; null where there is none, with the reason in `reasons`. */
export type StandardSummary = {
  /** Test: what is driven, over and over until the pack is empty. */
  readonly test: string | null;
  /** Range: as tested; of city and highway the mean by 55 to 45. In m. */
  readonly range: number | null;
  /** Consumption at the wall: energy that charging takes from the wall, as tested; of city and highway the mean by 55 to 45. In J/m. */
  readonly consumption_wall: number | null;
  /** Consumption at the pack: energy out of the terminals, weighted as for the range. In J/m. */
  readonly consumption: number | null;
  /** Mpg equivalent: at the wall, as tested; 33.705 kWh for a US gallon of petrol (fueleconomy.gov). A pure number. */
  readonly mpg_equivalent: number | null;
  /** City range: of the four UDDS of the multi-cycle test, or of a test on the UDDS. In m. */
  readonly range_city: number | null;
  /** Highway range: of the two HWFET of the multi-cycle test, or of a test on the HWFET. In m. */
  readonly range_highway: number | null;
  /** City consumption at the wall: of the four UDDS of the multi-cycle test, or of a test on the UDDS. In J/m. */
  readonly consumption_city: number | null;
  /** Highway consumption at the wall: of the two HWFET of the multi-cycle test, or of a test on the HWFET. In J/m. */
  readonly consumption_highway: number | null;
  /** Range on a window sticker: range times 0.7, the adjustment for US labels. In m. */
  readonly sticker_range: number | null;
  /** Consumption on a window sticker: at the wall, over 0.7. In J/m. */
  readonly sticker_consumption: number | null;
  /** Mpg equivalent on a window sticker: times 0.7. A pure number. */
  readonly sticker_mpg: number | null;
  /** Usable energy: out of the terminals of the pack over the whole test. In J. */
  readonly usable_energy: number | null;
  /** Energy to charge it again: from the wall, by the chargers on board. In J. */
  readonly wall_energy: number | null;
  /** Distance driven: over the whole test. In m. */
  readonly distance: number | null;
  /** Whole cycles: that were driven to their end. A pure number. */
  readonly cycles: number | null;
  /** Weight of the first cycle: its share of the usable energy; the others share the rest evenly. A pure number. */
  readonly first_share: number | null;
  /** Share of steady driving: of the distance, at 65 mph, in the multi-cycle test. A pure number. */
  readonly steady_share: number | null;
  /** Time too slow: more than 2 km/h below the schedule within 1 s (UN GTR No. 15). In s. */
  readonly time_too_slow: number | null;
};
