/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** A thing that comes out of a car or goes in. SI units throughout. */
export type ItemSpec = {
  /** What it is, in a word or two. */
  readonly name: string;
  /** Of one piece. In kg, 0.01 to 10000. */
  readonly mass: number;
  /** Pieces at this place. A pure number, 1 to 10000. Default 1: one piece. */
  readonly count?: number;
  /** Of its centre behind the front axle; negative in front of it. In m, -3 to 9. */
  readonly x: number;
  /** Of its centre above the road. In m, 0 to 4. Default by rule: the height of the centre of gravity before: it moves the centre neither up nor down. */
  readonly height?: number;
};
