/** What a user says about the map, the torque table or the stated efficiencies of a drive unit; part of its fields. */
import type { Fields } from '../fields/field.ts';

const RPM = { metric: 'rpm', imperial: 'rpm' } as const;
const NM = { metric: 'N m', imperial: 'lbf ft' } as const;
const PERCENT = { metric: '%', imperial: '%' } as const;

/** A point at which the maker states an efficiency. */
const efficiencyPointFields = {
  speed: {
    kind: 'number',
    unit: 'rad/s',
    display: RPM,
    min: 1,
    max: (40_000 * Math.PI) / 30,
    doc: 'motor speed',
    required: true,
  },
  torque: {
    kind: 'number',
    unit: 'N m',
    display: NM,
    min: 0.1,
    max: 20_000,
    doc: 'torque at the shaft',
    required: true,
  },
  efficiency: {
    kind: 'number',
    unit: '1',
    display: PERCENT,
    min: 0.05,
    max: 1,
    doc: 'shaft power over input power',
    required: true,
  },
} as const satisfies Fields;

export const mapFields = {
  map: {
    kind: 'text',
    doc: 'CSV file beside the notebook: speed, torque and efficiency or loss, perhaps voltage, each with its unit in the header',
  },
  efficiencyPoints: {
    kind: 'groups',
    fields: efficiencyPointFields,
    doc: 'a few stated efficiencies, from which the loss constants are fitted',
  },
  mapIncludes: {
    kind: 'choice',
    choices: ['motor', 'motor and inverter'],
    doc: 'whose losses are in the map or in the stated efficiencies; needed with either of them',
  },
  torqueTable: {
    kind: 'text',
    doc: 'CSV file beside the notebook: speed and peak torque, perhaps voltage; takes the place of the two peaks',
  },
} as const satisfies Fields;
