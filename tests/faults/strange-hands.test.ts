/** What a notebook from a stranger can do to the machine it is opened on. */
import { describe, expect, it } from 'vitest';
import { openWays } from '../../src/notebook/cells/trip-way.ts';
import { command } from '../command.ts';

describe('a terminal', () => {
  const notebook =
    'a \u001b]0;mine\u0007 \u001b[31m `= \u001b[2J\u202e + 1`\n\n```yaml car x\n\u001b[31mmass: 1 kg\n```\n';

  it.each(['check', 'run'])('is not coloured, cleared or named by what %s says of a notebook', verb => {
    const { code, out, err } = command({ 'a.md': notebook }, [verb, 'a.md']);
    expect(code).toBe(1);
    expect(out + err).toContain('a.md:4');
    expect(`${out}${err}`.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Bidi_Control}]/u);
  });

  it('is not coloured by the name of a file that is not there', () => {
    const { code, err } = command({}, ['check', 'x\u001b[31m.md']);
    expect(code).toBe(2);
    expect(err.replaceAll('\n', '')).not.toMatch(/\p{Cc}/u);
  });
});

const fence = (head: string, body: string): string => `\`\`\`${head}\n${body}\n\`\`\`\n`;
const car = fence(
  'yaml car a',
  `mass: 1010 kg
tyres: { from: tyre_narrow, radius: 0.29 m }
drive: { axle: front, unit: unit_200kw, ratio: 8.4 }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 2 }`,
);

/** What `check` says; a limit of seconds far above what it takes, for a busy machine. */
function told(files: Readonly<Record<string, string>>): string {
  const { code, err } = command(files, ['check', 'a.md'], 100);
  expect(code).toBe(1);
  expect(err.length).toBeLessThan(50_000);
  return err;
}

describe('what grows beyond all bounds is told, not done', () => {
  it('rows of a plot that fold over fold makes', () => {
    const folds = Array.from({ length: 12 }, (_, k) => `{fold: [time, speed, speed_m_s, time_s], as: [k${k}, v${k}]}`);
    const plot = `data: l\nmark: point\ntransform: [${folds.join(', ')}]\nencoding: {x: {field: v1}, y: {field: v0}}`;
    const said = told({ 'a.md': car + fence('yaml launch l', 'car: a') + fence('yaml plot', plot) });
    expect(said).toMatch(/a\.md:11:1: plot 1: the transforms up to here make .*e\+9 rows; expected at most 100000/u);
  });

  it('a table of 14 MB', () => {
    const said = told({ 'a.md': `|a|b|\n|-|-|\n${'|1|2|\n'.repeat(2_300_000)}` });
    expect(said).toContain('a.md:1:1: 13800012 characters; expected a notebook of at most 1000000');
  });

  it('but a notebook with pictures in it is as long as it likes', () => {
    const picture = `![a](data:image/png;base64,${'A'.repeat(3_000_000)})`;
    expect(command({ 'a.md': `${picture}\n\n${fence('calc c', 'x = 1')}` }, ['check', 'a.md']).code).toBe(0);
  });

  it('a thousand cells', () => {
    const said = told({ 'a.md': fence('yaml check', '- 1 < 2').repeat(2000) });
    expect(said).toContain('a.md:2998:1: the 1000th cell of this notebook, and no cell after it is read');
  });

  it('formulas of one cell', () => {
    const lines = Array.from({ length: 2000 }, (_, k) => `v${k} = ${k}`);
    expect(told({ 'a.md': fence('calc c', lines.join('\n')) })).toContain('a.md:1002:1: more than 1000 formulas');
  });

  it('names of 50,000 letters', () => {
    const name = 'n'.repeat(50_000);
    const said = told({
      'a.md': fence(`yaml part ${name}`, 'kind: tyre') + car.replace('from: tyre_narrow', `from: ${name}x`),
    });
    expect(said).toContain('a.md:1:14: a name of 50000 letters; expected at most 100');
    expect(said).toContain('a.md:6:16: a.tyres: no part of kind tyre is called "nnn');
  });

  it('9,000 unknown keys', () => {
    const keys = Array.from({ length: 9000 }, (_, k) => `k${k}: 1`);
    const said = told({ 'a.md': fence('yaml car b', keys.join('\n')) });
    expect(said).toContain('a.md:21:1: b.k19: unknown key "k19"');
    expect(said).not.toContain('a.md:22:1');
    expect(said).toContain('a.md:9001:1: b: 8980 more unknown keys, the last of them here');
  });

  it('a trip that drives an hour 200 times', () => {
    const rows = Array.from({ length: 3601 }, (_, k) => `${k},${20 + (k % 7)}`);
    const said = told({
      'a.md': car + fence('yaml drive d', 'car: a\ntrip:\n  - {log: l.csv, times: 10}\n  - {log: l.csv, times: 190}'),
      'l.csv': `time_s,speed_km_h\n${rows.join('\n')}\n`,
    });
    expect(said).toContain(
      'a.md:11:5: d.trip[2]: makes a way of 720200 points of speed over time; expected at most 200000',
    );
  });

  it('the text of many logs', () => {
    const large = `time_s,speed_km_h\n0,10\n1,20\n${`#${'x'.repeat(90_000)}\n`.repeat(180)}`;
    const ways = openWays({}, () => large);
    const read = (k: number): unknown => ways.of({ log: `l${k}.csv` }, `d.trip[${k}]`);
    for (const k of [1, 2, 3, 4]) read(k);
    expect(() => read(5)).toThrow('the logs up to here have 81001940 characters');
    expect(read(4)).toBeDefined();
  });
});
