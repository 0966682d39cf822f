/** Written by `npm run defaults` from the tables of fields: do not edit. */

/** Heating and cooling. SI units throughout. */
export type CabinSpec = {
  /** How the cabin is heated. Default none: nothing is heated unless it is said. */
  readonly heater?: 'resistive' | 'heat pump' | 'none';
  /** Whether the cabin is cooled when it is warm. Default no: nothing is cooled unless it is said. */
  readonly cooler?: 'yes' | 'no';
  /** Wished for in the cabin. In K, 278.15 to 308.15. Default 293.15 (291.15 to 295.15): common practice, no source. */
  readonly temperature?: number;
  /** Through walls, windows and fresh air, per kelvin. In W/K, 0 to 2000. Default 70 (50 to 110): about 2 to 2.5 kW at 30 K; common practice, no source. */
  readonly loss?: number;
  /** Of what is warmed up at the start: air, seats, panels. In J/K, 0 to 10000000. Default 40000 (20000 to 80000): common practice, no source. */
  readonly heatCapacity?: number;
  /** Greatest heat into the cabin. In W, 100 to 30000. Default 5000 (4000 to 6000): common practice, no source. */
  readonly heaterPower?: number;
  /** Heat over power of a heat pump at 7 °C outside. A pure number, 1 to 8. Default 2.5 (2 to 3): car heat pumps 2 to 3 (from memory). */
  readonly heatPumpFactor?: number;
  /** How that factor rises with the temperature outside; 1 at least. In 1/K, 0 to 0.2. Default 0.05 (0.03 to 0.07): common practice, no source. */
  readonly heatPumpSlope?: number;
  /** Heat taken out over power of the cooling. A pure number, 0.5 to 8. Default 2.2 (1.7 to 3): common practice, no source. */
  readonly coolerFactor?: number;
  /** Heat of the sun and of people. In W, 0 to 3000. Default 0: dull weather, one person left aside. */
  readonly sun?: number;
};
