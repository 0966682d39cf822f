/** Generic battery cells at 25 degC, new. */
import { between } from '../parts/part.ts';
import type { CellPart } from '../parts/part.ts';

const AH = 3600;

const OCV_STUDY =
  'open-circuit voltage: break points of a C/32 measurement at room temperature, data companion to "Piecewise Linear ' +
  'Approximation of Battery Open-Circuit Voltage Characteristics Using Dynamic Programming", IEEE Trans. Instrumentation ' +
  'and Measurement 2025';

const NMC_OCV = {
  ocvCharge: [0, 0.0151, 0.0452, 0.0955, 0.1508, 0.2915, 0.4573, 0.8342, 0.9497, 1],
  ocvVoltage: [2.5061, 2.8981, 3.1461, 3.3231, 3.4218, 3.5737, 3.7017, 4.0637, 4.1009, 4.1932],
} as const;

const LFP_OCV = {
  ocvCharge: [0, 0.0033, 0.0117, 0.0267, 0.0534, 0.0885, 0.2972, 0.9833, 0.995, 1],
  ocvVoltage: [2.0102, 2.4177, 2.7405, 2.9299, 3.0872, 3.1942, 3.2772, 3.3511, 3.418, 3.5981],
} as const;

/** Ohmic resistance over its value at half charge: rises when nearly empty (shape from memory). */
const RESISTANCE_CHARGE = [0, 0.1, 0.2, 0.5, 0.9, 1] as const;
const RESISTANCE_SHAPE = [1.6, 1.2, 1.05, 1, 1, 1.05] as const;

function resistance(ohm: number): { resistanceCharge: readonly number[]; resistanceOhm: readonly number[] } {
  return { resistanceCharge: RESISTANCE_CHARGE, resistanceOhm: RESISTANCE_SHAPE.map(share => share * ohm) };
}

export const cells: readonly CellPart[] = [
  {
    kind: 'cell',
    name: 'cell_nmc_21700',
    title: 'NMC, round 21700, 4.2 Ah',
    values: {
      capacity: 4.2 * AH,
      ...NMC_OCV,
      ...resistance(0.018),
      resistanceFactor: 1,
      pairResistance: [0.008],
      pairTimeConstant: [20],
      maxCurrent: 25,
      minVoltage: 2.5,
      maxVoltage: 4.2,
      mass: 0.069,
    },
    spreads: {
      resistanceFactor: between(0.7, 1.3),
      maxCurrent: between(13, 35),
      mass: between(0.066, 0.072),
      capacity: between(4.1 * AH, 4.3 * AH),
    },
    source: `${OCV_STUDY}; resistances (± 30 %), current limit and mass from memory`,
  },
  {
    kind: 'cell',
    name: 'cell_nmc_60ah',
    title: 'NMC, large format, 60 Ah',
    values: {
      capacity: 60 * AH,
      ...NMC_OCV,
      ...resistance(0.001),
      resistanceFactor: 1,
      pairResistance: [0.0006],
      pairTimeConstant: [25],
      maxCurrent: 360,
      minVoltage: 2.8,
      maxVoltage: 4.2,
      mass: 0.9,
    },
    spreads: {
      resistanceFactor: between(0.6, 1.4),
      capacity: between(58.2 * AH, 61.8 * AH),
      maxCurrent: between(240, 480),
      mass: between(0.8, 1.05),
    },
    source: `${OCV_STUDY}, taken over from the round 21700 cell; resistances (± 40 %), current limit, mass and ± 3 % of capacity from memory`,
  },
  {
    kind: 'cell',
    name: 'cell_nmc_60ah_module',
    title: 'NMC, prismatic, 60 Ah, older and with its share of the module: about 110 Wh/kg',
    values: {
      capacity: 60 * AH,
      ...NMC_OCV,
      ...resistance(0.0013),
      resistanceFactor: 1,
      pairResistance: [0.0008],
      pairTimeConstant: [25],
      maxCurrent: 300,
      minVoltage: 2.8,
      maxVoltage: 4.2,
      mass: 2.0,
    },
    spreads: {
      resistanceFactor: between(0.6, 1.4),
      capacity: between(58.2 * AH, 61.8 * AH),
      maxCurrent: between(200, 400),
      mass: between(1.75, 2.3),
    },
    source: `${OCV_STUDY}, taken over from the round 21700 cell; resistances (± 40 %), current limit, mass (modules out of cars of the years 2010 to 2016: 95 to 125 Wh/kg) and ± 3 % of capacity from memory`,
  },
  {
    kind: 'cell',
    name: 'cell_pouch_27ah',
    title: 'Layered oxide (chemistry not stated in the source), pouch, 27 Ah',
    values: {
      capacity: 27 * AH,
      ocvCharge: [0, 0.1, 0.25, 0.5, 0.75, 0.9, 1],
      ocvVoltage: [3.5, 3.57, 3.63, 3.71, 3.93, 4.08, 4.19],
      resistanceCharge: [0, 0.1, 0.25, 0.5, 0.75, 0.9, 1],
      resistanceOhm: [0.0085, 0.0085, 0.0087, 0.0082, 0.0083, 0.0085, 0.0085],
      resistanceFactor: 1,
      pairResistance: [0.0022],
      pairTimeConstant: [50],
      maxCurrent: 100,
      minVoltage: 2.7,
      maxVoltage: 4.2,
      mass: 0.57,
    },
    spreads: {
      resistanceFactor: between(0.8, 1.2),
      capacity: between(26.2 * AH, 27.8 * AH),
      maxCurrent: between(80, 135),
      mass: between(0.5, 0.65),
    },
    source:
      'open parameter file of a measured pouch cell at 293 K (open-circuit voltage, ohmic resistance, one RC pair over the ' +
      'state of charge; the pair as its mean, single points 1.6 to 2.9 mohm and 29 to 105 s); ± 20 % of the resistances, ± 3 % of capacity, current limit, voltage limits ' +
      'and mass from memory',
  },
  {
    kind: 'cell',
    name: 'cell_nca_18650',
    title: 'NCA, round 18650, 3.2 Ah',
    values: {
      capacity: 3.2 * AH,
      ocvCharge: [0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1],
      ocvVoltage: [2.8, 3.22, 3.36, 3.49, 3.58, 3.66, 3.74, 3.84, 3.93, 4.03, 4.08, 4.19],
      ...resistance(0.035),
      resistanceFactor: 1,
      pairResistance: [0.015],
      pairTimeConstant: [20],
      maxCurrent: 10,
      minVoltage: 2.5,
      maxVoltage: 4.2,
      mass: 0.0475,
    },
    spreads: {
      resistanceFactor: between(0.6, 1.4),
      capacity: between(3.0 * AH, 3.4 * AH),
      maxCurrent: between(6, 15),
      mass: between(0.045, 0.05),
    },
    source:
      'from memory throughout: open-circuit voltage ± 40 mV above 10 % charge and ± 150 mV below, resistances ± 40 %; ' +
      'replace by the data sheet where it is known',
  },
  {
    kind: 'cell',
    name: 'cell_lfp_18650',
    title: 'LFP, round 18650, 1.2 Ah',
    values: {
      capacity: 1.2 * AH,
      ...LFP_OCV,
      ...resistance(0.02),
      resistanceFactor: 1,
      pairResistance: [0.01],
      pairTimeConstant: [20],
      maxCurrent: 20,
      minVoltage: 2,
      maxVoltage: 3.6,
      mass: 0.04,
    },
    spreads: {
      resistanceFactor: between(0.6, 1.4),
      capacity: between(1.1 * AH, 1.25 * AH),
      maxCurrent: between(10, 30),
      mass: between(0.038, 0.042),
    },
    source: `${OCV_STUDY}; resistances (± 40 %), current limit and mass from memory`,
  },
  {
    kind: 'cell',
    name: 'cell_lfp_100ah',
    title: 'LFP, prismatic, 100 Ah',
    values: {
      capacity: 100 * AH,
      ...LFP_OCV,
      ...resistance(0.0005),
      resistanceFactor: 1,
      pairResistance: [0.0004],
      pairTimeConstant: [60],
      maxCurrent: 300,
      minVoltage: 2.5,
      maxVoltage: 3.65,
      mass: 2.2,
    },
    spreads: {
      resistanceFactor: between(0.5, 1.5),
      capacity: between(97 * AH, 103 * AH),
      maxCurrent: between(200, 500),
      mass: between(1.9, 3.2),
    },
    source: `${OCV_STUDY}, taken over from the round 18650 cell; resistances (± 50 %), current limit, mass and ± 3 % of capacity from memory`,
  },
];
