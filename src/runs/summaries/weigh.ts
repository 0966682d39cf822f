/** Written by `npm run defaults` from the tables of outputs: do not edit. */

/** Figures of a weigh; null where there is none, with the reason in `reasons`. */
export type WeighSummary = {
  /** Kerb mass: the car as it is now, nobody in it. In kg. */
  readonly kerb_mass: number | null;
  /** Change of the kerb mass: against before; below zero it has become lighter. In kg. */
  readonly mass_change: number | null;
  /** Kerb mass before: sum of the scales. In kg. */
  readonly kerb_mass_before: number | null;
  /** Mass with the driver: kerb mass and driver. In kg. */
  readonly driven_mass: number | null;
  /** Mass fully loaded: kerb mass, driver, passengers and luggage, and what of a trailer rests on the hitch. In kg. */
  readonly full_mass: number | null;
  /** Front share, with the driver: as a car cell takes it. A pure number. */
  readonly front_share: number | null;
  /** Centre of gravity behind the front axle, with the driver: along the car. In m. */
  readonly cg_x: number | null;
  /** Centre of gravity above the road, with the driver: as a car cell takes it. In m. */
  readonly cg_height: number | null;
  /** Front axle, with the driver: load on both front wheels. In kg. */
  readonly front: number | null;
  /** Rear axle, with the driver: load on both rear wheels. In kg. */
  readonly rear: number | null;
  /** Wheelbase: as given. In m. */
  readonly wheelbase: number | null;
  /** Front axle, empty, before: load on both front wheels. In kg. */
  readonly before_front: number | null;
  /** Rear axle, empty, before: load on both rear wheels. In kg. */
  readonly before_rear: number | null;
  /** Front share, empty, before: part of the mass on the front axle. A pure number. */
  readonly before_front_share: number | null;
  /** Centre of gravity behind the front axle, empty, before: along the car. In m. */
  readonly before_cg_x: number | null;
  /** Centre of gravity above the road, empty, before: rests on the height given or assumed for before. In m. */
  readonly before_cg_height: number | null;
  /** Front axle, empty, now: load on both front wheels. In kg. */
  readonly kerb_front: number | null;
  /** Rear axle, empty, now: load on both rear wheels. In kg. */
  readonly kerb_rear: number | null;
  /** Front share, empty, now: part of the mass on the front axle. A pure number. */
  readonly kerb_front_share: number | null;
  /** Centre of gravity behind the front axle, empty, now: along the car. In m. */
  readonly kerb_cg_x: number | null;
  /** Centre of gravity above the road, empty, now: rests on the height given or assumed for before. In m. */
  readonly kerb_cg_height: number | null;
  /** Front axle, fully loaded: load on both front wheels. In kg. */
  readonly full_front: number | null;
  /** Rear axle, fully loaded: load on both rear wheels. In kg. */
  readonly full_rear: number | null;
  /** Front share, fully loaded: part of the mass on the front axle. A pure number. */
  readonly full_front_share: number | null;
  /** Centre of gravity behind the front axle, fully loaded: along the car. In m. */
  readonly full_cg_x: number | null;
  /** Centre of gravity above the road, fully loaded: rests on the height given or assumed for before. In m. */
  readonly full_cg_height: number | null;
  /** Change of the front share, empty: against before; below zero the nose has become lighter. A pure number. */
  readonly front_share_change: number | null;
  /** Payload: permitted gross mass less the kerb mass: for driver, passengers and luggage. In kg. */
  readonly payload: number | null;
  /** Left to the permitted gross mass: what may still be added, the car fully loaded; below zero it is too much. In kg. */
  readonly gross_margin: number | null;
  /** Mass of car and trailer: fully loaded; what rests on the hitch counts once. In kg. */
  readonly train_mass: number | null;
  /** Left to the permitted mass of car and trailer: what may still be added, the car fully loaded; below zero it is too much. In kg. */
  readonly train_margin: number | null;
  /** Left to what may rest on the hitch: what may still be added, the car fully loaded; below zero it is too much. In kg. */
  readonly hitch_margin: number | null;
  /** Left to the permitted front axle load: what may still be added, the car fully loaded; below zero it is too much. In kg. */
  readonly front_margin: number | null;
  /** Left to the permitted rear axle load: what may still be added, the car fully loaded; below zero it is too much. In kg. */
  readonly rear_margin: number | null;
  /** Left to what the front tyres carry: what may still be added, the car fully loaded; below zero it is too much; both tyres together. In kg. */
  readonly front_tyre_margin: number | null;
  /** Left to what the rear tyres carry: what may still be added, the car fully loaded; below zero it is too much; both tyres together. In kg. */
  readonly rear_tyre_margin: number | null;
  /** The tyres may run: by the speed symbol; the slower of the two axles. In m/s. */
  readonly tyre_speed: number | null;
  /** The thing to be moved: the one that the cell names. */
  readonly move: string | null;
  /** It must move by: backwards; below zero forwards, for the front share that is to be kept. In m. */
  readonly move_by: number | null;
  /** Its place then: behind the front axle. In m. */
  readonly move_to: number | null;
};
