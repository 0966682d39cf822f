import { loadOfIndex, speedOfSymbol } from '../../../src/model/tyre/load-index.ts';
import { shippedPart } from '../../../src/model/parts/shipped.ts';
import { readTyreSize } from '../../../src/model/tyre/size.ts';
import { printed } from '../check.ts';
import type { Check, Topic } from '../check.ts';

const SIZE = 'geometry of the size code (rim x 25.4 mm + 2 x width x aspect), as on tyre makers’ pages';
const LIST = 'a tyre maker’s list of 1993 for 13-inch tyres, turns per mile';

function diameter(code: string, millimetres: number): Check {
  return {
    id: `tyre.diameter.${code.replace('/', '-')}`,
    what: `free diameter of ${code}`,
    source: SIZE,
    expected: millimetres,
    computed: () => readTyreSize(code).freeDiameter * 1000,
    unit: 'mm',
    tolerance: printed(1),
  };
}

/** The list says geometric turns per mile and turns of the rolling tyre; the rule used here is from memory, hence 0.2 %. */
function turns(code: string, perMile: number): Check {
  return {
    id: `tyre.turns.${code.replace('/', '-')}`,
    what: `turns per mile of ${code}`,
    source: LIST,
    expected: perMile,
    computed: () => 1609.344 / (2 * Math.PI * readTyreSize(code).effectiveRadius),
    unit: '1/mi',
    tolerance: { relative: 0.002 },
  };
}

function load(index: number, kilograms: number): Check {
  return {
    id: `tyre.load.${index}`,
    what: `load index ${index}`,
    source: 'published table of load indices (ISO 4000-1)',
    expected: kilograms,
    computed: () => loadOfIndex(index) ?? Number.NaN,
    unit: 'kg',
    tolerance: { absolute: 0 },
  };
}

function speed(symbol: string, kmh: number): Check {
  return {
    id: `tyre.speed.${symbol}`,
    what: `speed symbol ${symbol}`,
    source: 'published table of speed symbols (ISO 4000-1)',
    expected: kmh,
    computed: () => (speedOfSymbol(symbol) ?? Number.NaN) * 3.6,
    unit: 'km/h',
    tolerance: { relative: 1e-12 },
  };
}

/** Rolling resistance at the 80 km/h of the label test must lie in the class the part claims. */
function label(name: string, middle: number, half: number, letter: string): Check {
  return {
    id: `tyre.label.${name}`,
    what: `rolling resistance of ${name} at 80 km/h, class ${letter}`,
    source: 'Regulation (EC) 1222/2009, Annex I Part A, class C1 tyres',
    expected: middle,
    computed: () => {
      const values = shippedPart('tyre', name)?.values;
      const v = 80 / 3.6;
      const { rollingResistance: c0, rollingLinear: c1, rollingQuadratic: c2 } = values ?? {};
      return 1000 * ((c0 ?? Number.NaN) + (c1 ?? Number.NaN) * v + (c2 ?? Number.NaN) * v * v);
    },
    unit: 'kg/t',
    tolerance: { absolute: half },
  };
}

export const tyre: Topic = {
  title: 'Tyres',
  checks: [
    diameter('155/80R13', 578.2),
    diameter('165/80R13', 594.2),
    diameter('165R15', 645.0),
    diameter('175/70R13', 575.2),
    diameter('185/70R15', 640.0),
    diameter('175/65R14', 583.1),
    diameter('195/65R15', 634.5),
    diameter('205/55R16', 631.9),
    diameter('225/45R17', 634.3),
    turns('145/80R13', 939.74),
    turns('155/80R13', 913.73),
    turns('165/80R13', 889.13),
    load(78, 425),
    load(82, 475),
    load(86, 530),
    load(91, 615),
    load(94, 670),
    speed('Q', 160),
    speed('S', 180),
    speed('T', 190),
    speed('H', 210),
    speed('V', 240),
    speed('W', 270),
    speed('Y', 300),
    label('tyre_economy', 7.15, 0.55, 'B'),
    label('tyre_touring', 8.4, 0.6, 'C'),
    label('tyre_sport', 9.8, 0.7, 'E'),
    {
      id: 'tyre.friction.dry',
      what: 'dry peak of tyre_economy: mean over 50 and 90 km/h, new and worn',
      source: 'Bosch Automotive Handbook, coefficients of static friction for pneumatic tyres: 0.85, 1, 0.8, 0.95',
      expected: 0.9,
      computed: () => shippedPart('tyre', 'tyre_economy')?.values.dryPeak ?? Number.NaN,
      unit: '1',
      tolerance: { absolute: 0.02 },
    },
  ],
};
