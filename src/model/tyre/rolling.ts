/** Rolling resistance over temperature. */

/**
 * Factor on the coefficients at 25 degC: ISO 28580, rolling resistance falls by 0.8 % per kelvin above 25 degC on
 * passenger-car tyres (from memory). @param temperature K.
 */
export function rollingAtTemperature(temperature: number): number {
  return 1 / (1 + 0.008 * (temperature - 298.15));
}
