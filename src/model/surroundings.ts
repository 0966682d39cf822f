/** The day and the road. */

/** What the road is covered with. */
export type Surface = 'dry' | 'wet' | 'snow' | 'ice';

/** Where and when the car is driven. */
export interface Surroundings {
  /** K. */
  readonly temperature: number;
  /** m above sea level. */
  readonly altitude: number;
  /** Relative humidity, 0 to 1. */
  readonly humidity: number;
  /** m/s along the road, positive from the front. */
  readonly wind: number;
  /** Rise over run. */
  readonly slope: number;
  readonly surface: Surface;
  /** K of pack and drive units at the start; left out, that of the air. */
  readonly soaked?: number;
}
