/** What draws power beside the drive. */

export interface Auxiliaries {
  /** W drawn on the 12 V side. */
  readonly power: number;
  /** Of the converter that feeds them. */
  readonly converterEfficiency: number;
}

/** Heat and cold for the people. */
export interface Cabin {
  readonly heater: 'resistive' | 'heat pump' | 'none';
  readonly cooled: boolean;
  /** K wished for. */
  readonly temperature: number;
  /** W/K through walls, windows and fresh air. */
  readonly loss: number;
  /** J/K warmed up at the start. */
  readonly heatCapacity: number;
  /** W of heat. */
  readonly heaterPower: number;
  /** Heat over power of a heat pump at 280.15 K outside, and its rise per K. */
  readonly heatPumpFactor: number;
  readonly heatPumpSlope: number;
  /** Heat taken out over power of the cooling. */
  readonly coolerFactor: number;
  /** W of the sun and of people. */
  readonly sun: number;
}
