/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** One battery cell at 25 °C, new. SI units throughout. */
export type CellSpec = {
  /** Capacity. In C, 360 to 3600000. */
  readonly capacity: number;
  /** States of charge, from 0 to 1. A pure number, 0 to 1. */
  readonly ocvCharge: readonly number[];
  /** Open-circuit voltage there. In V, 0.5 to 6. */
  readonly ocvVoltage: readonly number[];
  /** States of charge. A pure number, 0 to 1. */
  readonly resistanceCharge: readonly number[];
  /** Ohmic resistance there. In ohm, 0 to 1. */
  readonly resistanceOhm: readonly number[];
  /** Polarisation resistance of each RC pair. In ohm, 0.000001 to 1. */
  readonly pairResistance?: readonly number[];
  /** Time constant of each RC pair. In s, 0.1 to 100000. */
  readonly pairTimeConstant?: readonly number[];
  /** By which all these resistances are multiplied. A pure number, 0.2 to 5. Default 1 (0.85 to 1.15): stated resistances differ by the pulse they are measured with and from cell to cell; common practice, no source. */
  readonly resistanceFactor?: number;
  /** Discharge current for some seconds. In A, 0.1 to 10000. */
  readonly maxCurrent: number;
  /** Charge current for some seconds at room temperature. In A, 0 to 10000. Default by rule: half of the discharge current, 1.5 times the capacity in Ah at most (common practice, no source). */
  readonly maxChargeCurrent?: number;
  /** Discharge current for ever. In A, 0.1 to 10000. Default by rule: half of that for some seconds, a third to two thirds of it (common practice, no source). */
  readonly continuousCurrent?: number;
  /** Charge current for ever. In A, 0 to 10000. Default by rule: half of that for some seconds, a third to two thirds of it (common practice, no source). */
  readonly continuousChargeCurrent?: number;
  /** For which the two currents for some seconds last, from a rested pack. In s, 0.1 to 3600. Default 20 (10 to 30): data sheets of cells state 10 s or 30 s; common practice, no source. */
  readonly pulseTime?: number;
  /** Charge that comes out again over charge that went in. A pure number, 0.5 to 1. Default 0.995 (0.99 to 1): lithium cells 0.99 and above, Plett, Battery Management Systems I (from memory). */
  readonly coulombicEfficiency?: number;
  /** Lowest voltage under load. In V, 0.5 to 5. */
  readonly minVoltage: number;
  /** Highest voltage. In V, 0.5 to 6. */
  readonly maxVoltage: number;
  /** Mass of the cell. In kg, 0.001 to 100. */
  readonly mass: number;
};
