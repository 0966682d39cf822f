import { describe, expect, it } from 'vitest';
import { type CellHead, type CellPiece, parseDocument } from '../../../src/notebook/document/document.ts';

const KINDS: readonly CellHead[] = [
  { kind: 'car', language: 'yaml', named: true },
  { kind: 'launch', language: 'yaml', named: true },
  { kind: 'check', language: 'yaml', named: false },
  { kind: 'calc', language: 'calc', named: true },
];

const read = (text: string) => parseDocument(text, 'a.md', KINDS);
const cells = (text: string) => read(text).pieces.filter((piece): piece is CellPiece => piece.kind === 'cell');
const fence = (info: string, content = 'a: 1') => `\`\`\`${info}\n${content}\n\`\`\`\n`;
/** `line:column: message` of the only cell. */
const complaint = (text: string) => {
  const [cell, more] = cells(text);
  expect(more).toBeUndefined();
  const { problem } = cell ?? {};
  return problem === null || problem === undefined ? 'none' : `${problem.line}:${problem.column}: ${problem.message}`;
};

describe('cells and prose', () => {
  it('cuts the file into prose and cells, with the lines of the file', () => {
    const text = `# Title\n\nSome prose.\n\n${fence('yaml car coupe', 'mass: 1 kg')}\nMore.\n\n${fence('calc sums', 'a = 1\nb = 2')}`;
    const { pieces, heading, problems } = read(text);
    expect(pieces.map(piece => piece.kind)).toEqual(['prose', 'cell', 'prose', 'cell']);
    expect(heading).toBe('Title');
    expect(problems).toEqual([]);
    expect(cells(text)).toEqual([
      { kind: 'cell', cell: 'car', name: 'coupe', line: 5, source: 'mass: 1 kg\n', problem: null },
      { kind: 'cell', cell: 'calc', name: 'sums', line: 11, source: 'a = 1\nb = 2\n', problem: null },
    ]);
  });

  it('leaves other fences in the prose', () => {
    for (const info of ['', 'yaml', 'js', 'js something else', 'yaml title="x" lines']) {
      expect(cells(fence(info))).toEqual([]);
    }
    expect(cells(`~~~~\n${fence('yaml car a')}~~~~\n`)).toEqual([]);
  });

  it('counts lines alike whatever ends them, with and without a byte order mark', () => {
    const text = `a\n\n${fence('yaml car c')}`;
    for (const end of ['\n', '\r\n', '\r']) {
      expect(cells(`\uFEFF${text.replaceAll('\n', end)}`)[0]).toMatchObject({ line: 3, source: 'a: 1\n' });
    }
  });

  it('makes up a name, which nobody can write, for a cell that needs none', () => {
    expect(cells(fence('yaml check') + fence('yaml check') + fence('yaml check mine')).map(cell => cell.name)).toEqual([
      'check 1',
      'check 2',
      'mine',
    ]);
  });
});
const cure = (info: string) => cells(fence(info))[0]?.problem?.nearest;

describe('what is not quite a cell', () => {
  it.each([
    ['yaml lauch dash', '1:9: unknown kind of cell "lauch"'],
    ['yaml calibrate x', '1:9: unknown kind of cell "calibrate"'],
    ['yml car coupe', '1:4: a car cell does not start with "yml"'],
    ['car coupe', '1:4: a car cell does not start with "car"'],
    ['yaml calc sums', '1:4: a calc cell does not start with "yaml"'],
    ['yaml car', '1:1: this car cell has no name'],
    ['calc', '1:1: this calc cell has no name'],
    ['yaml car my-coupe', '1:13: "my-coupe" cannot be the name of a cell'],
    ['yaml car car-1', '1:13: "car-1" cannot be the name of a cell'],
    ['yaml car 2cv', '1:13: "2cv" cannot be the name of a cell'],
    ['yaml car my coupe', '1:16: "coupe" after the name of the cell'],
  ])('%s', (info, expected) => {
    expect(complaint(fence(info))).toBe(expected);
  });

  it('offers the cure', () => {
    expect(cure('yaml lauch dash')).toBe('launch');
    expect(cure('yaml car my-coupe')).toBe('my_coupe');
    expect(cure('yaml car 2cv')).toBe('a2cv');
    expect(cure('yaml car my coupe')).toBe('my_coupe');
  });

  it('names both lines of a name that is used twice, and keeps the first', () => {
    const [first, second] = cells(`${fence('yaml car a')}\n${fence('yaml launch a')}`);
    expect(first?.problem).toBeNull();
    expect(second?.problem).toMatchObject({ line: 5, column: 16, length: 1 });
    expect(second?.problem?.message).toBe('the name "a" is used twice: on line 1 and on line 5');
  });

  it('says that a cell is never closed instead of what follows from it', () => {
    expect(complaint('```yaml car a\nmass: 1 kg\n\n# Next\n')).toBe('1:1: this cell is never closed');
    expect(complaint('```yaml car a')).toBe('1:1: this cell is never closed');
    expect(complaint('~~~~yaml car a\nb: 1\n~~~\n')).toBe('1:1: this cell is never closed');
    expect(complaint('```yaml car a\nb: 1\n``\n\nprose\n\n```yaml car b\nb: 1\n```\n')).toBe(
      '1:1: this cell is not closed before line 3',
    );
    expect(complaint('~~~yaml car a\nb: 1\n~~~~~  \n')).toBe('none');
    expect(complaint('```yaml car a\n```')).toBe('none');
  });

  it('refuses a cell inside a list or a quotation, and says where', () => {
    const { pieces, problems } = read('- item\n\n  ```yaml car a\n  b: 1\n  ```\n');
    expect(pieces.map(piece => piece.kind)).toEqual(['prose']);
    expect(problems).toMatchObject([{ line: 3, column: 3, message: 'a car cell stands inside a list or a quotation' }]);
  });
});

describe('front matter', () => {
  it('gives title and units and keeps the lines', () => {
    const document = read(`---\ntitle: The coupe\nunits: imperial\n---\n${fence('yaml car a')}`);
    expect(document.frontMatter).toEqual({ title: 'The coupe', system: 'imperial' });
    expect(document.problems).toEqual([]);
    expect(document.pieces).toMatchObject([{ line: 5 }]);
  });

  it.each([
    ['---\ntitel: x\n---\n', 2, 'unknown key "titel"', 'title'],
    ['---\nunits: metrik\n---\n', 2, 'unknown units "metrik"', 'metric'],
    ['---\ntitle: [a]\n---\n', 2, 'is not a single value', ''],
    ['---\ntitle: x\n', 1, 'the front matter is never closed', ''],
  ])('%j', (text, line, message, nearest) => {
    expect(read(text).problems).toMatchObject([{ line, message, nearest }]);
  });

  it('locates broken YAML and goes on without', () => {
    const { problems, frontMatter, pieces } = read(`---\ntitle: "x\n---\n${fence('yaml car a')}`);
    expect(problems).toHaveLength(1);
    expect(problems[0]?.line).toBeGreaterThan(1);
    expect(frontMatter.system).toBe('metric');
    expect(pieces).toHaveLength(1);
  });

  it('takes three dashes in a notebook without front matter for a line across the page', () => {
    expect(read('---\n\nprose\n')).toMatchObject({ problems: [], frontMatter: { title: '' } });
  });
});

it('takes 2,000 nested brackets and quotations without running out of stack', () => {
  expect(read(`${'>'.repeat(2000)} a\n\n${'['.repeat(2000)}\n`).pieces).toHaveLength(1);
});
