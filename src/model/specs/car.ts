/** Written by `npm run defaults` from the tables of fields: do not edit. */
import type { AuxiliariesSpec } from './auxiliaries.ts';
import type { CabinSpec } from './cabin.ts';
import type { ChargerSpec } from './charger.ts';
import type { DriveSpec } from './drive.ts';
import type { PackSpec } from './pack.ts';
import type { RoadLoadSpec } from './road-load.ts';
import type { TrailerSpec } from './trailer.ts';
import type { TyreSpec } from './tyre.ts';

type Said = {
  /** The finished car on the scales, without people and luggage. In kg, 50 to 20000. */
  readonly mass: number;
  /** The driver. In kg, 0 to 300. Default 75: Directive 92/21/EEC (from memory). */
  readonly driver?: number;
  /** Passengers and luggage. In kg, 0 to 10000. Default 0: driver alone. */
  readonly load?: number;
  /** Share of the weight on the front axle, driver and load included. A pure number, 0.05 to 0.95. Default by rule: front drive 0.58, rear drive 0.48, both 0.50, ± 0.03 as a standard uncertainty (common practice, no source). */
  readonly frontShare?: number;
  /** Distance between the axles. In m, 1 to 6. Default 2.5 (2.3 to 2.75): common practice, no source. */
  readonly wheelbase?: number;
  /** Height of the centre of gravity. In m, 0.1 to 2. Default 0.55 (0.5 to 0.6): passenger cars 0.5 to 0.6 m, Gillespie (from memory). */
  readonly cgHeight?: number;
  /** Drag coefficient times frontal area. In m^2, 0 to 10. Left out, it is drag coefficient times frontal area. */
  readonly dragArea?: number;
  /** Drag coefficient, where the drag area is not given. A pure number, 0.1 to 2. Default 0.36 (0.28 to 0.45): common practice, no source. */
  readonly dragCoefficient?: number;
  /** Frontal area, where the drag area is not given. In m^2, 0.5 to 10. Default by rule: 0.81 of width times height when both are given (common practice, no source), else 2.0 m^2, 1.8 to 2.2. */
  readonly frontalArea?: number;
  /** Width without mirrors. In m, 0.8 to 3. Default by rule: not needed when the area is given. */
  readonly width?: number;
  /** Height. In m, 0.8 to 4. Default by rule: not needed when the area is given. */
  readonly height?: number;
  /** Drag of the wheel bearings and of brakes that rub, all wheels together. In N, 0 to 1000. Default 25 (10 to 40): brake pads and bearings 0.8 to 3 N m a wheel; a figure of a tyre is without them; common practice, no source. */
  readonly hubDrag?: number;
  /** With a live axle: distance between its wheels. In m, 0.8 to 2.5. Default 1.32 (1.22 to 1.42): cars of the 1960s to 1980s 1.2 to 1.45 m; common practice, no source. */
  readonly track?: number;
  /** With a live axle: share of the roll stiffness that is at the front. A pure number, 0 to 1. Default 0.6 (0.5 to 0.7): rear-driven cars roll more stiffly at the front; common practice, no source. */
  readonly frontRollShare?: number;
  /** Height at which drag acts. In m, 0 to 2. Left out, it is the height of the centre of gravity. */
  readonly dragHeight?: number;
  /** Lift coefficient times frontal area at the front. In m^2, -3 to 3. Default 0: common practice, no source. */
  readonly liftAreaFront?: number;
  /** Lift coefficient times frontal area at the rear. In m^2, -3 to 3. Default 0: common practice, no source. */
  readonly liftAreaRear?: number;
  /** Drive unit, gears and the driven axle. */
  readonly drive: DriveSpec;
  /** The drive of the other axle, where it has its own. */
  readonly secondDrive?: DriveSpec;
  /** With two drives: fixed share of the wheel torque at the front. A pure number, 0.05 to 0.95. Default by rule: each axle takes what it can. */
  readonly frontTorqueShare?: number;
  /** The traction battery. */
  readonly pack:
    | PackSpec
    | 'pack_nmc_96s1p_60ah'
    | 'pack_nmc_96s1p_60ah_module'
    | 'pack_nmc_96s2p_60ah'
    | 'pack_pouch_96s2p_27ah'
    | 'pack_nca_96s20p_18650'
    | 'pack_lfp_104s1p_100ah';
  /** What the 12 V side takes. */
  readonly auxiliaries?: AuxiliariesSpec;
  /** Heating and cooling. */
  readonly cabin?: CabinSpec | 'cabin_single_glazed' | 'cabin_lined';
  /** The charger on board. */
  readonly charger?: ChargerSpec;
  /** A trailer behind it; its brakes are left aside. */
  readonly trailer?: TrailerSpec;
  /** From a coast-down: takes the place of rolling resistance and drag. */
  readonly roadLoad?: RoadLoadSpec;
};

type OneSet = {
  /** The tyres of both axles. */
  readonly tyres: TyreSpec | 'tyre_economy' | 'tyre_touring' | 'tyre_sport' | 'tyre_narrow' | 'tyre_cross_ply';
  /** The tyres of the front axle, where they differ. */
  readonly frontTyres?: TyreSpec | 'tyre_economy' | 'tyre_touring' | 'tyre_sport' | 'tyre_narrow' | 'tyre_cross_ply';
  /** The tyres of the rear axle, where they differ. */
  readonly rearTyres?: TyreSpec | 'tyre_economy' | 'tyre_touring' | 'tyre_sport' | 'tyre_narrow' | 'tyre_cross_ply';
};

type TwoSets = {
  /** The tyres of both axles. */
  readonly tyres?: TyreSpec | 'tyre_economy' | 'tyre_touring' | 'tyre_sport' | 'tyre_narrow' | 'tyre_cross_ply';
  /** The tyres of the front axle, where they differ. */
  readonly frontTyres: TyreSpec | 'tyre_economy' | 'tyre_touring' | 'tyre_sport' | 'tyre_narrow' | 'tyre_cross_ply';
  /** The tyres of the rear axle, where they differ. */
  readonly rearTyres: TyreSpec | 'tyre_economy' | 'tyre_touring' | 'tyre_sport' | 'tyre_narrow' | 'tyre_cross_ply';
};

/** A car. SI units throughout; `tyres`, or `frontTyres` and `rearTyres`. */
export type CarSpec = Said & (OneSet | TwoSets);
