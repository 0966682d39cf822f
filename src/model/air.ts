/** Air: the standard atmosphere, and the density of moist air. */
import * as elementary from '../elementary.ts';

/** Where the air is taken from: the fields of `Surroundings` that decide its density. */
export interface AirState {
  /** K. */
  readonly temperature: number;
  /** m above sea level. */
  readonly altitude: number;
  /** Relative humidity, 0 to 1. */
  readonly humidity: number;
}

/** The standard atmosphere at one altitude. */
export interface Atmosphere {
  /** K. */
  readonly temperature: number;
  /** Pa. */
  readonly pressure: number;
  /** kg/m3, of dry air. */
  readonly density: number;
}

/** ISO 2533:1975: sea level, the two lowest layers, and the gas constant of air in J/(kg K). */
const ISO_2533 = {
  temperature: 288.15,
  pressure: 101_325,
  lapse: 0.0065,
  gasConstant: 287.05287,
  gravity: 9.80665,
  lowest: -2_000,
  tropopause: 11_000,
  highest: 20_000,
} as const;

/**
 * Standard atmosphere (ISO 2533:1975) at a geopotential altitude in m: troposphere and lower stratosphere, -2 km to
 * 20 km. Throws a RangeError outside.
 */
export function standardAtmosphere(altitude: number): Atmosphere {
  const s = ISO_2533;
  if (!(altitude >= s.lowest && altitude <= s.highest)) {
    throw new RangeError(`altitude must be between ${s.lowest} m and ${s.highest} m, not ${altitude} m`);
  }
  const troposphere = Math.min(altitude, s.tropopause);
  const T = s.temperature - s.lapse * troposphere;
  const exponent = s.gravity / (s.lapse * s.gasConstant);
  const isothermal = elementary.exp((-s.gravity * (altitude - troposphere)) / (s.gasConstant * T));
  const p = s.pressure * elementary.pow(T / s.temperature, exponent) * isothermal;
  return { temperature: T, pressure: p, density: p / (s.gasConstant * T) };
}

/** kg/mol of dry air with 400 ppm of carbon dioxide and of water, J/(mol K): CIPM-2007. */
const M_AIR = 28.96546e-3;
const M_WATER = 18.01528e-3;
const GAS_CONSTANT = 8.314472;

/**
 * Density of moist air in kg/m3 by the CIPM-2007 equation (Picard, Davis, Glaeser and Fujii, Metrologia 45 (2008)
 * 149-155) with 400 ppm of carbon dioxide. `temperature` in K, `pressure` in Pa, `humidity` relative, 0 to 1.
 *
 * The equation is stated for 15 to 27 degC and 600 to 1100 hPa with a relative uncertainty of 2.2e-5. Over the wider
 * weather a car meets it is extrapolated, still far better than anything else in a road load is known. Throws a
 * RangeError where an argument is not a temperature, a pressure or a humidity.
 */
export function airDensity(temperature: number, pressure: number, humidity: number): number {
  // Wide enough for any road; beyond them the vapour-pressure formula means nothing.
  if (!(temperature >= 200 && temperature <= 350)) {
    throw new RangeError(`air temperature must be between 200 K and 350 K, not ${temperature} K`);
  }
  if (!(pressure > 0 && pressure <= 200_000)) {
    throw new RangeError(`air pressure must be above 0 Pa and at most 200000 Pa, not ${pressure} Pa`);
  }
  if (!(humidity >= 0 && humidity <= 1)) {
    throw new RangeError(`relative humidity must be between 0 and 1, not ${humidity}`);
  }
  const T = temperature;
  const p = pressure;
  const x = vapourFraction(T, p, humidity);
  return ((p * M_AIR) / (compressibility(T, p, x) * GAS_CONSTANT * T)) * (1 - x * (1 - M_WATER / M_AIR));
}

/** Air density in kg/m3 at the pressure that ISO 2533 gives for the altitude, and the temperature and humidity of the day. */
export function densityAt(air: AirState): number {
  const before = known.get(air);
  if (before !== undefined) return before;
  const density = airDensity(air.temperature, standardAtmosphere(air.altitude).pressure, air.humidity);
  known.set(air, density);
  return density;
}

/** The thousands of launches of a study are on one day. */
const known = new WeakMap<AirState, number>();

/** Mole fraction of water vapour: CIPM-2007, appendix A1.2, saturation pressure and enhancement factor. */
function vapourFraction(T: number, p: number, humidity: number): number {
  const t = T - 273.15;
  const saturation = elementary.exp(1.2378847e-5 * T * T - 1.9121316e-2 * T + 33.93711047 - 6.3431645e3 / T);
  const enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
  return (humidity * enhancement * saturation) / p;
}

/** Compressibility factor Z: CIPM-2007, appendix A1.4. */
function compressibility(T: number, p: number, x: number): number {
  const t = T - 273.15;
  const first =
    1.58123e-6 -
    2.9331e-8 * t +
    1.1043e-10 * t * t +
    (5.707e-6 - 2.051e-8 * t) * x +
    (1.9898e-4 - 2.376e-6 * t) * x * x;
  return 1 - (p / T) * first + ((p * p) / (T * T)) * (1.83e-11 - 0.765e-8 * x * x);
}
