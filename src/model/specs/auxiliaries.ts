/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** What the 12 V side takes. SI units throughout. */
export type AuxiliariesSpec = {
  /** Drawn on the 12 V side while driving. In W, 0 to 20000. Default 250 (120 to 400): 150 to 400 W on test benches without heating or cooling (from memory). */
  readonly power?: number;
  /** Of the dc-dc converter. A pure number, 0.3 to 1. Default 0.9 (0.86 to 0.94): common practice, no source. */
  readonly converterEfficiency?: number;
};
