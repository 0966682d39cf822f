/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** A trailer. SI units throughout. */
export type TrailerSpec = {
  /** Of the trailer with what is on it. In kg, 10 to 10000. */
  readonly mass: number;
  /** Of it that rests on the hitch, on a level road. In kg, 0 to 1000. Default by rule: 6 % of its mass, 4 to 8 % (makers of trailers ask for 4 % and more; common practice, no source). */
  readonly hitchLoad?: number;
  /** Height of the hitch above the road. In m, 0.1 to 1.2. Default 0.385 (0.35 to 0.42): ISO 1103: centre of the ball 350 to 420 mm, the car loaded (from memory). */
  readonly hitchHeight?: number;
  /** From the rear axle back to the hitch. In m, 0 to 3. Default 0.85 (0.7 to 1): common practice, no source. */
  readonly overhang?: number;
  /** Drag coefficient times frontal area that it adds behind the car. In m^2, 0 to 15. Default 0.5 (0.3 to 0.7): a low open trailer; a caravan 1.5 to 2.5; common practice, no source. */
  readonly dragArea?: number;
  /** Rolling resistance coefficient of its wheels at 25 °C, hubs included. A pure number, 0 to 0.1. Default 0.015 (0.012 to 0.018): small wheels with greased hubs; common practice, no source. */
  readonly rollingResistance?: number;
};
