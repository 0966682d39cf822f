/** What a user says about a tyre. */
import type { Fields } from '../fields/field.ts';
import { assume, COMMON, number, usually } from '../fields/table.ts';
import type { SpecOf } from '../fields/table.ts';

/** c2 in s2/m2: radial-ply car tyres 0.40e-7 V^2, V in km/h (Wong, *Theory of Ground Vehicles*, from memory). */
export const RADIAL_QUADRATIC = 0.4e-7 * 3.6 ** 2;

/** Sliding over peak friction. */
const SLIDE_SHARE = assume(
  0.87,
  'asphalt and concrete, dry and wet: 0.83 to 0.94, Wong, Theory of Ground Vehicles (from memory)',
  [0.79, 0.95],
);

const ADHESION = 'Wong, Theory of Ground Vehicles, average values of the coefficient of road adhesion (from memory)';

/** A tyre, for both wheels of an axle. */
export const tyreFields = {
  size: {
    kind: 'text',
    doc: 'size code on the sidewall, such as "165/80 R 13"; gives the radius, and by itself no grip',
    looks: '^(P|LT)?\\s*\\d{3}\\s*(/\\s*\\d{2}\\s*)?[A-Z]{0,2}\\s*R\\s*\\d{2}',
  },
  radius: number('m', ['mm', 'in'], [0.1, 0.8], 'effective rolling radius', {
    derived: 'from the size: rolling circumference 3.05 times the free diameter (ETRTO rule, from memory)',
    computed: true,
    ...usually(0.2, 0.45),
  }),
  rollingResistance: number('1', '1', [0, 0.1], 'rolling resistance coefficient c0 at walking pace and 25 °C', {
    ...assume(
      0.0096,
      'class E of Regulation (EC) 1222/2009 Annex I Part A (9.1 to 10.5 kg/t), less the rise up to the 80 km/h of the label',
      [0.0075, 0.0117],
    ),
    ...usually(0.004, 0.03),
  }),
  rollingLinear: number('s/m', 's/m', [0, 0.01], 'c1 in c0 + c1 v + c2 v^2', {
    ...assume(0, 'radial-ply tyres rise with the square alone, Wong, Theory of Ground Vehicles (from memory)'),
  }),
  rollingQuadratic: number('s^2/m^2', 's^2/m^2', [0, 0.001], 'c2 in c0 + c1 v + c2 v^2', {
    ...assume(
      RADIAL_QUADRATIC,
      'radial-ply car tyres 0.40e-7 V^2, V in km/h, Wong, Theory of Ground Vehicles (from memory)',
    ),
  }),
  dryPeak: number('1', '1', [0.05, 3], 'peak friction on a dry road at the reference load', {
    ...assume(0.95, 'between new and worn tyres at 50 and 90 km/h, Bosch Automotive Handbook', [0.85, 1.05]),
    ...usually(0.5, 1.8),
  }),
  drySlide: number('1', '1', [0.02, 3], 'friction of the sliding tyre on a dry road, beside its peak', {
    derived: 'dry_slide_share of the peak',
    computed: true,
    below: { as: 'share', path: 'dry_peak' },
  }),
  drySlideShare: number('1', '%', [0.2, 0.995], 'the same as a share of the peak', {
    ...SLIDE_SHARE,
  }),
  wetPeak: number('1', '1', [0.03, 3], 'peak friction on a wet road at the reference load', {
    derived:
      '0.68 of the dry peak, 0.6 to 0.76 (Bosch Automotive Handbook: 0.65 against 0.85 to 1 at 50 km/h, new and worn)',
  }),
  wetSlide: number('1', '1', [0.02, 3], 'friction of the sliding tyre on a wet road, beside its peak', {
    derived: 'wet_slide_share of the wet peak',
    computed: true,
    below: { as: 'share', path: 'wet_peak' },
  }),
  wetSlideShare: number('1', '%', [0.2, 0.995], 'the same as a share of the wet peak', {
    ...SLIDE_SHARE,
  }),
  snowPeak: number('1', '1', [0.02, 2], 'peak friction on hard-packed snow at the reference load', {
    ...assume(0.2, `${ADHESION}; a winter tyre 0.3 and more, common practice`, [0.13, 0.27]),
  }),
  snowSlideShare: number('1', '%', [0.2, 0.995], 'friction of the sliding tyre on snow, as a share of that peak', {
    ...assume(0.75, `0.15 against 0.2, ${ADHESION}`, [0.65, 0.85]),
  }),
  icePeak: number('1', '1', [0.01, 1], 'peak friction on smooth ice at the reference load', {
    ...assume(0.1, ADHESION, [0.05, 0.15]),
  }),
  iceSlideShare: number('1', '%', [0.2, 0.995], 'friction of the sliding tyre on ice, as a share of that peak', {
    ...assume(0.7, `0.07 against 0.1, ${ADHESION}`, [0.6, 0.8]),
  }),
  pressure: number('Pa', ['kPa', 'psi'], [80_000, 600_000], 'in the tyre, cold', {
    derived: 'reference_pressure, 0.9 to 1.1 of it: as tyres are found on the road (common practice, no source)',
    ...usually(140_000, 350_000),
  }),
  referencePressure: number('Pa', ['kPa', 'psi'], [80_000, 600_000], 'at which the rolling resistance is stated', {
    ...assume(210_000, 'ISO 28580: 210 kPa for car tyres of standard load, 250 kPa for extra load (from memory)'),
  }),
  pressureExponent: number(
    '1',
    '1',
    [0, 1],
    'a in (p/p0)^-a, by which rolling resistance falls as the pressure rises',
    {
      ...assume(0.4, 'the exponent of pressure in SAE J2452, car tyres -0.3 to -0.5 (from memory)', [0.3, 0.5]),
    },
  ),
  coldRise: number(
    '1',
    '%',
    [0, 1],
    'by which the rolling resistance of a tyre that has stood for long is higher than that of a warm one',
    {
      ...assume(
        0.2,
        'a tyre gets some 25 K warmer than the air, 12 to 38 K (common practice, no source), at 0.8 % per kelvin (ISO 28580, from memory)',
        [0.1, 0.3],
      ),
    },
  ),
  warmAfter: number('s', 'min', [1, 36_000], 'driving after which a tyre is warm', {
    ...assume(
      1800,
      'ISO 28580 has car tyres run for 30 min before it measures (from memory); the spread is common practice',
      [1200, 2700],
    ),
  }),
  coldAfter: number('s', 'h', [1, 360_000], 'standing after which a tyre is cold', {
    ...assume(
      10_800,
      'tyres count as cold, for their pressure, after 3 h of standing: common practice, no source',
      [7200, 14_400],
    ),
  }),
  slipAtPeak: number('1', '%', [0, 0.6], 'longitudinal slip at the peak; 0 takes the tyre as rigid', {
    ...assume(0.12, 'usual range on hard roads, Wong, Theory of Ground Vehicles (from memory)', [0.08, 0.2]),
  }),
  loadExponent: number('1', '1', [0, 0.5], 'q in mu = mu0 (N/N0)^-q: friction falls as the load grows', {
    ...assume(0.1, COMMON, [0.05, 0.15]),
  }),
  loadReference: number('N', ['N', 'lbf'], [100, 50_000], 'load of the axle N0 at which the friction is stated', {
    derived:
      'three quarters of what two such tyres carry by the load index in their size, as in the grip test of UN Regulation No. 117; ' +
      'without an index as if one carried 500 kg at a radius of 0.29 m, with its cube, ± 12 % (ETRTO sizes; all from memory)',
  }),
  inertia: number('kg m^2', 'kg m^2', [0, 10], 'of one wheel with tyre, disc or drum, and hub', {
    derived: '0.9 kg m^2 at 0.30 m radius, with the fourth power of the radius (common practice, no source)',
  }),
} as const satisfies Fields;

export type TyreSpec = SpecOf<typeof tyreFields>;
