/** Generic tyres. Each carries a usual size, so that it can stand alone; the size of the car in hand should replace it. */
import { between } from '../parts/part.ts';
import type { TyrePart } from '../parts/part.ts';
import { RADIAL_QUADRATIC } from './fields.ts';

/** m/s at which ISO 28580 measures the rolling resistance that the label states: 80 km/h. */
const LABEL_SPEED = 80 / 3.6;

/** c2 in s2/m2 of bias-ply car tyres: 0.0169 + 0.19e-6 V^2, V in km/h (Wong, *Theory of Ground Vehicles*, from memory). */
const BIAS_QUADRATIC = 0.19e-6 * 3.6 ** 2;

const LABEL = 'Regulation (EC) 1222/2009 Annex I Part A';
const SPEED_RULE = 'rise with speed as for radial-ply tyres in Wong, Theory of Ground Vehicles (from memory)';
const BOSCH = 'Bosch Automotive Handbook, coefficients of static friction for pneumatic tyres';
const REST = 'slip at the peak and load exponent common practice, no source';

/** Rolling coefficients whose value at the label's speed is `label`. */
function radialRolling(label: number): { rollingResistance: number; rollingLinear: number; rollingQuadratic: number } {
  return {
    rollingResistance: label - RADIAL_QUADRATIC * LABEL_SPEED ** 2,
    rollingLinear: 0,
    rollingQuadratic: RADIAL_QUADRATIC,
  };
}

/** The limits of a label class, for the same coefficient. */
function labelClass(low: number, high: number): { rollingResistance: ReturnType<typeof between> } {
  const rise = RADIAL_QUADRATIC * LABEL_SPEED ** 2;
  return { rollingResistance: between(low - rise, high - rise) };
}

export const tyres: readonly TyrePart[] = [
  {
    kind: 'tyre',
    name: 'tyre_economy',
    title: 'Low rolling resistance, label class B',
    values: {
      size: '185/65 R 15',
      ...radialRolling(0.00715),
      dryPeak: 0.9,
      wetPeak: 0.6,
      slipAtPeak: 0.12,
      loadExponent: 0.1,
    },
    spreads: {
      ...labelClass(0.0066, 0.0077),
      dryPeak: between(0.8, 1),
      wetPeak: between(0.5, 0.65),
      slipAtPeak: between(0.08, 0.2),
      loadExponent: between(0.05, 0.15),
    },
    source: `rolling: middle of class B (6.6 to 7.7 kg/t), ${LABEL}; ${SPEED_RULE}; friction: mean of 50 and 90 km/h, new and worn, dry, and of 50 km/h, 0.2 mm of water, ${BOSCH}; ${REST}`,
  },
  {
    kind: 'tyre',
    name: 'tyre_touring',
    title: 'Ordinary road tyre, label class C',
    values: {
      size: '175/70 R 13',
      ...radialRolling(0.0084),
      dryPeak: 0.95,
      wetPeak: 0.65,
      slipAtPeak: 0.12,
      loadExponent: 0.1,
    },
    spreads: {
      ...labelClass(0.0078, 0.009),
      dryPeak: between(0.85, 1.05),
      wetPeak: between(0.55, 0.75),
      slipAtPeak: between(0.08, 0.2),
      loadExponent: between(0.05, 0.15),
    },
    source: `rolling: middle of class C (7.8 to 9.0 kg/t), ${LABEL}; ${SPEED_RULE}; friction: between 0.85 new and 1 worn, dry, and 0.65 new, 0.2 mm of water, at 50 km/h, ${BOSCH}; ${REST}`,
  },
  {
    kind: 'tyre',
    name: 'tyre_sport',
    title: 'Sporting road tyre, label class E',
    values: {
      size: '195/50 R 15',
      ...radialRolling(0.0098),
      dryPeak: 1.1,
      wetPeak: 0.75,
      slipAtPeak: 0.1,
      loadExponent: 0.08,
    },
    spreads: {
      ...labelClass(0.0091, 0.0105),
      dryPeak: between(1, 1.2),
      wetPeak: between(0.65, 0.85),
      slipAtPeak: between(0.07, 0.15),
      loadExponent: between(0.04, 0.12),
    },
    source: `rolling: middle of class E (9.1 to 10.5 kg/t), ${LABEL}; ${SPEED_RULE}; friction: common practice, no source, above the road tyres and below the 1.8 of racing compounds in the ${BOSCH}; ${REST}`,
  },
  {
    kind: 'tyre',
    name: 'tyre_narrow',
    title: 'Narrow radial of an old small car, label class G',
    values: {
      size: '145/80 R 13',
      ...radialRolling(0.013),
      dryPeak: 0.85,
      wetPeak: 0.55,
      slipAtPeak: 0.15,
      loadExponent: 0.12,
    },
    spreads: {
      ...labelClass(0.0121, 0.0145),
      dryPeak: between(0.75, 0.95),
      wetPeak: between(0.45, 0.65),
      slipAtPeak: between(0.1, 0.2),
      loadExponent: between(0.06, 0.18),
    },
    source: `rolling: class G (12.1 kg/t and above), ${LABEL}, its open end from memory; ${SPEED_RULE}; friction: 0.85 of a new tyre, dry, and between 0.5 and 0.65, 0.2 mm of water, at 50 km/h, ${BOSCH}; ${REST}`,
  },
  {
    kind: 'tyre',
    name: 'tyre_cross_ply',
    title: 'Cross-ply tyre of an old car',
    values: {
      radius: 0.3,
      rollingResistance: 0.0169,
      rollingLinear: 0,
      rollingQuadratic: BIAS_QUADRATIC,
      dryPeak: 0.8,
      wetPeak: 0.5,
      slipAtPeak: 0.18,
      loadExponent: 0.15,
    },
    spreads: {
      radius: between(0.28, 0.33),
      rollingResistance: between(0.0145, 0.0195),
      dryPeak: between(0.7, 0.9),
      wetPeak: between(0.4, 0.6),
      slipAtPeak: between(0.12, 0.25),
      loadExponent: between(0.08, 0.2),
    },
    source: `rolling: 0.0169 + 0.19e-6 V^2, V in km/h, bias-ply car tyres in Wong, Theory of Ground Vehicles (from memory); friction: common practice, no source, at and below the lowest dry and wet figures for 50 km/h in the ${BOSCH}; ${REST}; give the radius of the car in hand`,
  },
];
