/** One sane car and one question to it. */
import { scheduleNames } from '../../src/cycles/schedules.ts';
import type { Entries, Page, PageCell } from './page.ts';
import type { Random } from './random.ts';
import { saneCar } from './sane-car.ts';

/** Figures of each run that a study is asked for as well. */
export const FIGURES = {
  launch: ['time', 'time_quarter_mile', 'speed_quarter_mile', 'time_to_50_km_h', 'time_to_100_km_h', 'time_60_ft'],
  drive: ['consumption', 'consumption_wall', 'charge_end', 'time_too_slow', 'energy', 'distance', 'time'],
  range: ['range', 'consumption', 'consumption_wall'],
  steady: ['range', 'consumption', 'consumption_wall', 'time'],
  charge: ['time', 'energy_wall'],
  coast: ['time', 'distance', 'energy_back', 'force_start', 'end_speed'],
} as const;

export const QUESTIONS = ['launch', 'drive', 'range', 'steady', 'charge', 'coast', 'sheet'] as const;
export type Question = (typeof QUESTIONS)[number];

const n = (value: number, unit = ''): string => `${Number(value.toPrecision(5))} ${unit}`.trim();

type Pair = Entries[number];

export function sanePage(random: Random, question: Question = random.of(QUESTIONS)): Page {
  const car = saneCar(random);
  const cells: PageCell[] = [
    { head: 'yaml car', name: 'c', body: car.entries },
    { head: `yaml ${question}`, name: 'l', body: [['car', 'c'], ...asked(random, question, car.mass)] },
  ];
  if (question !== 'sheet') cells.push(oneRow('l', question, 'c.mass', `${car.mass} kg`));
  return { front: [['samples', '0']], cells, prose: [] };
}

/** A sweep that has the car as it is for its only row. */
export function oneRow(run: string, kind: keyof typeof FIGURES, path: string, value: string): PageCell {
  return {
    head: 'yaml sweep',
    name: `same_${run}`,
    body: [
      ['of', run],
      ['outputs', FIGURES[kind].map(key => `${run}.${key}`).join(', ')],
      [
        'over',
        [
          [
            ['path', path],
            ['values', value],
          ],
        ],
      ],
    ],
  };
}

function asked(random: Random, question: Question, mass: number): Entries {
  const day = weather(random);
  const sloped: readonly Pair[] = random.chance(0.15) ? [['slope', n(random.between(-3, 6), '%')]] : [];
  switch (question) {
    case 'launch':
      return [
        ...(random.chance(0.2) ? [['to', n(random.between(40, 150), 'km/h')] as const] : []),
        ...(random.chance(0.15) ? [['from', n(random.between(0, 60), 'km/h')] as const] : []),
        ...(random.chance(0.15) ? [['pedal', n(random.between(40, 100), '%')] as const] : []),
        ...day,
        ...sloped,
      ];
    case 'drive':
      return [...way(random), ...day];
    case 'range':
      return [
        ...(random.chance(0.15) ? [['standard', random.of(['wltp', 'udds', 'hwfet', 'mct'])] as const] : way(random)),
        ...(random.chance(0.3) ? [['reserve', n(random.between(0, 20), '%')] as const] : []),
        ...(random.chance(0.4)
          ? [['temperatures', `${n(random.between(-20, 5), 'degC')}, ${n(random.between(10, 38), 'degC')}`] as const]
          : []),
        ...day,
      ].filter(([key], _k, all) => !all.some(([other]) => other === 'standard') || key === 'standard');
    case 'steady':
      return [['speed', n(random.between(30, 120), 'km/h')], ...day];
    case 'coast':
      return [
        ['from', n(random.between(60, 130), 'km/h')],
        ...(random.chance(0.5) ? [['to', n(random.between(0, 50), 'km/h')] as const] : []),
        ...(random.chance(0.5)
          ? [
              ['in', 'gear'] as const,
              ...(random.chance(0.4) ? [['lift', n(random.between(10, 100), '%')] as const] : []),
            ]
          : []),
        ...(random.chance(0.2) ? [['slope', n(random.between(-3, 4), '%')] as const] : []),
        ...day,
      ];
    case 'charge':
      return [
        ...(random.chance(0.4) ? [['from', n(random.between(5, 50), '%')] as const] : []),
        ...(random.chance(0.4) ? [['to', n(random.between(60, 100), '%')] as const] : []),
        ...(random.chance(0.6) ? [['supply', supply(random)] as const] : []),
        ...(random.chance(0.6) ? [['temperature', n(random.between(-5, 38), 'degC')] as const] : []),
        ...(random.chance(0.3) ? [['consumption', n(random.between(110, 260), 'Wh/km')] as const] : []),
      ];
    default:
      return [
        ...(random.chance(0.4) ? [['gross_mass', n(mass + 480 + random.between(0, 300), 'kg')] as const] : []),
        ...day,
      ];
  }
}

function weather(random: Random): Entries {
  return [
    ...(random.chance(0.6) ? [['temperature', n(random.between(-18, 38), 'degC')] as const] : []),
    ...(random.chance(0.15) ? [['altitude', n(random.between(0, 2200), 'm')] as const] : []),
    ...(random.chance(0.15) ? [['wind', n(random.between(-20, 30), 'km/h')] as const] : []),
    ...(random.chance(0.15) ? [['surface', random.of(['dry', 'wet', 'snow', 'ice'])] as const] : []),
  ];
}

function way(random: Random): Entries {
  const kind = random.next();
  if (kind < 0.6) return [['schedule', random.of(scheduleNames)]];
  if (kind < 0.8)
    return [
      ['speed', n(random.between(30, 115), 'km/h')],
      ['distance', n(random.spread(2, 60), 'km')],
    ];
  return [['trip', Array.from({ length: random.whole(1, 4) }, (_, k) => leg(random, k === 0))]];
}

function leg(random: Random, first: boolean): Entries {
  if (!first && random.chance(0.2)) return [['stop', n(random.spread(0.1, 12), 'h')]];
  return [
    ...(random.chance(0.6)
      ? [['schedule', random.of(scheduleNames)] as const]
      : ([
          ['speed', n(random.between(30, 110), 'km/h')],
          ['distance', n(random.spread(1, 30), 'km')],
        ] as const)),
    ...(random.chance(0.3) ? [['load', n(random.between(0, 300), 'kg')] as const] : []),
    ...(random.chance(0.2) ? [['slope', n(random.between(-4, 5), '%')] as const] : []),
    ...(random.chance(0.2) ? [['times', String(random.whole(1, 4))] as const] : []),
  ];
}

function supply(random: Random): Entries {
  return [
    ['voltage', random.of(['230 V', '120 V', '240 V'])],
    ['current', n(random.between(6, 32), 'A')],
    ['phases', String(random.whole(1, 3))],
  ];
}
