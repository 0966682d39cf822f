/** Written by `npm run defaults` from the tables of fields: do not edit. */
import type { CellSpec } from './cell.ts';

/** The traction battery. SI units throughout. */
export type PackSpec = {
  /** The cell it is made of. */
  readonly cell:
    | CellSpec
    | 'cell_nmc_21700'
    | 'cell_nmc_60ah'
    | 'cell_nmc_60ah_module'
    | 'cell_pouch_27ah'
    | 'cell_nca_18650'
    | 'cell_lfp_18650'
    | 'cell_lfp_100ah';
  /** Cells in series. A pure number, 1 to 500. */
  readonly series: number;
  /** Cells in parallel. A pure number, 1 to 1000. */
  readonly parallel: number;
  /** State of charge at the start. A pure number, 0 to 1. Default 0.9: common practice, no source. */
  readonly charge?: number;
  /** Capacity left over capacity when new, of the weakest module; or new, or used. A pure number, 0.3 to 1.1. Default 1: a new pack. */
  readonly health?: number;
  /** In place of health: that of each module in the string, as measured; the least of them counts. A pure number, 0.05 to 1.1. */
  readonly moduleHealth?: readonly number[];
  /** Resistance over resistance when new. A pure number, 0.5 to 5. Default by rule: 1 and twice what health lacks of 1, once to four times: worn out is 80 % of the capacity or twice the resistance (common practice, no source). */
  readonly resistanceGrowth?: number;
  /** Busbars, contactors, fuses and cables to the inverter. In ohm, 0 to 1. Default by rule: 6 V at the current limit, 3 to 12 V: cables are chosen by the current (common practice, no source). */
  readonly wiringResistance?: number;
  /** Discharge limit of the whole pack. In A, 1 to 10000. Left out, it is the limit of the cell times the cells in parallel. */
  readonly maxCurrent?: number;
  /** That the whole pack gives for ever. In A, 0.1 to 10000. Left out, it is that of the cell times the cells in parallel, at most the discharge limit. */
  readonly continuousCurrent?: number;
  /** That the whole pack takes for ever. In A, 0 to 10000. Left out, it is that of the cell times the cells in parallel, at most the charge limit. */
  readonly continuousChargeCurrent?: number;
  /** Lowest voltage of the whole pack under load. In V, 5 to 1500. Left out, it is the limit of the cell times the cells in series. */
  readonly minVoltage?: number;
  /** Voltage that contactors and fuses are rated for. In V, 10 to 2000. Default by rule: not checked. */
  readonly contactorVoltage?: number;
  /** Charge limit of the whole pack, braking included. In A, 0 to 10000. Left out, it is the limit of the cell times the cells in parallel. */
  readonly maxChargeCurrent?: number;
  /** Pack temperature from which it may be charged fully. In K, 243.15 to 323.15. Default 288.15 (283.15 to 298.15): common practice, no source. */
  readonly chargeFullAbove?: number;
  /** Pack temperature below which it must not be charged. In K, 223.15 to 318.15. Default 268.15 (263.15 to 273.15): data sheets of cells: 0 °C, some pulses below; common practice, no source. */
  readonly chargeNoneBelow?: number;
  /** Of a heater in the pack that warms it while it hangs on a plug. In W, 50 to 20000. Default by rule: none. */
  readonly heaterPower?: number;
  /** Pack temperature up to which it is heated then. In K, 263.15 to 313.15. Default 283.15 (278.15 to 288.15): 10 °C; common practice, no source. */
  readonly heaterUntil?: number;
  /** Pack temperature from which on it gives its discharge limit. In K, 243.15 to 323.15. Default 283.15 (278.15 to 288.15): common practice, no source. */
  readonly dischargeFullAbove?: number;
  /** Pack temperature below which it gives nothing. In K, 203.15 to 318.15. Default 233.15 (223.15 to 243.15): half of its limit at -15 °C; common practice, no source. */
  readonly dischargeNoneBelow?: number;
  /** State of charge below which it gives less than its discharge limit. A pure number, 0 to 0.9. Default 0.15 (0.1 to 0.2): common practice, no source. */
  readonly lowCharge?: number;
  /** Share of its discharge limit at no charge, a straight line below low_charge. A pure number, 0 to 1. Default 0.3 (0.15 to 0.45): common practice, no source. */
  readonly lowShare?: number;
  /** State of charge at which the car stops giving power. A pure number, 0 to 0.9. Default 0.05 (0.03 to 0.08): common practice, no source. */
  readonly windowLow?: number;
  /** State of charge up to which it is charged. A pure number, 0.1 to 1. Default 0.97 (0.95 to 1): common practice, no source. */
  readonly windowHigh?: number;
  /** Heat it gives off per kelvin. In W/K, 0 to 10000. Default by rule: 0.03 W/K for each kg of cells: a closed box in still air; common practice, no source. */
  readonly cooling?: number;
  /** Of the cells with their boxes and busbars. In J/K, 100 to 100000000. Default by rule: 1.4 times the mass of the cells times 1000 J/(kg K) (from memory). */
  readonly heatCapacity?: number;
  /** Temperature from which the current is reduced. In K, 293.15 to 373.15. Default 323.15 (318.15 to 328.15): common practice, no source. */
  readonly derateTemperature?: number;
  /** Warming over which the current falls to nothing. In K, 1 to 100. Default 10: common practice, no source. */
  readonly derateRange?: number;
  /** Activation energy of the resistance over the gas constant. In K, 0 to 20000. Default 2400 (1500 to 4000): about 20 kJ/mol, Plett, Battery Management Systems I (from memory). */
  readonly resistanceActivation?: number;
};
