import { airDensity, standardAtmosphere } from '../../../src/model/air.ts';
import { printed } from '../check.ts';
import type { Check, Topic } from '../check.ts';

const ISO = 'ISO 2533:1975, Standard Atmosphere (as U.S. Standard Atmosphere 1976), geopotential altitude';
const CIPM = 'CIPM-2007 equation, Picard et al., Metrologia 45 (2008) 149-155';

function atmosphere(altitude: number, pressure: number, density: number): Check[] {
  return [
    {
      id: `air.standard.${altitude}m.pressure`,
      what: `pressure at ${altitude} m`,
      source: ISO,
      expected: pressure,
      computed: () => standardAtmosphere(altitude).pressure,
      unit: 'Pa',
      tolerance: { relative: 1e-8 },
    },
    {
      id: `air.standard.${altitude}m.density`,
      what: `density at ${altitude} m`,
      source: ISO,
      expected: density,
      computed: () => standardAtmosphere(altitude).density,
      unit: 'kg/m3',
      tolerance: { relative: 1e-7 },
    },
  ];
}

function moist(celsius: number, pascal: number, humidity: number, density: number): Check {
  return {
    id: `air.moist.${celsius}C.${Math.round(pascal / 100)}hPa.${Math.round(humidity * 100)}percent`,
    what: `density at ${celsius} °C, ${pascal} Pa, ${Math.round(humidity * 100)} % humidity`,
    source: `${CIPM}, worked out apart from this project`,
    expected: density,
    computed: () => airDensity(celsius + 273.15, pascal, humidity),
    unit: 'kg/m3',
    tolerance: printed(7),
  };
}

export const air: Topic = {
  title: 'Air',
  checks: [
    ...atmosphere(0, 101_325, 1.225),
    ...atmosphere(1000, 89_874.563, 1.1116425),
    ...atmosphere(2000, 79_495.202, 1.0064901),
    ...atmosphere(3000, 70_108.526, 0.90912186),
    {
      id: 'air.standard.1000ft.temperature',
      what: 'temperature at 1000 ft',
      source: 'unit test of a public atmosphere library',
      expected: 13.0188,
      computed: () => standardAtmosphere(304.8).temperature - 273.15,
      unit: 'degC',
      tolerance: printed(4),
    },
    {
      id: 'air.standard.1000ft.pressure',
      what: 'pressure at 1000 ft',
      source: 'unit test of a public atmosphere library',
      expected: 97_716.6,
      computed: () => standardAtmosphere(304.8).pressure,
      unit: 'Pa',
      tolerance: printed(1),
    },
    {
      id: 'air.moist.handbook',
      what: 'density at 10 °C, 730 mmHg, 40 % humidity',
      source: 'worked example in the appendix of a handbook of mass metrology (p. 205)',
      expected: 1.19569,
      computed: () => airDensity(283.15, (730 * 101_325) / 760, 0.4),
      unit: 'kg/m3',
      tolerance: printed(5),
    },
    moist(20, 101_325, 0.5, 1.1993139),
    moist(15, 101_325, 0, 1.2255213),
    moist(35, 101_325, 0.8, 1.1266045),
    moist(30, 95_000, 0.6, 1.0809537),
  ],
};
