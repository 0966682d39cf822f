import { describe, expect, it } from 'vitest';
import type { Fields } from '../../src/model/fields/field.ts';
import { evaluateFormula } from '../../src/notebook/formula/formula.ts';
import { readYaml } from '../../src/notebook/document/located.ts';
import { fieldNames, type ReadContext, readFields, type ReadResult } from '../../src/notebook/fields/read.ts';

const kilograms = { metric: 'kg', imperial: 'lb' } as const;

const thing = {
  name: { kind: 'text', doc: 'name', required: true },
  mass: { kind: 'number', unit: 'kg', display: kilograms, min: 1, max: 500, doc: 'mass', required: true },
  peakSpeed: { kind: 'numbers', unit: 'rad/s', min: 0, max: 2000, doc: 'speeds' },
} as const satisfies Fields;

const ledger = {
  out: { kind: 'groups', fields: thing, doc: 'what comes out' },
  in: { kind: 'groups', fields: thing, doc: 'what goes in', required: true },
} as const satisfies Fields;

const context: ReadContext = {
  path: 'ledger',
  system: 'metric',
  part: () => undefined,
  parts: () => [],
  cell: () => undefined,
  cells: () => [],
  formula: text => evaluateFormula(text, name => (name === 'box' ? { value: 50, unit: 'kg' } : undefined), ['box']),
};

const map = (text: string) => readYaml(text, { file: 'car.md', line: 10 });
const read = (text: string): ReadResult => readFields(map(text), ledger, context);

describe('a list of groups', () => {
  it('is read row by row, each with its own path and place', () => {
    const { values, inputs, problems } = read(
      [
        'out:',
        '  - { name: engine, mass: 120 kg ± 2 kg }',
        '  - name: gearbox',
        '    mass: = box / 2',
        '    peak_speed: [1 rad/s, 2 rad/s]',
        'in: []',
      ].join('\n'),
    );
    expect(problems).toEqual([]);
    expect(values).toEqual({
      out: [
        { name: 'engine', mass: 120 },
        { name: 'gearbox', mass: 25, peakSpeed: [1, 2] },
      ],
      in: [],
    });
    expect(inputs.map(({ path, value }) => [path, value])).toEqual([
      ['ledger.out[1].name', 'engine'],
      ['ledger.out[1].mass', 120],
      ['ledger.out[2].name', 'gearbox'],
      ['ledger.out[2].mass', 25],
      ['ledger.out[2].peak_speed', '1, 2'],
    ]);
    expect(inputs[1]).toMatchObject({
      spread: { kind: 'normal', standard: 2 },
      origin: { kind: 'given', file: 'car.md', line: 11, column: 27 },
    });
    expect(inputs[3]?.origin).toEqual({ kind: 'computed', formula: 'box / 2' });
  });

  it.each([
    [
      'in: { name: a }',
      10,
      5,
      'ledger.in',
      'is not a list',
      'a list of groups, a line each: - { name: ..., mass: ..., peak_speed: ... }',
      '',
    ],
    [
      'in: engine',
      10,
      5,
      'ledger.in',
      'is not a list',
      'a list of groups, a line each: - { name: ..., mass: ..., peak_speed: ... }',
      '',
    ],
    [
      'in:',
      10,
      1,
      'ledger.in',
      'has no value',
      'a list of groups, a line each: - { name: ..., mass: ..., peak_speed: ... }',
      '',
    ],
    [
      'out: []',
      10,
      1,
      'ledger.in',
      'is missing',
      'a list of groups, a line each: - { name: ..., mass: ..., peak_speed: ... }',
      '',
    ],
    ['in: [engine]', 10, 6, 'ledger.in[1]', 'is not a group', 'a group of name, mass, peak_speed', ''],
    [
      'in:\n  - { name: a, mass: 1 kg }\n  - { name: b }',
      12,
      5,
      'ledger.in[2].mass',
      'is missing',
      'a mass such as "1010 kg"',
      '',
    ],
    [
      'in:\n  - { name: a, mass: 1 kg }\n  - name: b\n    mass: 900 kg',
      13,
      11,
      'ledger.in[2].mass',
      '900 kg is too large',
      '1 kg to 500 kg',
      '',
    ],
    [
      'in: [{ name: a, mass: 1 kg }, { name: b, mas: 1 kg }]',
      10,
      42,
      'ledger.in[2].mas',
      'unknown key "mas"',
      'one of name, mass, peak_speed',
      'mass',
    ],
  ])('%j is told at its place', (text, line, column, path, message, expected, nearest) => {
    expect(read(text).problems).toMatchObject([{ line, column, path, message, expected, nearest }]);
  });

  it('tells what is wrong in all rows, in the order of the text', () => {
    const { problems } = read('in:\n  - { name: a }\n  - 3\n  - { name: c, mass: 3 s }');
    expect(problems.map(({ line, path }) => [line, path])).toEqual([
      [11, 'ledger.in[1].mass'],
      [12, 'ledger.in[2]'],
      [13, 'ledger.in[3].mass'],
    ]);
  });

  it('has a bound', () => {
    const rows = (count: number): string => `in: [${Array(count).fill('{name: a, mass: 1 kg}').join(', ')}]`;
    expect(read(rows(200)).problems).toEqual([]);
    expect(read(rows(201)).problems).toMatchObject([{ message: 'has more than 200 entries' }]);
  });

  it('leans on the names in its formulas', () => {
    expect(fieldNames(map('in:\n  - { mass: = box * 2 }\n  - { mass: = dash.mass + box }\n  - 3'), ledger)).toEqual({
      cells: [],
      parts: [],
      formulas: ['box', 'dash.mass'],
    });
  });
});
