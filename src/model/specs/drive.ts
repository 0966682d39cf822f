/** Written by `npm run defaults` from the tables of fields: do not edit. */
import type { GearboxSpec } from './gearbox.ts';
import type { RegenerationSpec } from './regeneration.ts';
import type { UnitSpec } from './unit.ts';

/** From the motor to one driven axle, or to both. SI units throughout. */
export type DriveSpec = {
  /** The axle it drives. */
  readonly axle: 'front' | 'rear' | 'both';
  /** For both: share of the wheel torque that goes to the front. A pure number, 0.05 to 0.95. Default 0.5: an open or lockable centre differential. */
  readonly frontTorqueShare?: number;
  /** Motor and inverter. */
  readonly unit: UnitSpec | 'unit_60kw' | 'unit_100kw' | 'unit_150kw' | 'unit_200kw';
  /** Turns of the motor (or gearbox output) for one turn of the wheel. A pure number, 0.2 to 100. */
  readonly ratio: number;
  /** A gearbox that was kept, before that ratio. */
  readonly gearbox?: GearboxSpec;
  /** Share of the torque that the gears pass on; an old hypoid axle 0.95 to 0.97. A pure number, 0.5 to 1. Default 0.975 (0.965 to 0.985): two helical meshes of 0.5 to 1 % each and the differential; what turns without load is in drag_torque (from memory). */
  readonly efficiency?: number;
  /** Lost to oil, seals and bearings at any load, at the motor shaft, in air of 20 °C. In N m, 0 to 50. Default 0.5 (0.2 to 1): a single reduction in warm oil, 0.3 kW at 5000 rpm; common practice, no source. */
  readonly dragTorque?: number;
  /** By how much drag_torque grows for each kelvin below 20 °C, as an exponential. In 1/K, 0 to 0.1. Default 0.02 (0.01 to 0.03): SAE 80W-90 is ten times as thick at -10 °C as at 20 °C (from memory), and churning goes with about its fourth root; common practice, no source. */
  readonly coldOil?: number;
  /** Of gears and shafts, referred to the wheel. In kg m^2, 0 to 10. Default 0.1: common practice, no source. */
  readonly inertia?: number;
  /** Limit of both half shafts of the axle together: twice what one bears. In N m, 10 to 100000. Default by rule: no limit is modelled. */
  readonly shaftTorque?: number;
  /** Of the driven axle; live: rigid, its gears turned by a propeller shaft, whose torque unloads one wheel. Default independent: and for a motor that sits on the axle: there is no propeller shaft. */
  readonly suspension?: 'independent' | 'live';
  /** For a live axle; open: both wheels pull what the lighter one can; locking: limited slip, or locked. Default open: what ordinary cars have. */
  readonly differential?: 'open' | 'locking';
  /** For a live axle: turns of the propeller shaft for one turn of the wheel. A pure number, 0.2 to 20. Left out, it is ratio. */
  readonly axleRatio?: number;
  /** What it takes back when slowing down. */
  readonly regeneration?: RegenerationSpec;
  /** Held: slip kept at the peak of friction; share: force kept at a share of it; spin: no traction control. Default held: the best that the tyres allow. */
  readonly traction?: 'held' | 'share' | 'spin';
  /** For share: share of the peak friction that is used. A pure number, 0.05 to 1. Default 1: the whole of the peak. */
  readonly tractionShare?: number;
};
