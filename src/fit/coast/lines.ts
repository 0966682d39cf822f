/** Coast-downs as lines of a notebook. */
import * as elementary from '../../elementary.ts';
import { STANDARD_GRAVITY } from '../../model/gravity.ts';
import { rollingAtTemperature } from '../../model/tyre/rolling.ts';
import { type Covariance, standardOf } from '../linear.ts';
import type { CoastAbout } from './about.ts';
import type { CoastDown } from './coast-down.ts';

/** As a car cell takes them; the covariance with all its digits. */
export function linesOf({ terms, covariance }: CoastDown, { mass, standard, coupled }: CoastAbout): readonly string[] {
  const triangle = (matrix: Covariance): string =>
    matrix.flatMap((row, i) => row.slice(0, i + 1).map(each => Number(each.toPrecision(12)))).join(', ');
  const said = (value: number): string => String(Number(value.toPrecision(8)));
  return [
    'road_load:',
    `  f0: ${said(terms[0])} N`,
    `  f1: ${said(terms[1])} N s/m`,
    `  f2: ${said(terms[2])} N s^2/m^2`,
    `  test_mass: ${said(mass)} kg`,
    `  temperature: ${said(standard.temperature - 273.15)} degC`,
    `  pressure: ${said(standard.pressure / 1000)} kPa`,
    `  coupled: ${coupled}`,
    'together:',
    '  - inputs: [road_load.f0, road_load.f1, road_load.f2]',
    `    covariance: [${triangle(covariance)}]`,
  ];
}

/** m/s at which tyres are labelled: 80 km/h, ISO 28580 (from memory). */
const LABEL = 80 / 3.6;

/** What rolls at 80 km/h as one number of a tyre, as on its label; what goes with the square of the speed is drag. */
export function tyreLines({ terms, spread }: CoastDown, { mass, standard, beside }: CoastAbout): readonly string[] {
  const weight = mass * STANDARD_GRAVITY * rollingAtTemperature(standard.temperature);
  const value = (terms[0] + terms[1] * LABEL - beside.value) / weight;
  const own = elementary.hypot(standardOf([1, LABEL, 0], spread), beside.standard) / weight;
  const round = (each: number): string => String(Number(each.toPrecision(6)));
  return [
    `rolling_resistance: ${round(value)} ± ${round(own)}`,
    'rolling_linear: 0 s/m',
    'rolling_quadratic: 0 s^2/m^2',
  ];
}
