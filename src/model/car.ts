/**
 * The car as the physics sees it: every number resolved, SI units, plain and JSON-serialisable. `spec.ts` says what a
 * user may leave out; `complete.ts` turns one into the other.
 */

import type { Auxiliaries, Cabin } from './consumers.ts';
import type { LossMap } from './drive/efficiency-map.ts';

export type { Auxiliaries, Cabin } from './consumers.ts';
export type { Surface, Surroundings } from './surroundings.ts';

/** Which axle. */
export type AxleName = 'front' | 'rear';

export interface Car {
  readonly body: Body;
  readonly tyres: { readonly front: Tyre; readonly rear: Tyre };
  /** One entry per driven axle. */
  readonly drives: readonly Drive[];
  /** With two driven axles: share of the wheel torque that goes to the front; left out, each axle takes what it can. */
  readonly frontTorqueShare?: number;
  readonly pack: Pack;
  readonly auxiliaries: Auxiliaries;
  readonly cabin: Cabin;
  readonly charger: Charger;
  readonly trailer?: Trailer;
}

/** Behind the car; see `body/trailer.ts`. */
export interface Trailer {
  /** kg, loaded. */
  readonly mass: number;
  /** kg of it that rest on the hitch, on a level road. */
  readonly hitchLoad: number;
  /** m above the road. */
  readonly hitchHeight: number;
  /** m from the rear axle back to the hitch. */
  readonly overhang: number;
  /** m2. */
  readonly dragArea: number;
  /** Rolling resistance coefficient at 25 degC. */
  readonly rolling: number;
}

export interface Body {
  /** kg, the car on the scales with everything but people and luggage. */
  readonly mass: number;
  /** kg. */
  readonly driver: number;
  /** kg of passengers and luggage. */
  readonly load: number;
  /** Share of the static weight on the front axle, with driver and load. */
  readonly frontShare: number;
  /** m. */
  readonly wheelbase: number;
  /** m above the road. */
  readonly cgHeight: number;
  /** m2, drag coefficient times frontal area. */
  readonly dragArea: number;
  /** m above the road at which drag acts. */
  readonly dragHeight: number;
  /** m2, lift coefficient times frontal area at each axle; positive lifts. */
  readonly liftAreaFront: number;
  readonly liftAreaRear: number;
  /** N of bearings and brakes, half of it at each axle; left out: none. */
  readonly hubDrag?: number;
  /** m between the wheels of an axle, and the share of the front axle in the roll stiffness; left out where no axle is live. */
  readonly track?: number;
  readonly frontRollShare?: number;
}

/** One tyre of an axle; both tyres of an axle are alike. */
export interface Tyre {
  /** m, effective rolling radius. */
  readonly radius: number;
  /** kg m2, tyre with wheel, brake disc or drum and hub; one wheel. */
  readonly inertia: number;
  /** Rolling resistance coefficient c0 + c1 v + c2 v^2 at 25 degC; v in m/s. */
  readonly rolling: { readonly c0: number; readonly c1: number; readonly c2: number };
  readonly dry: Friction;
  readonly wet: Friction;
  /** Left out, as no completed tyre does: not known. */
  readonly snow?: Friction;
  readonly ice?: Friction;
  /** Slip at which the friction peaks (ISO 8855). */
  readonly slipAtPeak: number;
  /** q in mu = mu0 (N/N0)^-q. */
  readonly loadExponent: number;
  /** N0, N per axle (both tyres). */
  readonly loadReference: number;
  /** What it rolls harder until it is warm; left out: nothing. */
  readonly warming?: Warming;
}

/** How a tyre gets warm. */
export interface Warming {
  /** By which its rolling resistance is higher when it has stood for long, as a share of that of the warm tyre. */
  readonly rise: number;
  /** s of driving after which it is warm, and s of standing after which it is cold. */
  readonly warmAfter: number;
  readonly coldAfter: number;
}

export interface Friction {
  readonly peak: number;
  readonly slide: number;
}

export interface Drive {
  readonly axle: AxleName;
  readonly unit: DriveUnit;
  /** Motor turns per wheel turn; with a gearbox, gearbox output turns per wheel turn. */
  readonly ratio: number;
  /** Left out: a fixed ratio. */
  readonly gearbox?: Gearbox;
  /** Share of the torque that passes the gears; what is lost is heat. */
  readonly efficiency: number;
  /** N m at the motor shaft, lost to oil and bearings at any load, in air of 20 degC. */
  readonly dragTorque: number;
  /** 1/K by which that rises as it gets colder; left out: it does not. */
  readonly coldOil?: number;
  /** kg m2 of gears and shafts, referred to the wheel. */
  readonly inertia: number;
  /** N m on both half shafts together; null where no limit is known. */
  readonly shaftTorque: number | null;
  /** A rigid axle whose propeller shaft may unload a wheel; left out: independent wheels, or a locking differential. */
  readonly liveAxle?: LiveAxle;
  readonly traction: Traction;
  readonly regeneration: Regeneration;
}

/** A rigid axle with an open differential, turned by a propeller shaft. */
export interface LiveAxle {
  /** Turns of the propeller shaft for one turn of the wheel. */
  readonly ratio: number;
}

/** What a drive takes back when the car slows down. */
export interface Regeneration {
  /** `blended`: the brake pedal asks the drive first; `lift`: `torque` is what lifting the foot gives, friction does the rest. */
  readonly kind: 'blended' | 'lift' | 'none';
  /** Of the braking force at the wheels that the drive is asked for; friction does the rest. */
  readonly share: number;
  /** N m at the motor shaft, positive. */
  readonly torque: number;
  /** W at the motor shaft, positive. */
  readonly power: number;
  /** m/s of the car: below `fadeFrom` it fades linearly to nothing at `fadeTo`. */
  readonly fadeFrom: number;
  readonly fadeTo: number;
  /** Share of the grip of the axle that it may use. */
  readonly gripShare: number;
}

/** A gearbox that was kept, between the motor and `ratio`. */
export interface Gearbox {
  /** First gear first. */
  readonly gears: readonly Gear[];
  /** s without torque while a gear is changed. */
  readonly shiftTime: number;
  /** A launch looks for the shift points that take it to its target first; those of the gears are for all else. */
  readonly best?: true;
}

export interface Gear {
  /** Motor turns per turn of the gearbox output. */
  readonly ratio: number;
  readonly efficiency: number;
  /** kg m2 of the gear, referred to the wheel. */
  readonly inertia: number;
  /** rad/s of the motor at which the next gear is taken; of no meaning in the highest gear. */
  readonly upshift: number;
}

/** What is lost warms a lump of this capacity, and cooling takes away in proportion to its warmth over the air. */
export interface LumpedHeat {
  /** J/K */
  readonly capacity: number;
  /** W/K */
  readonly cooling: number;
  /** K from which the ratings are reduced. */
  readonly derateAt: number;
  /** K over which they are. */
  readonly derateRange: number;
}

/**
 * `held`: an ideal traction control keeps the slip at the peak; `share`: it keeps the force at a share of the peak;
 * `spin`: nothing is held.
 */
export interface Traction {
  readonly policy: 'held' | 'share' | 'spin';
  readonly share: number;
}

/** V of direct current. */
export interface VoltageWindow {
  readonly least: number;
  readonly greatest: number;
}

/** Motor and inverter. */
export interface DriveUnit {
  /** N m at the motor shaft. */
  readonly peakTorque: number;
  /** W at the motor shaft, at or above the reference voltage. */
  readonly peakPower: number;
  /** Share of the peak power that is left at the greatest speed; between it and the corner speed the power falls in a straight line. */
  readonly powerAtTop: number;
  /** s in which the torque builds up from nothing to its peak when the pedal goes down; only launches have such an instant. */
  readonly torqueRise: number;
  /** V at the inverter below which the speeds that belong to each torque shrink in proportion: constant power falls so. */
  readonly referenceVoltage: number;
  /** V at its terminals between which it works; left out where nothing is known. */
  readonly voltage?: VoltageWindow;
  /** rad/s. */
  readonly maxSpeed: number;
  /** rad/s at which the torque begins to fall linearly to nothing at `maxSpeed`. */
  readonly taperSpeed: number;
  /** Torque table in place of the ratings: rad/s ascending, N m; at the reference voltage. Null: ratings. */
  readonly table: { readonly speed: readonly number[]; readonly torque: readonly number[] } | null;
  /** kg m2. */
  readonly inertia: number;
  /** Loss in W = copper T^2 + iron w + windage w^3 + fixed; T in N m, w in rad/s. */
  readonly losses: {
    readonly copper: number;
    readonly iron: number;
    readonly windage: number;
    readonly fixed: number;
    /** Measured losses in place of the formula, whose constants are of no meaning then. */
    readonly map?: LossMap;
  };
  /** W drawn while the car stands in a schedule. */
  readonly standstillLoss: number;
  /** 1 where the losses above include the inverter's. */
  readonly inverterEfficiency: number;
  /** Left out: not modelled. Over the derating range the ratings fall from peak to `continuousShare` of it. */
  readonly heat?: LumpedHeat & { readonly continuousShare: number };
}

export interface Pack {
  readonly cell: Cell;
  readonly series: number;
  readonly parallel: number;
  /** State of charge at the start, 0 to 1. */
  readonly charge: number;
  /** Capacity left over capacity when new. */
  readonly health: number;
  /** Resistance over resistance when new. */
  readonly resistanceGrowth: number;
  /** ohm of busbars, contactors, fuses and cables to the inverter. */
  readonly wiringResistance: number;
  /** A, discharge limit of the whole pack. */
  readonly maxCurrent: number;
  /** V, lowest voltage of the whole pack under load. */
  readonly minVoltage: number;
  /** V. */
  readonly maxVoltage: number;
  /** A, charge limit of the whole pack, positive. */
  readonly maxChargeCurrent: number;
  /** How long these two currents last, and what lasts for ever, in A; left out: they last. */
  readonly pulses?: {
    /** s of either, from a rested pack. */
    readonly time: number;
    readonly continuous: number;
    readonly continuousCharge: number;
  };
  /**
   * What a cold pack and a nearly empty one give of their discharge limit; left out: all of it. K: nothing below `none`, all from
   * `full` on; and all from the state of charge `charge` on, down to the share `share` at none.
   */
  readonly weak?: {
    readonly cold: { readonly none: number; readonly full: number };
    readonly low: { readonly charge: number; readonly share: number };
  };
  /** K: nothing may be charged below `none`, all from `full` on, linear between. */
  readonly chargeCold: { readonly none: number; readonly full: number };
  /** Warms the cells while the car is charged: W at the pack, all of it into them, and K up to which it does; left out: none. */
  readonly heater?: { readonly power: number; readonly until: number };
  /** States of charge between which the car is used. */
  readonly window: { readonly low: number; readonly high: number };
  /**
   * Left out, as no completed car does: at the temperature of the data of its cells for ever. Over the derating range the current limit falls to nothing; the resistance of the cells
   * changes as exp(resistanceActivation (1/T - 1/298.15 K)), activation in K.
   */
  readonly heat?: LumpedHeat & { readonly resistanceActivation: number };
}

/** One cell, at 25 degC and new. */
export interface Cell {
  /** C (ampere seconds). */
  readonly capacity: number;
  /** State of charge ascending from 0 to 1, and the open-circuit voltage there, V. */
  readonly ocv: { readonly charge: readonly number[]; readonly voltage: readonly number[] };
  /** State of charge ascending, and the ohmic resistance there, ohm. */
  readonly resistance: { readonly charge: readonly number[]; readonly ohm: readonly number[] };
  /** Polarisation: one resistance, ohm, and time constant, s, per pair. */
  readonly pairs: readonly { readonly resistance: number; readonly timeConstant: number }[];
  /** A. */
  readonly maxCurrent: number;
  /** A, positive. */
  readonly maxChargeCurrent: number;
  /** Charge that comes out again over charge that went in. */
  readonly coulombicEfficiency: number;
  /** V. */
  readonly minVoltage: number;
  readonly maxVoltage: number;
  /** kg. */
  readonly mass: number;
}

/** From the wall to the pack. */
export interface Charger {
  /** W from the wall, of each. */
  readonly power: number;
  readonly count: number;
  /** At `power`. */
  readonly efficiency: number;
  /** Part of the loss at `power` that is there at any power. */
  readonly idleShare: number;
  /** W from the wall of all together, as it is charged as a rule. */
  readonly usualPower: number;
  /** W at the pack while charging. */
  readonly overhead: number;
  /** A into the pack, of each; left out: whatever the power gives. */
  readonly maxCurrent?: number;
  /** V at the pack between which they charge; left out where nothing is known. */
  readonly voltage?: VoltageWindow;
}
