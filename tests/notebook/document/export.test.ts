import { describe, expect, it } from 'vitest';
import { csv, csvTables, json } from '../../../src/notebook/document/export.ts';
import type { CellBlock, NotebookOutcome } from '../../../src/notebook/document/outcome.ts';
import type { Column, Result } from '../../../src/runs/result.ts';

const display = { metric: 'km/h', imperial: 'mph' };
const numbers = (...values: number[]): Column => ({
  label: 'x',
  unit: 'm/s',
  display,
  values: Float64Array.from(values),
});
const words = (...values: string[]): Column => ({ label: 'x', unit: '', display, values });

const result: Result = {
  kind: 'launch',
  summary: { time: 1.5, mark: null },
  reasons: { mark: 'never' },
  outputs: {},
  series: { time: { time_s: numbers(0, 0.1), limiter: words('grip', 'grip') }, traction: { speed_m_s: numbers(1) } },
  bands: [],
  events: [],
  ledger: { in: {}, out: {}, stored: {}, gap: 0 },
  warnings: [],
  opinion: null,
};
const block: CellBlock = {
  kind: 'cell',
  cell: 'launch',
  name: 'dash',
  line: 1,
  source: '',
  problem: null,
  result,
  values: [],
  chart: null,
  checks: [],
};
const outcome: NotebookOutcome = {
  file: 'a.md',
  title: 'A',
  system: 'metric',
  blocks: [{ kind: 'prose', html: '<p>x</p>', text: 'x' }, block, { ...block, name: 'none', result: null }],
  inputs: [],
  problems: [],
  failedChecks: 0,
};

// RFC 4180, "Common Format and MIME Type for Comma-Separated Values (CSV) Files", section 2, rules 1 to 7.
describe('CSV', () => {
  it('ends each line with CR LF and heads the columns with their keys', () => {
    expect(csv({ time_s: numbers(0, 0.5), speed_m_s: numbers(1, 2) })).toBe('time_s,speed_m_s\r\n0,1\r\n0.5,2\r\n');
  });

  it('quotes fields with commas, quotes and line breaks, and doubles quotes', () => {
    expect(csv({ what: words('a,b', 'say "x"', 'two\nlines', 'plain') })).toBe(
      'what\r\n"a,b"\r\n"say ""x"""\r\n"two\nlines"\r\nplain\r\n',
    );
  });

  // The signs that make a spreadsheet reckon a cell out: OWASP, "CSV Injection" (from memory).
  it.each([
    ['=1+1', "'=1+1"],
    ['+cmd', "'+cmd"],
    ['-cmd', "'-cmd"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['\tx', "'\tx"],
    ['\rx', `"'\rx"`],
    [' =1+1', "' =1+1"],
    ['=a,b', `"'=a,b"`],
    ['-1.5e-3', '-1.5e-3'],
    ['+7', '+7'],
    ['a=b', 'a=b'],
    ['', ''],
  ])('a spreadsheet takes the word %j for a word', (word, written) => {
    expect(csv({ what: words(word) })).toBe(`what\r\n${written}\r\n`);
    expect(csv({ [word]: numbers(-0.5, -1e-30) })).toBe(`${written}\r\n-0.5\r\n-1e-30\r\n`);
  });

  it('keeps every digit, and leaves a field empty where there is no number', () => {
    const value = 0.1 + 0.2;
    const [, first, second, third] = csv({ x: numbers(value, Number.NaN, Infinity) }).split('\r\n');
    expect(Number(first)).toBe(value);
    expect([second, third]).toEqual(['', '']);
  });

  it('gives every series of every result, in order', () => {
    expect(csvTables(outcome).map(table => table.name)).toEqual(['dash.time', 'dash.traction']);
    expect(csvTables(outcome)[0]?.text).toBe('time_s,limiter\r\n0,grip\r\n0.1,grip\r\n');
  });
});

describe('JSON', () => {
  it('holds the whole outcome, typed arrays as arrays', () => {
    const read = JSON.parse(json(outcome)) as NotebookOutcome;
    expect(Object.keys(read)).toEqual(Object.keys(outcome));
    expect(read.blocks[1]).toMatchObject({ name: 'dash', result: { summary: { time: 1.5, mark: null } } });
    expect((read.blocks[1] as CellBlock).result?.series['time']?.['time_s']?.values).toEqual([0, 0.1]);
  });

  it('is the same text for the same outcome, ended by a line end', () => {
    expect(json(structuredClone(outcome))).toBe(json(outcome));
    expect(json(outcome).endsWith('}\n')).toBe(true);
  });
});
