/** Cars that a workshop might build, within what such cars are like (common practice, no source): odd ones too, no absurd ones. */
import { shippedParts } from '../../src/model/parts/shipped.ts';
import type { Entries, Value } from './page.ts';
import type { Random } from './random.ts';

const SIZES = ['145/80 R 13', '165/70 R 13', '175/65 R 14', '185/60 R 14', '195/65 R 15', '205/55 R 16', '225/45 R 17'];

type Pair = readonly [string, Value];

const some = (random: Random, share: number, ...pairs: readonly Pair[]): readonly Pair[] =>
  random.chance(share) ? pairs : [];
const n = (value: number, unit = ''): string => `${Number(value.toPrecision(5))} ${unit}`.trim();

export interface SaneCar {
  readonly entries: Entries;
  /** kg, without people. */
  readonly mass: number;
}

export function saneCar(random: Random): SaneCar {
  const mass = Number(random.spread(550, 2300).toPrecision(5));
  const radius = random.between(0.26, 0.36);
  const both = random.chance(0.12);
  const voltage = random.spread(90, 420);
  const power = random.spread(15e3, 250e3);
  const second = !both && random.chance(0.12);
  const axle = both ? 'both' : random.of(['front', 'rear']);
  const entries: Entries = [
    ['mass', n(mass, 'kg')],
    ...some(random, 0.2, ['driver', n(random.between(55, 110), 'kg')]),
    ...some(random, 0.3, ['load', n(random.between(0, 350), 'kg')]),
    ...some(random, 0.4, ['front_share', n(random.between(42, 62), '%')]),
    ...some(random, 0.4, ['wheelbase', n(random.between(2, 2.95), 'm')]),
    ...some(random, 0.4, ['cg_height', n(random.between(0.45, 0.65), 'm')]),
    ...body(random),
    ...some(random, 0.3, ['hub_drag', n(random.between(5, 60), 'N')]),
    ...some(random, 0.12, ['trailer', trailer(random)]),
    ['tyres', tyres(random, radius)],
    ['drive', drive(random, axle, power, voltage, radius)],
    ...(second
      ? [
          [
            'second_drive',
            drive(random, axle === 'front' ? 'rear' : 'front', power * random.between(0.2, 1), voltage, radius),
          ] as const,
        ]
      : []),
    ...(second ? some(random, 0.5, ['front_torque_share', n(random.between(20, 80), '%')]) : []),
    ['pack', pack(random, voltage)],
    ...some(random, 0.3, ['auxiliaries', [['power', n(random.between(100, 800), 'W')]]]),
    ...some(random, 0.45, ['cabin', cabin(random)]),
    ...some(random, 0.4, ['charger', charger(random)]),
    ...some(random, 0.06, [
      'road_load',
      [
        ['test_mass', n(mass + 75, 'kg')],
        ['f0', n(random.between(80, 260), 'N')],
        ['f1', n(random.between(0, 3), 'N s/m')],
        ['f2', n(random.between(0.25, 0.6), 'N s^2/m^2')],
      ],
    ]),
  ];
  return { entries, mass };
}

function trailer(random: Random): Entries {
  const mass = random.spread(200, 1300);
  return [
    ['mass', n(mass, 'kg')],
    ...some(random, 0.5, ['hitch_load', n(mass * random.between(0.03, 0.1), 'kg')]),
    ...some(random, 0.5, ['drag_area', n(random.between(0.2, 2.2), 'm^2')]),
    ...some(random, 0.3, ['hitch_height', n(random.between(0.35, 0.45), 'm')]),
    ...some(random, 0.3, ['overhang', n(random.between(0.6, 1.1), 'm')]),
  ];
}

function body(random: Random): readonly Pair[] {
  return random.chance(0.5)
    ? [['drag_area', n(random.between(0.5, 1.1), 'm^2')]]
    : some(
        random,
        0.6,
        ['drag_coefficient', n(random.between(0.28, 0.5))],
        ['frontal_area', n(random.between(1.6, 2.5), 'm^2')],
      );
}

function tyres(random: Random, radius: number): Value {
  if (random.chance(0.25)) return random.of(shippedParts('tyre').filter(({ name }) => name !== 'tyre_cross_ply')).name;
  const peak = random.between(0.7, 1.15);
  return [
    random.chance(0.5) ? ['size', random.of(SIZES)] : ['radius', n(radius, 'm')],
    ...some(random, 0.5, ['rolling_resistance', n(random.between(0.007, 0.015))]),
    ...some(random, 0.5, ['dry_peak', n(peak)], ['dry_slide', n(peak * random.between(0.65, 0.95))]),
    ...some(random, 0.3, ['pressure', n(random.between(160, 270), 'kPa')]),
    ...some(random, 0.3, ['slip_at_peak', n(random.between(5, 20), '%')]),
    ...some(random, 0.3, ['load_exponent', n(random.between(0, 0.18))]),
    ...some(random, 0.3, ['inertia', n(random.between(0.4, 1.5), 'kg m^2')]),
  ];
}

function drive(random: Random, axle: string, power: number, voltage: number, radius: number): Entries {
  const geared = random.chance(0.2);
  const base = random.between(2200, 6000);
  const torque = power / (base * (Math.PI / 30));
  const fastest = base * random.between(2.2, 4);
  const top = random.between(100, 210) / 3.6;
  const ratio = (fastest * (Math.PI / 30) * radius) / top;
  const inTop = random.between(0.8, 1.1);
  return [
    ['axle', axle],
    ...(axle === 'both' ? some(random, 0.5, ['front_torque_share', n(random.between(30, 60), '%')]) : []),
    ['unit', unit(random, power, torque, fastest, voltage)],
    ['ratio', n(geared ? ratio / inTop : ratio)],
    ...(geared ? [['gearbox', gearbox(random, inTop)] as const] : []),
    ...some(random, 0.3, ['efficiency', n(random.between(93, 98.5), '%')]),
    ...some(random, 0.3, ['drag_torque', n(random.between(0.1, 1.5), 'N m')]),
    ...some(random, 0.15, ['suspension', 'live'], ['axle_ratio', n(random.between(2.8, 5))]),
    ...some(random, 0.15, ['differential', random.of(['open', 'locking'])]),
    ...some(random, 0.15, ['shaft_torque', n(random.between(1500, 4500), 'N m')]),
    ...some(random, 0.5, ['traction', random.of(['held', 'spin', 'share'])]),
    ...some(random, 0.5, ['regeneration', regeneration(random, torque)]),
  ];
}

function unit(random: Random, power: number, torque: number, fastest: number, voltage: number): Value {
  if (random.chance(0.15)) return random.of(shippedParts('unit')).name;
  return [
    ['peak_torque', n(torque, 'N m')],
    ['peak_power', n(power / 1e3, 'kW')],
    ...some(random, 0.8, ['max_speed', n(fastest, 'rpm')]),
    ...some(random, 0.2, ['reference_voltage', n(voltage * random.between(0.85, 1.05), 'V')]),
    ...some(random, 0.2, ['inertia', n(random.between(0.01, 0.08), 'kg m^2')]),
    ...some(random, 0.2, ['least_voltage', n(voltage * random.between(0.5, 0.95), 'V')]),
    ...some(random, 0.2, ['greatest_voltage', n(voltage * random.between(1.2, 1.6), 'V')]),
    ...some(random, 0.3, ['inverter_efficiency', n(random.between(94, 99), '%')]),
    ...some(
      random,
      0.3,
      ['continuous_power', n((power * random.between(0.25, 0.7)) / 1e3, 'kW')],
      ['overload_time', n(random.between(20, 180), 's')],
    ),
    ...some(random, 0.1, ['continuous_speed', n(fastest * random.between(0.5, 0.8), 'rpm')]),
    ...some(random, 0.3, ['power_at_top', n(random.between(60, 100), '%')]),
    ...some(random, 0.3, ['torque_rise', n(random.between(0, 0.3), 's')]),
  ];
}

function gearbox(random: Random, top: number): Entries {
  const first = top * random.between(2.6, 4);
  const count = random.whole(2, 5);
  const gears = Array.from({ length: count }, (_, k) => n(first * (top / first) ** (k / (count - 1))));
  return [
    ['gears', `[${gears.join(', ')}]`],
    ...some(random, 0.6, ['shift', random.of(['best', 'speed'])]),
    ...some(random, 0.4, ['shift_time', n(random.between(0.1, 1.2), 's')]),
  ];
}

function regeneration(random: Random, torque: number): Entries {
  return [
    ['kind', random.of(['blended', 'lift', 'none'])],
    ...some(random, 0.3, ['torque', n(torque * random.between(0.2, 0.9), 'N m')]),
    ...some(random, 0.3, ['grip_share', n(random.between(20, 80), '%')]),
  ];
}

/** Cells in series for the voltage, in parallel for 8 to 90 kWh. */
function pack(random: Random, voltage: number): Value {
  if (random.chance(0.1)) return random.of(shippedParts('pack')).name;
  const cell = random.of(shippedParts('cell'));
  const volts = 3.6;
  const series = Math.round(voltage / volts);
  const each = (cell.values.capacity ?? 3.6e5) * volts;
  const parallel = Math.max(1, Math.round((random.spread(8, 90) * 3.6e6) / (series * each)));
  return [
    ['cell', cell.name],
    ['series', String(series)],
    ['parallel', String(parallel)],
    ...some(random, 0.5, ['charge', n(random.between(30, 100), '%')]),
    ...some(random, 0.4, ['health', n(random.between(72, 100), '%')], ['resistance_growth', n(random.between(1, 2))]),
    ...some(random, 0.4, ['cooling', n(random.between(0, 250), 'W/K')]),
    ...some(random, 0.3, [
      'continuous_current',
      n(parallel * (cell.values.maxCurrent ?? 50) * random.between(0.15, 0.95), 'A'),
    ]),
    ...some(random, 0.2, ['discharge_full_above', n(random.between(0, 20), 'degC')]),
    ...some(random, 0.2, ['low_charge', n(random.between(0, 30), '%')], ['low_share', n(random.between(10, 60), '%')]),
    ...some(random, 0.3, ['wiring_resistance', n(random.between(2, 40), 'mohm')]),
    ...some(
      random,
      0.3,
      ['window_low', n(random.between(0, 12), '%')],
      ['window_high', n(random.between(85, 100), '%')],
    ),
  ];
}

function cabin(random: Random): Entries {
  return [
    ['heater', random.of(['resistive', 'heat pump', 'none'])],
    ['cooler', random.of(['yes', 'no'])],
    ...some(random, 0.3, ['heater_power', n(random.between(2, 7), 'kW')]),
    ...some(random, 0.3, ['loss', n(random.between(40, 130), 'W/K')]),
  ];
}

function charger(random: Random): Entries {
  return [
    ['power', n(random.between(1.2, 7.4), 'kW')],
    ...some(random, 0.4, ['count', String(random.whole(1, 3))]),
    ...some(random, 0.5, ['efficiency', n(random.between(86, 95), '%')]),
    ...some(random, 0.3, ['max_current', n(random.between(6, 60), 'A')]),
    ...some(random, 0.2, ['least_voltage', n(random.between(30, 330), 'V')]),
    ...some(random, 0.2, ['greatest_voltage', n(random.between(350, 500), 'V')]),
  ];
}
