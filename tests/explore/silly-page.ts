/** Whole notebooks with every kind of cell and any fields, odd and silly as the stated limits allow. */
import type { Fields } from '../../src/model/fields/field.ts';
import { carFields } from '../../src/model/spec.ts';
import { CELL_KINDS } from '../../src/notebook/cells/registry.ts';
import { partFields } from '../../src/notebook/cells/part.ts';
import type { Entries, Page, PageCell, Value } from './page.ts';
import type { Random } from './random.ts';
import { FIGURES, oneRow } from './sane-page.ts';
import { saneCar } from './sane-car.ts';
import { anyFields, sillier } from './silly-fields.ts';

const RUNS = ['launch', 'drive', 'range', 'steady', 'charge', 'coast'] as const;
type Run = (typeof RUNS)[number];
const OTHERS = ['sheet', 'repeat', 'weigh', 'launch', 'drive', 'range', 'steady', 'charge', 'coast'] as const;
const STUDIES = ['compare', 'sweep', 'spread', 'rank', 'seek'] as const;
const SHIPPED_WAYS = ['schedule', 'speed', 'trip', 'mix', 'log'] as const;

/** Numbers of the car that studies vary, with their plausible ends. */
const AXES: readonly (readonly [path: string, low: string, high: string])[] = [
  ['mass', '800 kg', '1500 kg'],
  ['drive.ratio', '4', '12'],
  ['pack.parallel', '1', '6'],
  ['pack.health', '70 %', '100 %'],
  ['drive.unit.peak_power', '40 kW', '150 kW'],
];

export function sillyPage(random: Random): Page {
  const cells: PageCell[] = [];
  const names: { [kind: string]: string[] } = {};
  const add = (head: string, kind: string, body: PageCell['body']): string => {
    const name = `${kind.slice(0, 2)}${cells.length + 1}`;
    cells.push({ head, name, body });
    (names[kind] ??= []).push(name);
    return name;
  };
  for (let k = random.whole(0, 2); k > 0; k -= 1) {
    const kind = random.of([...partFields.keys()]);
    const fields = partFields.get(kind) ?? {};
    const body = [['kind', kind] as const, ...anyFields(random, fields, { cells: names, share: 0.3 })];
    const name = add('yaml part', 'part', body);
    (names[kind] ??= []).push(name);
  }
  for (let k = random.whole(1, 2); k > 0; k -= 1) {
    add('yaml car', 'car', k === 1 && (names['car'] ?? []).length > 0 ? variant(random, names) : anyCar(random, names));
  }
  const runs: { name: string; kind: Run }[] = [];
  for (let k = random.whole(1, 3); k > 0; k -= 1) {
    const kind = random.of(OTHERS);
    const name = add(`yaml ${kind}`, kind, runBody(random, kind, names));
    const run = RUNS.find(each => each === kind);
    if (run === undefined) continue;
    runs.push({ name, kind: run });
    const car = bodyOf(cells, name).find(([key]) => key === 'car')?.[1];
    const mass = typeof car === 'string' ? bodyOf(cells, car).find(([key]) => key === 'mass')?.[1] : undefined;
    if (typeof car === 'string' && typeof mass === 'string' && /^[\d.]+ kg$/.test(mass)) {
      cells.push(oneRow(name, run, `${car}.mass`, mass));
    }
  }
  if (runs.length > 0 && random.chance(0.5)) {
    const study = random.of(STUDIES);
    add(`yaml ${study}`, study, studyBody(random, study, runs, names));
  }
  const front: Entries = [
    ['samples', random.chance(0.9) ? '0' : '4'],
    ...(random.chance(0.2) ? [['units', 'imperial'] as const] : []),
  ];
  return { front, ...tail(random, cells, runs) };
}

function bodyOf(cells: readonly PageCell[], name: string): Entries {
  const body = cells.find(cell => cell.name === name)?.body ?? [];
  return body.filter((entry): entry is Entries[number] => typeof entry !== 'string');
}

/** Most of them a sane car with some silly fields, some anything at all. */
function anyCar(random: Random, names: { readonly [kind: string]: readonly string[] }): Entries {
  if (random.chance(0.15)) {
    return anyFields(random, carFields, { cells: names, share: random.of([0.1, 0.5]) }, { roadLoad: null });
  }
  return sillier(random, saneCar(random).entries, carFields, { cells: names, share: random.of([0.01, 0.03, 0.08]) });
}

function variant(random: Random, names: { readonly [kind: string]: readonly string[] }): Entries {
  const { drive: _drive, pack: _pack, mass: _mass, ...rest } = carFields;
  const from = random.of(names['car'] ?? []);
  return [['from', from], ...anyFields(random, rest, { cells: names, share: 0.1 })];
}

function fieldsOf(kind: string): Fields {
  return CELL_KINDS.find(each => each.kind === kind)?.fields ?? {};
}

function runBody(random: Random, kind: string, names: { readonly [kind: string]: readonly string[] }): Entries {
  const fields = fieldsOf(kind);
  const fixed: { [key: string]: Value | null } = {};
  if ('schedule' in fields) {
    const way = random.of(SHIPPED_WAYS);
    for (const key of [
      ...SHIPPED_WAYS,
      'legs',
      'distance',
      'time',
      'standard',
      'timeUnit',
      'speedUnit',
      'altitudeUnit',
    ]) {
      fixed[key] = null;
    }
    Object.assign(fixed, anyWay(random, way));
    if ('standard' in fields && random.chance(0.1)) {
      return [
        ['car', random.of(names['car'] ?? [])],
        ['standard', random.of(['wltp', 'udds', 'hwfet', 'mct'])],
      ];
    }
  }
  return anyFields(random, fields, { cells: names, share: random.of([0.1, 0.3, 0.6]) }, fixed);
}

function anyWay(random: Random, way: (typeof SHIPPED_WAYS)[number]): { readonly [key: string]: Value } {
  const schedules = ['wltc_low', 'wltc', 'udds', 'hwfet', 'us06', 'nycc', 'nedc', 'ftp75'];
  const speed = `${random.whole(1, 220)} km/h`;
  const distance = `${Number(random.spread(0.01, 300).toPrecision(3))} km`;
  if (way === 'schedule') return { schedule: random.of(schedules) };
  if (way === 'log') return { log: 'way.csv' };
  if (way === 'speed') return { speed, distance };
  if (way === 'mix') {
    return {
      mix: [
        [
          ['schedule', random.of(schedules)],
          ['share', '60 %'],
        ],
        [
          ['schedule', random.of(schedules)],
          ['share', '40 %'],
        ],
      ],
    };
  }
  const legs = Array.from({ length: random.whole(1, 4) }, (): Entries => {
    if (random.chance(0.3)) return [['stop', `${Number(random.spread(0.01, 100).toPrecision(2))} h`]];
    return [
      ...(random.chance(0.5)
        ? [['schedule', random.of(schedules)] as const]
        : ([
            ['speed', speed],
            ['distance', distance],
          ] as const)),
      ...(random.chance(0.3) ? [['slope', `${random.whole(-50, 50)} %`] as const] : []),
      ...(random.chance(0.3) ? [['load', `${random.whole(0, 2000)} kg`] as const] : []),
    ];
  });
  return { trip: legs };
}

function studyBody(
  random: Random,
  kind: (typeof STUDIES)[number],
  runs: readonly { readonly name: string; readonly kind: Run }[],
  names: { readonly [kind: string]: readonly string[] },
): Entries {
  const run = random.of(runs);
  const figure = `${run.name}.${random.of(FIGURES[run.kind])}`;
  const [path, low, high] = random.of(AXES);
  const range: Entries = [
    ['path', path],
    ['from', low],
    ['to', high],
    ['steps', '3'],
  ];
  const cars = names['car'] ?? [];
  switch (kind) {
    case 'compare':
      return [
        ['of', run.name],
        ['cars', cars.join(', ')],
      ];
    case 'sweep':
      return [['of', run.name], ['over', [range]], ...(random.chance(0.5) ? [['outputs', figure] as const] : [])];
    case 'spread':
      return [
        ['of', run.name],
        ['samples', '16'],
      ];
    case 'rank':
      return [
        ['of', run.name],
        ['output', figure],
        ['points', '32'],
        ['inputs', '1'],
      ];
    default:
      return [
        ['of', run.name],
        ['vary', [range.filter(([key]) => key !== 'steps')]],
        ['find', random.of(['smallest', 'largest', `lowest ${figure}`, `highest ${figure}`])],
        ['scan', '4'],
      ];
  }
}

/** Formulas, checks and prose that quote what stands above. */
function tail(
  random: Random,
  cells: readonly PageCell[],
  runs: readonly { readonly name: string; readonly kind: Run }[],
): Pick<Page, 'cells' | 'prose'> {
  const figures = runs.map(({ name, kind }) => `${name}.${random.of(FIGURES[kind])}`);
  const [first] = figures;
  if (first === undefined) return { cells, prose: [] };
  const more: PageCell[] = [];
  if (random.chance(0.5)) {
    const operator = random.of(['* 2', '+ 1 s', '/ 3 m', '^ 2', '^ 0.5', '- 1', '* 1e300 * 1e300', '/ 0', 'to mile']);
    more.push({ head: 'calc', name: 'sum', body: [`a = ${first} ${operator}`, `b = a + ${random.of(figures)}`] });
  }
  if (random.chance(0.3))
    more.push({ head: 'yaml check', name: '', body: [`- ${first} > ${random.of(['0 s', '1 m', '1 J'])}`] });
  return { cells: [...cells, ...more], prose: figures.map(figure => `It says \`= ${figure}\`.`) };
}
