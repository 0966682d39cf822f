import { describe, expect, it } from 'vitest';
import type { Fields } from '../../../src/model/fields/field.ts';
import { evaluateFormula } from '../../../src/notebook/formula/formula.ts';
import { readYaml } from '../../../src/notebook/document/located.ts';
import {
  fieldNames,
  type Part,
  type ReadContext,
  readFields,
  type ReadResult,
  writtenKey,
} from '../../../src/notebook/fields/read.ts';

const kilograms = { metric: 'kg', imperial: 'lb' } as const;
const plainNumber = { metric: '1', imperial: '1' } as const;

const tyre = {
  radius: {
    kind: 'number',
    unit: 'm',
    display: { metric: 'mm', imperial: 'in' },
    min: 0.1,
    max: 1,
    doc: 'r',
    required: true,
  },
  dryPeak: { kind: 'number', unit: '1', display: plainNumber, min: 0, max: 3, doc: 'mu' },
} as const satisfies Fields;

const drive = {
  axle: { kind: 'choice', choices: ['front', 'rear'], doc: 'axle', required: true },
  ratio: { kind: 'number', unit: '1', display: plainNumber, min: 1, max: 20, doc: 'ratio', required: true },
  tyre: { kind: 'group', part: 'tyre', fields: tyre, doc: 'tyre' },
} as const satisfies Fields;

const car = {
  mass: { kind: 'number', unit: 'kg', display: kilograms, min: 300, max: 5000, doc: 'mass', required: true },
  peakSpeed: {
    kind: 'numbers',
    unit: 'rad/s',
    min: 0,
    max: 2000,
    doc: 'speeds',
  },
  title: { kind: 'text', doc: 'a title' },
  basedOn: { kind: 'reference', to: ['car'], doc: 'another car' },
  drive: { kind: 'group', part: '', fields: drive, doc: 'drive' },
  tyres: { kind: 'group', part: 'tyre', fields: tyre, doc: 'tyres' },
} as const satisfies Fields;

const written = (text: string, line: number): Part => ({
  kind: 'written',
  map: readYaml(text, { file: 'car.md', line }),
});

const parts: { readonly [name: string]: Part } = {
  'tyre wide': written('radius: 310 mm\ndry_peak: 1.1', 50),
  'tyre worn': written('from: wide\ndry_peak: 0.8', 60),
  'tyre loop': written('from: pool', 70),
  'tyre pool': written('from: loop', 80),
  'tyre broken': written('radius: 31 mm', 90),
  'tyre stock': {
    kind: 'shipped',
    values: { radius: 0.28, dryPeak: 0.95 },
    spreads: { dryPeak: { kind: 'rectangular', low: 0.9, high: 1 } },
    source: 'handbook',
  },
};

const context: ReadContext = {
  path: 'coupe',
  system: 'metric',
  part: (kind, name) => (Object.hasOwn(parts, `${kind} ${name}`) ? parts[`${kind} ${name}`] : undefined),
  parts: kind => Object.keys(parts).flatMap(name => (name.startsWith(`${kind} `) ? [name.slice(kind.length + 1)] : [])),
  cell: name => (name === 'estate' ? 'car' : name === 'dash' ? 'launch' : undefined),
  cells: kinds => (kinds.includes('car') ? ['estate'] : []),
  formula: text =>
    evaluateFormula(text, name => (name === 'estate.mass' ? { value: 1500, unit: 'kg' } : undefined), ['estate.mass']),
};

const read = (text: string, fields: Fields = car, system: ReadContext['system'] = 'metric'): ReadResult =>
  readFields(readYaml(text, { file: 'car.md', line: 10 }), fields, { ...context, system });

const MASS = 'mass: 1010 kg\n';
const given = (line: number, column: number) => ({ kind: 'given', file: 'car.md', line, column });

describe('readFields', () => {
  it('reads every kind of field', () => {
    const { values, inputs, problems } = read(
      [
        'mass: 1010 kg ± 15 kg',
        'peak_speed: [0 rpm, 3000 rpm]',
        'title: The coupe',
        'based_on: estate',
        'drive:',
        '  axle: rear',
        '  ratio: = 4 * 2',
        '  tyre: { radius: 0.3 m }',
        'tyres: wide',
      ].join('\n'),
    );
    expect(problems).toEqual([]);
    expect(values).toEqual({
      mass: 1010,
      peakSpeed: [0, 100 * Math.PI],
      title: 'The coupe',
      basedOn: 'estate',
      drive: { axle: 'rear', ratio: 8, tyre: { radius: 0.3 } },
      tyres: { radius: 0.31, dryPeak: 1.1 },
    });
    const number = { unit: '1', display: '1' };
    const word = { unit: '', display: '' };
    expect(inputs).toEqual([
      {
        path: 'coupe.mass',
        value: 1010,
        unit: 'kg',
        display: 'kg',
        origin: given(10, 7),
        spread: { kind: 'normal', standard: 15 },
      },
      { path: 'coupe.peak_speed', value: '0, 314.2', unit: 'rad/s', display: 'rad/s', origin: given(11, 13) },
      { path: 'coupe.title', value: 'The coupe', ...word, origin: given(12, 8) },
      { path: 'coupe.based_on', value: 'estate', ...word, origin: given(13, 11) },
      { path: 'coupe.drive.axle', value: 'rear', ...word, origin: given(15, 9) },
      { path: 'coupe.drive.ratio', value: 8, ...number, origin: { kind: 'computed', formula: '4 * 2' } },
      { path: 'coupe.drive.tyre.radius', value: 0.3, unit: 'm', display: 'mm', origin: given(17, 19) },
      { path: 'coupe.tyres.radius', value: 0.31, unit: 'm', display: 'mm', origin: given(50, 9) },
      { path: 'coupe.tyres.dry_peak', value: 1.1, ...number, origin: given(51, 11) },
    ]);
  });

  it('shows inputs in the units of the reader', () => {
    expect(read('mass: 1010 kg', car, 'imperial').inputs[0]?.display).toBe('lb');
  });

  it('computes a number from other cells', () => {
    const { values, inputs } = read('mass: "= estate.mass - 100 kg"');
    expect(values).toEqual({ mass: 1400 });
    expect(inputs[0]?.origin).toEqual({ kind: 'computed', formula: 'estate.mass - 100 kg' });
  });

  it.each([
    ['0, 1000, 2000 rpm'],
    ['[0, 1000, 2000 rpm]'],
    ['0 rpm, 1000, 2000 rpm'],
    ['[0 rpm, = 500 rpm * 2, 2000 rpm]'],
  ])('reads the table column %s', text => {
    const { values, problems } = read(`${MASS}peak_speed: ${text}`);
    expect(problems).toEqual([]);
    const [a, b, c] = values['peakSpeed'] as readonly number[];
    expect(a).toBe(0);
    expect(b).toBeCloseTo((1000 * Math.PI) / 30, 9);
    expect(c).toBeCloseTo((2000 * Math.PI) / 30, 9);
  });

  it('takes the limits as part of what can be right', () => {
    expect(read('mass: 300 kg').problems).toEqual([]);
    expect(read('mass: 5 t').problems).toEqual([]);
    expect(read('mass: 299.999 kg').problems).toHaveLength(1);
  });

  it('takes what a part has and writes over it', () => {
    expect(read(`${MASS}tyres: worn`).values['tyres']).toEqual({ radius: 0.31, dryPeak: 0.8 });
    const own = read(`${MASS}tyres:\n  dry_peak: 0.7\n  from: worn`);
    expect(own.values['tyres']).toEqual({ radius: 0.31, dryPeak: 0.7 });
    expect(own.inputs.map(({ path }) => path)).toEqual(['coupe.mass', 'coupe.tyres.radius', 'coupe.tyres.dry_peak']);
    expect(own.inputs[2]?.origin).toEqual({ kind: 'given', file: 'car.md', line: 12, column: 13 });
  });

  it('says of the numbers of a shipped part where they come from', () => {
    const { values, inputs } = read(`${MASS}tyres: { from: stock, dry_peak: 1 }`);
    expect(values['tyres']).toEqual({ radius: 0.28, dryPeak: 1 });
    expect(inputs[1]).toEqual({
      path: 'coupe.tyres.radius',
      value: 0.28,
      unit: 'm',
      display: 'mm',
      origin: { kind: 'assumed', source: 'handbook' },
    });
    expect(inputs[2]?.origin.kind).toBe('given');
    expect(read(`${MASS}tyres: stock`).inputs[2]?.spread).toEqual({ kind: 'rectangular', low: 0.9, high: 1 });
  });

  it('reads a mapping that is a part itself', () => {
    const map = readYaml('from: wide\ndry_peak: 0.9', { file: 'car.md', line: 10 });
    expect(readFields(map, tyre, context, 'tyre')).toMatchObject({
      values: { radius: 0.31, dryPeak: 0.9 },
      problems: [],
    });
  });
});

describe('problems', () => {
  it.each([
    // text, line, column, length, path, message, expected, cure
    ['mass: 1010', 10, 7, 4, 'coupe.mass', '1010 has no unit', 'a mass such as "1010 kg"', ''],
    ['mass: 1010 kgs', 10, 12, 3, 'coupe.mass', 'unknown unit "kgs"', 'a mass such as "1010 kg"', 'kg'],
    [
      'mass: "1,5 t"',
      10,
      8,
      3,
      'coupe.mass',
      'a comma between digits',
      'a decimal point, and nothing between thousands',
      '1.5',
    ],
    ['mass: 80 kW', 10, 10, 2, 'coupe.mass', '"80 kW" is a power', 'a mass such as "1010 kg"', ''],
    ['mass: 12 kg', 10, 7, 5, 'coupe.mass', '12 kg is too small', '300 kg to 5000 kg', ''],
    ['mass: 12 t', 10, 7, 4, 'coupe.mass', '12 t is too large', '300 kg to 5000 kg', ''],
    ['mass: 200 .. 400 kg', 10, 7, 13, 'coupe.mass', '200 .. 400 kg is too small', '300 kg to 5000 kg', ''],
    ['mass:', 10, 1, 4, 'coupe.mass', 'has no value', 'a mass such as "1010 kg"', ''],
    ['mass: [1 kg]', 10, 7, 6, 'coupe.mass', 'is a list', 'a mass such as "1010 kg"', ''],
    ['mass: { a: 1 }', 10, 7, 8, 'coupe.mass', 'is a group', 'a mass such as "1010 kg"', ''],
    ['mass: = 2 * estate.mas', 10, 13, 10, 'coupe.mass', 'unknown name "estate.mas"', '', 'estate.mass'],
    ['mass: "= 2 * estate.mas"', 10, 14, 10, 'coupe.mass', 'unknown name "estate.mas"', '', 'estate.mass'],
    ['mass: = 5 kW', 10, 9, 4, 'coupe.mass', 'this formula gives a power', 'a mass', ''],
    ['mass: = 1 < 2', 10, 9, 5, 'coupe.mass', 'this formula gives no number', '', ''],
    ['mass: = 10 t', 10, 7, 6, 'coupe.mass', '10000 kg is too large', '300 kg to 5000 kg', ''],
    ['mass: =', 10, 7, 1, 'coupe.mass', 'nothing stands here', '', ''],
    ['title: x', 10, 1, 8, 'coupe.mass', 'is missing', 'a mass such as "1010 kg"', ''],
    [
      'mas: 1010 kg',
      10,
      1,
      3,
      'coupe.mas',
      'unknown key "mas"',
      'one of mass, peak_speed, title, based_on, drive, tyres',
      'mass',
    ],
    [
      `${MASS}colour: red`,
      11,
      1,
      6,
      'coupe.colour',
      'unknown key "colour"',
      'one of mass, peak_speed, title, based_on, drive, tyres',
      '',
    ],
    [
      `${MASS}from: estate`,
      11,
      1,
      4,
      'coupe.from',
      'unknown key "from"',
      'one of mass, peak_speed, title, based_on, drive, tyres',
      '',
    ],
    [
      `${MASS}based_on: estat`,
      11,
      11,
      5,
      'coupe.based_on',
      'no cell is called "estat"',
      'the name of a car cell',
      'estate',
    ],
    [`${MASS}based_on: dash`, 11, 11, 4, 'coupe.based_on', '"dash" is a launch cell', 'the name of a car cell', ''],
    [`${MASS}drive: rear`, 11, 8, 4, 'coupe.drive', 'is not a group', 'a group of axle, ratio, tyre ...', ''],
    [`${MASS}drive: { ratio: 8 }`, 11, 1, 5, 'coupe.drive.axle', 'is missing', 'front or rear', ''],
    [
      `${MASS}drive:\n  axle: raer\n  ratio: 8`,
      12,
      9,
      4,
      'coupe.drive.axle',
      'unknown word "raer"',
      'front or rear',
      'rear',
    ],
    [
      `${MASS}drive:\n  axle: rear\n  ratoi: 8`,
      13,
      3,
      5,
      'coupe.drive.ratoi',
      'unknown key "ratoi"',
      'one of axle, ratio, tyre',
      'ratio',
    ],
    [
      `${MASS}tyres: wid`,
      11,
      8,
      3,
      'coupe.tyres',
      'no part of kind tyre is called "wid"',
      'one of wide, worn, loop, pool, broken, stock',
      'wide',
    ],
    [
      `${MASS}tyres: { from: wid }`,
      11,
      16,
      3,
      'coupe.tyres',
      'no part of kind tyre is called "wid"',
      'one of wide, worn, loop, pool, broken, stock',
      'wide',
    ],
    [
      `${MASS}tyres: [wide]`,
      11,
      8,
      6,
      'coupe.tyres',
      'is not a group',
      'the name of a part, or a group of radius, dry_peak ...',
      '',
    ],
    [`${MASS}tyres: loop`, 80, 7, 4, 'coupe.tyres', 'the part "loop" is made from itself', '', ''],
    [`${MASS}tyres: broken`, 90, 9, 5, 'coupe.tyres.radius', '31 mm is too small', '100 mm to 1000 mm', ''],
    [`${MASS}tyres: { dry_peak: 1 }`, 11, 1, 5, 'coupe.tyres.radius', 'is missing', 'a length such as "2.4 m"', ''],
    [
      `${MASS}peak_speed: 100, 2,5, 300 rpm`,
      11,
      18,
      3,
      'coupe.peak_speed',
      'a comma between digits',
      'a decimal point, and nothing between thousands',
      '2.5',
    ],
    [
      `${MASS}peak_speed: [1 rpm, 2 rmp]`,
      11,
      23,
      3,
      'coupe.peak_speed',
      'unknown unit "rmp"',
      'a rotational speed such as "9000 rpm"',
      'rpm',
    ],
    [
      `${MASS}peak_speed: [1 rpm, 2 rpm ± 1 rpm]`,
      11,
      21,
      13,
      'coupe.peak_speed',
      'the numbers of a table have no spread',
      '',
      '',
    ],
    [
      `${MASS}peak_speed: []`,
      11,
      13,
      2,
      'coupe.peak_speed',
      'is not a list of numbers',
      'a list, each a rotational speed such as "9000 rpm"',
      '',
    ],
    [
      `${MASS}peak_speed: [[1 rpm]]`,
      11,
      13,
      9,
      'coupe.peak_speed',
      'is not a list of numbers',
      'a list, each a rotational speed such as "9000 rpm"',
      '',
    ],
    [
      `${MASS}peak_speed: [1 rpm, -2 rpm]`,
      11,
      21,
      6,
      'coupe.peak_speed',
      '-2 rpm is too small',
      '0 rad/s to 2000 rad/s',
      '',
    ],
  ])('%j', (text, line, column, length, path, message, expected, nearest) => {
    const { problems } = read(text);
    const source = line < 50 ? text.split('\n')[line - 10] : problems[0]?.source;
    expect(problems).toEqual([{ file: 'car.md', line, column, length, path, message, expected, nearest, source }]);
  });

  it('come all at once, in the order of the text', () => {
    const { problems } = read('tyres: wid\nmas: 1\ndrive:\n  ratio: 100\n  axle: up\nbased_on: dash');
    expect(problems.map(({ line, path }) => [line, path])).toEqual([
      [10, 'coupe.tyres'],
      [11, 'coupe.mas'],
      [13, 'coupe.drive.ratio'],
      [14, 'coupe.drive.axle'],
      [15, 'coupe.based_on'],
    ]);
  });

  it('say limits in the units of the reader', () => {
    expect(read('mass: 12 kg', car, 'imperial').problems[0]?.expected).toBe('661.4 lb to 11023 lb');
  });
});

describe('fieldNames', () => {
  it('finds cells, parts and names in formulas', () => {
    const map = readYaml(
      [
        'mass: = estate.mass + 3 kg',
        'peak_speed: [1 rpm, = top * 2]',
        'title: = not.a.formula',
        'based_on: estate',
        'drive:',
        '  ratio: = dash.ratio + top / top',
        '  tyre: { from: worn, radius: = other.radius }',
        'tyres: wide',
        'colour: = never.read',
      ].join('\n'),
      { file: 'car.md', line: 1 },
    );
    expect(fieldNames(map, car)).toEqual({
      cells: ['estate'],
      parts: [
        { kind: 'tyre', name: 'worn' },
        { kind: 'tyre', name: 'wide' },
      ],
      formulas: ['estate.mass', 'top', 'dash.ratio', 'other.radius'],
    });
  });
});

describe('writtenKey', () => {
  it.each([
    ['mass', 'mass'],
    ['peakPower', 'peak_power'],
    ['liftAreaFront', 'lift_area_front'],
    ['c0', 'c0'],
  ])('%s is %s', (key, text) => {
    expect(writtenKey(key)).toBe(text);
  });
});
