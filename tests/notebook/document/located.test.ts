import { describe, expect, it } from 'vitest';
import {
  entryOf,
  type LocatedMap,
  type LocatedNode,
  placeWithin,
  problemAt,
  readYaml,
  type TextStart,
} from '../../../src/notebook/document/located.ts';
import { NotebookProblem } from '../../../src/notebook/document/problem.ts';

const START: TextStart = { file: 'car.md', line: 10 };

function value(map: LocatedMap, ...keys: readonly string[]): LocatedNode {
  const [key = '', ...rest] = keys;
  const found = entryOf(map, key)?.value;
  if (found === undefined) throw new Error(`no ${key}`);
  return rest.length === 0 || found.kind !== 'map' ? found : value(found, ...rest);
}

function problem(text: string, start = START): NotebookProblem['data'] {
  try {
    readYaml(text, start);
  } catch (error) {
    if (error instanceof NotebookProblem) return error.data;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('readYaml', () => {
  const text = [
    'mass: 1010 kg ± 15 kg  # scales',
    'drive:',
    '  ratio: 8.50',
    '  speeds: [0 rpm, 3000 rpm]',
    'title: "the: coupe"',
    "note: 'a'",
    'empty:',
    'on: yes',
  ].join('\n');
  const map = readYaml(text, START);

  it.each([
    [['mass'], { line: 10, column: 7, length: 15, value: '1010 kg ± 15 kg', text: '1010 kg ± 15 kg' }],
    [['drive', 'ratio'], { line: 12, column: 10, length: 4, value: 8.5, text: '8.50' }],
    [['title'], { line: 14, column: 8, length: 12, value: 'the: coupe', text: 'the: coupe' }],
    [['note'], { line: 15, column: 7, length: 3, value: 'a', text: 'a' }],
    [['empty'], { line: 16, column: 7, length: 1, value: null, text: '' }],
    [['on'], { line: 17, column: 5, length: 3, value: 'yes', text: 'yes' }],
  ])('places %j', (keys, expected) => {
    expect(value(map, ...keys)).toMatchObject({ kind: 'scalar', file: 'car.md', ...expected });
  });

  it('places keys, mappings and lists with their source line', () => {
    expect(entryOf(map, 'drive')?.key).toMatchObject({ line: 11, column: 1, length: 5, source: 'drive:' });
    expect(value(map, 'drive')).toMatchObject({ kind: 'map', line: 12, column: 3, source: '  ratio: 8.50' });
    const speeds = value(map, 'drive', 'speeds');
    expect(speeds).toMatchObject({ kind: 'list', line: 13, column: 11 });
    expect(speeds.kind === 'list' && speeds.items[1]).toMatchObject({
      line: 13,
      column: 19,
      length: 8,
      text: '3000 rpm',
    });
    expect(entryOf(map, 'nothing')).toBeUndefined();
  });

  it('adds the margin that was taken off', () => {
    const node = value(readYaml('a:\n  b: 1', { ...START, indent: 4 }), 'a', 'b');
    expect(node).toMatchObject({ line: 11, column: 10, source: '      b: 1' });
  });

  it('reads lines that end in CR LF', () => {
    expect(value(readYaml('a: 1\r\nb: 2 kg\r\n', START), 'b')).toMatchObject({
      line: 11,
      text: '2 kg',
      source: 'b: 2 kg',
    });
  });

  it.each(['', '\n\n', '# only a comment\n'])('takes %j for an empty mapping', text => {
    expect(readYaml(text, START)).toMatchObject({ kind: 'map', entries: [], line: 10, column: 1 });
  });

  it('reads the core schema of YAML 1.2 and no other', () => {
    const core = readYaml('a: 010\nb: 1_000\nc: 0x1F\nd: no\ne: 2024-01-01\n<<: {f: 1}\n__proto__: 1', START);
    expect(core.entries.map(({ value }) => (value.kind === 'scalar' ? value.value : value.kind))).toEqual([
      10,
      '1_000',
      31,
      'no',
      '2024-01-01',
      'map',
      1,
    ]);
  });

  it('keeps a formula whole', () => {
    const node = value(readYaml('a: = dash.time * 2 < 3 s # twice', START), 'a');
    expect(node).toMatchObject({ column: 4, text: '= dash.time * 2 < 3 s' });
  });
});

describe('what readYaml refuses', () => {
  it.each([
    ['a: 1\na: 2', 11, 1, '"a" stands twice'],
    ['d:\n  x: 1\n  x: 2', 12, 3, '"x" stands twice'],
    ['- a\n- b', 10, 1, 'these are not "name: value" lines'],
    ['just text', 10, 1, 'these are not "name: value" lines'],
    ['a: &x 1', 10, 7, 'the anchor "&x" is not read'],
    ['a: 1\nb: *x', 11, 4, /alias/u],
    ['a: &x 1\nb: *x', 10, 7, 'the anchor "&x" is not read'],
    ['b: *x\na: 1', 10, 4, /alias/u],
    ['a: !!str 3', 10, 10, 'the tag "tag:yaml.org,2002:str" is not read'],
    ['a: !!binary aGk=', 10, 13, /binary/u],
    ['a: !foo 3', 10, 4, /!foo/u],
    ['%YAML 1.1\n---\na: yes', 10, 1, 'directives are not read'],
    ['a:\n\tb: 1', 11, 1, 'a tab indents this line'],
    ['a: 1\n---\nb: 2', 11, 1, '"---" starts a second document'],
    ['a: b: c', 10, 4, 'two colons in one line'],
    ['a: "x', 10, 4, 'this " is never closed'],
    ["a: 'x\nb: 2\nc: 3", 10, 4, "this ' is never closed"],
    ['a: [1', 10, 4, 'this [ is never closed'],
    ['a: { b: [1, 2 }\nc: 3', 10, 9, 'this [ is never closed'],
    ['a: { b: 1\nc: 3', 10, 4, 'this { is never closed'],
    ['a: @x', 10, 4, /reserved character @/u],
    ['? [a]\n: 1', 10, 3, 'a name is a single word'],
    [`a: ${'['.repeat(20)}${']'.repeat(20)}`, 10, 16, 'nested too deeply'],
    [`a: ${'['.repeat(50_000)}`, 10, 304, 'nested too deeply'],
    [`a: ${'{b: '.repeat(20_000)}`, 10, 1204, 'nested too deeply'],
    [`${'- '.repeat(20_000)}a`, 10, 1, 'nested too deeply'],
    [`x: 1\n${'? '.repeat(2000)}a`, 11, 1, 'nested too deeply'],
    [Array.from({ length: 120 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'), 110, 1, 'nested too deeply'],
    ['a'.repeat(100_001), 10, 1, 'longer than 100000 characters'],
  ])('%#', (text, line, column, message) => {
    const found = problem(text);
    expect([found.file, found.line, found.column]).toEqual(['car.md', line, column]);
    if (typeof message === 'string') expect(found.message).toBe(message);
    else expect(found.message).toMatch(message);
  });

  it('shows the line with carets under what is wrong', () => {
    expect(new NotebookProblem(problem('mass: 1 kg\nmass: 2 kg')).message).toBe(
      'car.md:11:1: "mass" stands twice; expected each name once\n  mass: 2 kg\n  ^^^^',
    );
  });
});

describe('placeWithin', () => {
  it.each([
    ['a: 10 kgs', 3, 3, 7, 3],
    ['a: "10 kgs"', 3, 3, 8, 3],
    ["a: '10 kgs'", 3, 3, 8, 3],
    ['a: "10 \\u006bgs"', 3, 3, 4, 13], // written otherwise than read: the whole of it
    ['a: 10\n  kgs', 3, 3, 4, 2],
    ['a: 10 kg', 8, 5, 8, 1], // past the end: the last character,
  ])('%j', (text, offset, length, column, wide) => {
    const node = value(readYaml(text, START), 'a');
    if (node.kind !== 'scalar') throw new Error('no scalar');
    expect(placeWithin(node, offset, length)).toMatchObject({ line: 10, column, length: wide });
  });
});

describe('problemAt', () => {
  it('is plain data of the place', () => {
    const place = { file: 'a.md', line: 3, column: 7, length: 2, source: 'mass: 12' };
    expect(problemAt(place, 'coupe.mass', 'is light', 'a mass', '12 t')).toEqual({
      ...place,
      path: 'coupe.mass',
      message: 'is light',
      expected: 'a mass',
      nearest: '12 t',
    });
    expect(problemAt(place, '', 'is light')).toMatchObject({ expected: '', nearest: '' });
  });
});
