/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** On board, from the wall to the pack. SI units throughout. */
export type ChargerSpec = {
  /** Greatest power that one takes from the wall. In W, 100 to 400000. Default 6600: usual single-phase charger of 6.6 kW; common practice, no source. */
  readonly power?: number;
  /** Chargers side by side. A pure number, 1 to 12. Default 1: one charger. */
  readonly count?: number;
  /** From the wall, all together, where it is charged as a rule. In W, 100 to 1000000. Left out, it is all that the chargers can take: a socket of 230 V and 10 A gives 2.3 kW. */
  readonly usualPower?: number;
  /** Part of the loss at their greatest power that they have at any power. A pure number, 0 to 1. Default 0.15 (0 to 0.3): about one point less of efficiency at a third of the power (from memory). */
  readonly idleShare?: number;
  /** Greatest current of one into the pack. In A, 1 to 2000. Default by rule: at which it gives its greatest power at 300 V, at 240 to 360 V: chargers for packs of 400 V (from memory); one for a lower voltage gives more. */
  readonly maxCurrent?: number;
  /** Voltage of the pack from which on they charge. In V, 5 to 1500. Default by rule: not checked. */
  readonly leastVoltage?: number;
  /** Voltage of the pack up to which they charge. In V, 10 to 2000. Default by rule: not checked: the highest of the pack counts. */
  readonly greatestVoltage?: number;
  /** Share of their greatest power that reaches the pack and the 12 V side. A pure number, 0.5 to 1. Default 0.9 (0.86 to 0.94): on-board chargers 0.88 to 0.94 (from memory). */
  readonly efficiency?: number;
  /** Drawn at the pack while charging: pumps, controls, 12 V side. In W, 0 to 3000. Default 200 (100 to 300): cars that charge from the wall (from memory). */
  readonly overhead?: number;
};
