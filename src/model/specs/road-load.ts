/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** A road load from a coast-down. SI units throughout. */
export type RoadLoadSpec = {
  /** F0 in F0 + F1 v + F2 v^2. In N, 0 to 5000. */
  readonly f0: number;
  /** F1. In N s/m, -50 to 200. */
  readonly f1: number;
  /** F2. In N s^2/m^2, 0 to 10. */
  readonly f2: number;
  /** Of the car when it was measured, people included. In kg, 50 to 40000. Left out, it is the mass of car, driver and load. */
  readonly testMass?: number;
  /** Of the air to which the figures are corrected. In K, 253.15 to 323.15. Default 293.15: UN GTR 15 and SAE J1263 correct to 20 °C (from memory). */
  readonly temperature?: number;
  /** Of that air, which is dry. In Pa, 80000 to 110000. Default 100000 (98210 to 101325): UN GTR 15: 100 kPa; SAE J1263 and J2263: 98.21 kPa; sea level: 101.325 kPa (from memory). */
  readonly pressure?: number;
  /** Whether motor and gears turned along: then drag_torque, windage_loss and iron_loss of the drive are in the measured figures and are not counted again; no: out of gear, or measured before the conversion. Default yes: a drive of one ratio has no neutral. */
  readonly coupled?: 'yes' | 'no';
  /** For coupled: share of the iron loss that the figures contain. A pure number, 0 to 1. Default 1 (0.6 to 1): magnets turn along; an induction motor without flux has no iron loss; common practice, no source. */
  readonly contained?: number;
};
