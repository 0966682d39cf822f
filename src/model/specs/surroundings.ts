/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** Where and when. SI units throughout. */
export type SurroundingsSpec = {
  /** Of the air. In K, 223.15 to 333.15. Default 293.15: the temperature that SAE J2452 and ISO 28580 work around (20 to 28 °C). */
  readonly temperature?: number;
  /** Above sea level. In m, -450 to 6000. Default 0: sea level. */
  readonly altitude?: number;
  /** Relative humidity. A pure number, 0 to 1. Default 0.5: common practice, no source. */
  readonly humidity?: number;
  /** Along the road, positive from the front. In m/s, -40 to 40. Default 0: no wind. */
  readonly wind?: number;
  /** Rise over run of the road. A pure number, -0.6 to 0.6. Default 0: level road. */
  readonly slope?: number;
  /** Of the road; snow is packed hard, ice is smooth. Default dry: a dry road. */
  readonly surface?: 'dry' | 'wet' | 'snow' | 'ice';
};
