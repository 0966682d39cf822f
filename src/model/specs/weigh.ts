/** Written by `npm run defaults` from the tables of fields: do not edit. */
import type { ItemSpec } from './item.ts';
import type { TyreMarkSpec } from './tyre-mark.ts';

/** A car on the scales, and what is changed about it. SI units throughout. */
export type WeighSpec = {
  /** What the scales said before: level ground, nobody in the car. */
  readonly scales: {
    /** On the front axle. In kg, 10 to 20000. */
    readonly front: number;
    /** On the rear axle. In kg, 10 to 20000. */
    readonly rear: number;
  };
  /** Distance between the axles. In m, 1 to 6. */
  readonly wheelbase: number;
  /** Height of the centre of gravity before. In m, 0.1 to 2. Default 0.55 (0.5 to 0.6): passenger cars 0.5 to 0.6 m, Gillespie (from memory). */
  readonly cgHeight?: number;
  /** What comes out. */
  readonly out?: readonly ItemSpec[];
  /** What goes in. */
  readonly in?: readonly ItemSpec[];
  /** The driver. */
  readonly driver?: {
    /** Of the driver. In kg, 0 to 300. Default 75: Directive 92/21/EEC (from memory). */
    readonly mass?: number;
    /** Of the driver’s middle behind the front axle. In m, -3 to 9. Default by rule: 0.52 of the wheelbase, ± 0.1 m as a standard uncertainty (common practice, no source). */
    readonly x?: number;
    /** Of the driver’s middle above the road. In m, 0 to 3. Default 0.6 (0.45 to 0.75): common practice, no source. */
    readonly height?: number;
  };
  /** Passengers and luggage of the fully loaded car. */
  readonly load?: readonly ItemSpec[];
  /** A trailer on the hitch of the fully loaded car. */
  readonly trailer?: {
    /** Of the trailer with what is on it. In kg, 10 to 10000. */
    readonly mass: number;
    /** Of it that rests on the hitch, on a level road. In kg, 0 to 1000. Default by rule: 6 % of its mass, 4 to 8 % (makers of trailers ask for 4 % and more; common practice, no source). */
    readonly hitchLoad?: number;
    /** Height of the hitch above the road. In m, 0.1 to 1.2. Default 0.385 (0.35 to 0.42): ISO 1103: centre of the ball 350 to 420 mm, the car loaded (from memory). */
    readonly hitchHeight?: number;
    /** From the rear axle back to the hitch. In m, 0 to 3. Default 0.85 (0.7 to 1): common practice, no source. */
    readonly overhang?: number;
  };
  /** The permitted masses, from the plate. */
  readonly permitted?: {
    /** On the front axle. In kg, 10 to 20000. Default by rule: not known, and not checked. */
    readonly front?: number;
    /** On the rear axle. In kg, 10 to 20000. Default by rule: not known, and not checked. */
    readonly rear?: number;
    /** Of the whole car, people, luggage and what rests on its hitch included. In kg, 10 to 40000. Default by rule: not known, and not checked. */
    readonly gross?: number;
    /** Of car and trailer together. In kg, 10 to 60000. Default by rule: not known, and not checked. */
    readonly train?: number;
    /** On the hitch. In kg, 1 to 1000. Default by rule: not known, and not checked. */
    readonly hitch?: number;
  };
  /** The tyres of both axles. */
  readonly tyres?: TyreMarkSpec;
  /** The tyres of the front axle, where they differ. */
  readonly frontTyres?: TyreMarkSpec;
  /** The tyres of the rear axle, where they differ. */
  readonly rearTyres?: TyreMarkSpec;
  /** Top speed, for the speed symbol of the tyres. In m/s, 1 to 150. Default by rule: not known, and not checked. */
  readonly topSpeed?: number;
  /** Name of one thing under `in`: how far must it move to keep the front share? */
  readonly move?: string;
  /** Front share of the empty car that is to be kept or reached. A pure number, 0.05 to 0.95. Left out, it is the front share of the empty car before. */
  readonly keepShare?: number;
  /** Foremost place that the centre of a thing may take. In m, -3 to 9. Default by rule: 0.6 m in front of the front axle (common practice, no source). */
  readonly minX?: number;
  /** Rearmost place that the centre of a thing may take. In m, -3 to 9. Default by rule: 0.7 m behind the rear axle (common practice, no source). */
  readonly maxX?: number;
};
