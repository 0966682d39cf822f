/** What a user says about a measured road load. */
import type { Fields } from '../fields/field.ts';
import { assume, KG, number } from '../fields/table.ts';

/** What a coast-down says; takes the place of rolling resistance and drag. */
export const roadLoadFields = {
  f0: number('N', ['N', 'lbf'], [0, 5000], 'F0 in F0 + F1 v + F2 v^2', { required: true }),
  f1: number('N s/m', ['N s/m', 'lbf/mph'], [-50, 200], 'F1', { required: true }),
  f2: number('N s^2/m^2', ['N s^2/m^2', 'N s^2/m^2'], [0, 10], 'F2', { required: true }),
  testMass: number('kg', KG, [50, 40_000], 'of the car when it was measured, people included', {
    derived: 'the mass of car, driver and load',
    computed: true,
  }),
  temperature: number('K', ['degC', 'degF'], [253.15, 323.15], 'of the air to which the figures are corrected', {
    ...assume(293.15, 'UN GTR 15 and SAE J1263 correct to 20 °C (from memory)'),
  }),
  pressure: number('Pa', ['kPa', 'psi'], [80_000, 110_000], 'of that air, which is dry', {
    ...assume(
      100_000,
      'UN GTR 15: 100 kPa; SAE J1263 and J2263: 98.21 kPa; sea level: 101.325 kPa (from memory)',
      [98_210, 101_325],
    ),
  }),
  coupled: {
    kind: 'choice',
    choices: ['yes', 'no'],
    doc:
      'whether motor and gears turned along: then drag_torque, windage_loss and iron_loss of the drive are in the measured figures ' +
      'and are not counted again; no: out of gear, or measured before the conversion',
    default: { value: 'yes', source: 'a drive of one ratio has no neutral' },
  },
  contained: number('1', '%', [0, 1], 'for coupled: share of the iron loss that the figures contain', {
    ...assume(
      1,
      'magnets turn along; an induction motor without flux has no iron loss; common practice, no source',
      [0.6, 1],
    ),
  }),
} as const satisfies Fields;
