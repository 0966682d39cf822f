/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** A tyre, for both wheels of an axle. SI units throughout. */
export type TyreSpec = {
  /** Size code on the sidewall, such as "165/80 R 13"; gives the radius, and by itself no grip. */
  readonly size?: string;
  /** Effective rolling radius. In m, 0.1 to 0.8. Left out, it is from the size: rolling circumference 3.05 times the free diameter (ETRTO rule, from memory). */
  readonly radius?: number;
  /** Rolling resistance coefficient c0 at walking pace and 25 °C. A pure number, 0 to 0.1. Default 0.0096 (0.0075 to 0.0117): class E of Regulation (EC) 1222/2009 Annex I Part A (9.1 to 10.5 kg/t), less the rise up to the 80 km/h of the label. */
  readonly rollingResistance?: number;
  /** C1 in c0 + c1 v + c2 v^2. In s/m, 0 to 0.01. Default 0: radial-ply tyres rise with the square alone, Wong, Theory of Ground Vehicles (from memory). */
  readonly rollingLinear?: number;
  /** C2 in c0 + c1 v + c2 v^2. In s^2/m^2, 0 to 0.001. Default 5.184e-7: radial-ply car tyres 0.40e-7 V^2, V in km/h, Wong, Theory of Ground Vehicles (from memory). */
  readonly rollingQuadratic?: number;
  /** Peak friction on a dry road at the reference load. A pure number, 0.05 to 3. Default 0.95 (0.85 to 1.05): between new and worn tyres at 50 and 90 km/h, Bosch Automotive Handbook. */
  readonly dryPeak?: number;
  /** Friction of the sliding tyre on a dry road, beside its peak. A pure number, 0.02 to 3. Left out, it is dry_slide_share of the peak. */
  readonly drySlide?: number;
  /** The same as a share of the peak. A pure number, 0.2 to 0.995. Default 0.87 (0.79 to 0.95): asphalt and concrete, dry and wet: 0.83 to 0.94, Wong, Theory of Ground Vehicles (from memory). */
  readonly drySlideShare?: number;
  /** Peak friction on a wet road at the reference load. A pure number, 0.03 to 3. Default by rule: 0.68 of the dry peak, 0.6 to 0.76 (Bosch Automotive Handbook: 0.65 against 0.85 to 1 at 50 km/h, new and worn). */
  readonly wetPeak?: number;
  /** Friction of the sliding tyre on a wet road, beside its peak. A pure number, 0.02 to 3. Left out, it is wet_slide_share of the wet peak. */
  readonly wetSlide?: number;
  /** The same as a share of the wet peak. A pure number, 0.2 to 0.995. Default 0.87 (0.79 to 0.95): asphalt and concrete, dry and wet: 0.83 to 0.94, Wong, Theory of Ground Vehicles (from memory). */
  readonly wetSlideShare?: number;
  /** Peak friction on hard-packed snow at the reference load. A pure number, 0.02 to 2. Default 0.2 (0.13 to 0.27): Wong, Theory of Ground Vehicles, average values of the coefficient of road adhesion (from memory); a winter tyre 0.3 and more, common practice. */
  readonly snowPeak?: number;
  /** Friction of the sliding tyre on snow, as a share of that peak. A pure number, 0.2 to 0.995. Default 0.75 (0.65 to 0.85): 0.15 against 0.2, Wong, Theory of Ground Vehicles, average values of the coefficient of road adhesion (from memory). */
  readonly snowSlideShare?: number;
  /** Peak friction on smooth ice at the reference load. A pure number, 0.01 to 1. Default 0.1 (0.05 to 0.15): Wong, Theory of Ground Vehicles, average values of the coefficient of road adhesion (from memory). */
  readonly icePeak?: number;
  /** Friction of the sliding tyre on ice, as a share of that peak. A pure number, 0.2 to 0.995. Default 0.7 (0.6 to 0.8): 0.07 against 0.1, Wong, Theory of Ground Vehicles, average values of the coefficient of road adhesion (from memory). */
  readonly iceSlideShare?: number;
  /** In the tyre, cold. In Pa, 80000 to 600000. Default by rule: reference_pressure, 0.9 to 1.1 of it: as tyres are found on the road (common practice, no source). */
  readonly pressure?: number;
  /** At which the rolling resistance is stated. In Pa, 80000 to 600000. Default 210000: ISO 28580: 210 kPa for car tyres of standard load, 250 kPa for extra load (from memory). */
  readonly referencePressure?: number;
  /** A in (p/p0)^-a, by which rolling resistance falls as the pressure rises. A pure number, 0 to 1. Default 0.4 (0.3 to 0.5): the exponent of pressure in SAE J2452, car tyres -0.3 to -0.5 (from memory). */
  readonly pressureExponent?: number;
  /** By which the rolling resistance of a tyre that has stood for long is higher than that of a warm one. A pure number, 0 to 1. Default 0.2 (0.1 to 0.3): a tyre gets some 25 K warmer than the air, 12 to 38 K (common practice, no source), at 0.8 % per kelvin (ISO 28580, from memory). */
  readonly coldRise?: number;
  /** Driving after which a tyre is warm. In s, 1 to 36000. Default 1800 (1200 to 2700): ISO 28580 has car tyres run for 30 min before it measures (from memory); the spread is common practice. */
  readonly warmAfter?: number;
  /** Standing after which a tyre is cold. In s, 1 to 360000. Default 10800 (7200 to 14400): tyres count as cold, for their pressure, after 3 h of standing: common practice, no source. */
  readonly coldAfter?: number;
  /** Longitudinal slip at the peak; 0 takes the tyre as rigid. A pure number, 0 to 0.6. Default 0.12 (0.08 to 0.2): usual range on hard roads, Wong, Theory of Ground Vehicles (from memory). */
  readonly slipAtPeak?: number;
  /** Q in mu = mu0 (N/N0)^-q: friction falls as the load grows. A pure number, 0 to 0.5. Default 0.1 (0.05 to 0.15): common practice, no source. */
  readonly loadExponent?: number;
  /** Load of the axle N0 at which the friction is stated. In N, 100 to 50000. Default by rule: three quarters of what two such tyres carry by the load index in their size, as in the grip test of UN Regulation No. 117; without an index as if one carried 500 kg at a radius of 0.29 m, with its cube, ± 12 % (ETRTO sizes; all from memory). */
  readonly loadReference?: number;
  /** Of one wheel with tyre, disc or drum, and hub. In kg m^2, 0 to 10. Default by rule: 0.9 kg m^2 at 0.30 m radius, with the fourth power of the radius (common practice, no source). */
  readonly inertia?: number;
};
