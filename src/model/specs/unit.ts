/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** Motor and inverter. SI units throughout. */
export type UnitSpec = {
  /** Peak torque at the motor shaft. In N m, 1 to 20000. Default by rule: needed unless there is a torque table, which gives it. */
  readonly peakTorque?: number;
  /** Peak power at the motor shaft. In W, 100 to 3000000. Default by rule: needed unless there is a torque table, which gives it. */
  readonly peakPower?: number;
  /** Share of the peak power that is left at the greatest speed. A pure number, 0.5 to 1. Default 0.85 (0.7 to 1): published torque curves of traction motors with buried magnets keep 70 to 100 % (from memory); less than a half is for a torque table. */
  readonly powerAtTop?: number;
  /** In which the torque builds up to its peak when the pedal goes down. In s, 0 to 1. Default 0.15 (0 to 0.3): controllers ramp the torque up in 0.1 to 0.3 s so that nothing jerks; 0 for none; common practice, no source. */
  readonly torqueRise?: number;
  /** Voltage at and above which the peak power is reached. In V, 20 to 1500. Left out, it is open-circuit voltage of the pack at half charge (makers state peak power at nominal voltage). */
  readonly referenceVoltage?: number;
  /** Voltage of the pack from which on the inverter works. In V, 5 to 1500. Default by rule: 0.6 of the reference voltage, 0.5 to 0.7 (from memory: inverters of 400 V work from 180 to 240 V on). */
  readonly leastVoltage?: number;
  /** Voltage that the inverter bears. In V, 10 to 2000. Default by rule: 1.35 of the reference voltage (from memory: inverters of 330 to 350 V bear 420 to 475 V). */
  readonly greatestVoltage?: number;
  /** Greatest motor speed. In rad/s, 10.47198 to 4188.79. Default by rule: 3.6 times the speed where peak torque and peak power meet, 2.5 to 5 times (the shipped units: 3.4 to 4). */
  readonly maxSpeed?: number;
  /** Motor speed from which the torque falls to nothing. In rad/s, 10.47198 to 4188.79. Default by rule: 0.96 of the greatest speed (common practice, no source). */
  readonly taperSpeed?: number;
  /** Speeds of a torque table, ascending; takes the place of the two peaks. In rad/s, 0 to 4188.79. */
  readonly tableSpeed?: readonly number[];
  /** Peak torque at those speeds. In N m, 0 to 20000. */
  readonly tableTorque?: readonly number[];
  /** CSV file beside the notebook: speed, torque and efficiency or loss, perhaps voltage, each with its unit in the header. */
  readonly map?: string;
  /** A few stated efficiencies, from which the loss constants are fitted. */
  readonly efficiencyPoints?: readonly {
    /** Motor speed. In rad/s, 1 to 4188.79. */
    readonly speed: number;
    /** Torque at the shaft. In N m, 0.1 to 20000. */
    readonly torque: number;
    /** Shaft power over input power. A pure number, 0.05 to 1. */
    readonly efficiency: number;
  }[];
  /** Whose losses are in the map or in the stated efficiencies; needed with either of them. */
  readonly mapIncludes?: 'motor' | 'motor and inverter';
  /** CSV file beside the notebook: speed and peak torque, perhaps voltage; takes the place of the two peaks. */
  readonly torqueTable?: string;
  /** Of the rotor. In kg m^2, 0 to 5. Default 0.045 (0.02 to 0.08): common practice, no source. */
  readonly inertia?: number;
  /** Kc in loss = kc T^2 + ki w + kw w^3 + c. In W/(N m)^2, 0 to 50. Default by rule: 6.5 % of the peak power at peak torque (as in Larminie & Lowry, eq. 7.23), ± 30 %. */
  readonly copperLoss?: number;
  /** Ki in the loss formula. In W s/rad, 0 to 100. Default by rule: 1.2 % of the peak power at 3.6 times the speed where peak torque and peak power meet, or at the greatest speed where that is higher, ± 50 % (published maps of traction motors, from memory). */
  readonly ironLoss?: number;
  /** Kw in the loss formula. In W s^3/rad^3, 0 to 0.01. Default by rule: 1 % of the peak power at that same speed, ± 50 % (published maps of traction motors, from memory). */
  readonly windageLoss?: number;
  /** C in the loss formula. In W, 0 to 10000. Default by rule: 0.2 % of the peak power, 0 to 0.35 %: inverter without load; common practice, no source. */
  readonly fixedLoss?: number;
  /** Drawn while the car stands in a schedule. In W, 0 to 10000. Default by rule: nothing, up to half of the fixed loss: the inverter does not switch then (common practice, no source). */
  readonly standstillLoss?: number;
  /** Share of the power that the inverter passes on. A pure number, 0.5 to 1. Default 0.97 (0.955 to 0.985): Guzzella & Sciarretta, Vehicle Propulsion Systems (from memory). */
  readonly inverterEfficiency?: number;
  /** Power it can give for ever; its heat is then modelled. In W, 100 to 3000000. Default by rule: its heat is not modelled. */
  readonly continuousPower?: number;
  /** Torque it can give for ever; with the continuous power it says the speed at which the unit can give both. In N m, 0.1 to 20000. Left out, it is continuous power over its speed. */
  readonly continuousTorque?: number;
  /** Motor speed at which it can. In rad/s, 10.47198 to 4188.79. Default by rule: the middle of the speeds from the corner, where peak torque and peak power meet, to where 90 % of the peak power is left, anywhere between: UN Regulation No. 85, 5.3.2, lets a maker state the 30-minute power at any of them (from memory). */
  readonly continuousSpeed?: number;
  /** Time for which it can give its peak power, starting cold. In s, 1 to 3600. Default 60 (30 to 120): makers state 30 s to 2 min; common practice, no source. */
  readonly overloadTime?: number;
  /** Temperature at which those ratings start. In K, 233.15 to 373.15. Default 298.15: common practice, no source. */
  readonly coldTemperature?: number;
  /** Temperature from which its ratings are reduced. In K, 303.15 to 523.15. Default 393.15 (373.15 to 413.15): common practice, no source. */
  readonly derateTemperature?: number;
  /** Warming over which the peak rating falls to the continuous one. In K, 1 to 200. Default 20: common practice, no source. */
  readonly derateRange?: number;
};
