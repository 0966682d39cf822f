/**
 * Bad input: mutations of an example that ships. Each gives a located problem or a right result, and the cells that do not
 * use what is wrong come out as they were.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { type CellKind } from '../../src/notebook/cells/kind.ts';
import { NOTHING } from '../../src/notebook/cells/yield.ts';
import { resultYield } from '../../src/notebook/cells/result.ts';
import { csvTables, json } from '../../src/notebook/document/export.ts';
import { readYaml } from '../../src/notebook/document/located.ts';
import type { NotebookOutcome } from '../../src/notebook/document/outcome.ts';
import { problemText } from '../../src/notebook/document/problem.ts';
import { readFields } from '../../src/notebook/fields/read.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { chartOf, figureOf } from '../../src/report/page/figures.ts';
import { writeReport } from '../../src/report/report.ts';
import { terminalSummary } from '../../src/report/terminal.ts';
import type { Summary } from '../../src/runs/result.ts';
import { faults } from '../report/well-formed.ts';
import { dash, dummy, dummyResult, fence, KINDS } from './fake.ts';
import { type Mutation, mutate } from './mutate.ts';

/** Most mutations leave most launches as they were: the same car on the same road runs once. */
vi.mock('../../src/runs/launch/launch.ts', async load => {
  const module = await load<typeof import('../../src/runs/launch/launch.ts')>();
  const known = new Map<string, ReturnType<typeof module.launch>>();
  const launch: typeof module.launch = (car, options) => {
    const key = JSON.stringify([car, options]);
    const result = known.get(key) ?? module.launch(car, options);
    known.set(key, result);
    return result;
  };
  return { ...module, launch };
});

const FILE = 'guesthouse.md';
const text = readFileSync(new URL('../../scenarios/guesthouse.md', import.meta.url), 'utf8');
const run = (notebook: string): NotebookOutcome => runNotebook(notebook, { file: FILE });
const original = summaries(run(text));
const classes = mutate(text, 20_250);

function summaries(outcome: NotebookOutcome): ReadonlyMap<string, Summary> {
  const launches = outcome.blocks.filter(block => block.kind === 'cell').filter(block => block.cell === 'launch');
  return new Map(launches.flatMap(({ name, result }) => (result === null ? [] : [[name, result.summary]])));
}

/** Words that only a fault of ours would say; those that the user wrote stand in quotation marks or in the source. */
function ownWords(said: string): string[] {
  const unquoted = said.replace(/"[^\n]*"/g, '');
  return unquoted.match(/a fault of axlewatt itself|undefined|\bNaN\b|\bInfinity\b|\[object|\n\s+at \S+/g) ?? [];
}

function expectSound(outcome: NotebookOutcome, notebook: string): void {
  // CommonMark (2.3) puts a replacement character in the place of NUL.
  const lines = notebook
    .replace(/^\uFEFF/, '')
    .replaceAll('\0', '\ufffd')
    .split(/\r\n|\r|\n/);
  for (const problem of outcome.problems) {
    const said = problemText(problem);
    expect(problem.message.trim(), said).not.toBe('');
    expect(ownWords(problemText({ ...problem, source: '' })), said).toEqual([]);
    expect(problem.file).toBe(FILE);
    expect(lines[problem.line - 1], said).toBe(problem.source.replaceAll('\0', '\ufffd'));
    expect(problem.column, said).toBeGreaterThanOrEqual(1);
    expect(problem.column, said).toBeLessThanOrEqual(problem.source.length + 1);
    expect(problem.length, said).toBeGreaterThanOrEqual(1);
  }
  for (const [name, summary] of summaries(outcome)) {
    for (const [key, value] of Object.entries(summary)) {
      if (typeof value === 'number') expect(Number.isFinite(value), `${name}.${key}`).toBe(true);
    }
  }
}

/** Told at points of the steps, which lie where the step control puts them: 59 degF and 15 degC differ in the last bit. */
const AT_POINTS: ReadonlySet<string> = new Set(['half_shaft_torque', 'half_shaft_torque_back']);

function expectSame(found: Summary | undefined, name: string): void {
  const wanted = original.get(name) ?? {};
  expect(found, name).toBeDefined();
  for (const [key, value] of Object.entries(wanted)) {
    const now = found?.[key];
    if (typeof value !== 'number' || typeof now !== 'number') expect(now, `${name}.${key}`).toBe(value);
    else {
      const most = AT_POINTS.has(key) ? 1e-6 : 1e-9;
      expect(Math.abs(now - value), `${name}.${key}`).toBeLessThanOrEqual(most * Math.max(1, Math.abs(value)));
    }
  }
}

function expectAsTold({ text: notebook, expected, spared }: Mutation, outcome: NotebookOutcome): void {
  expectSound(outcome, notebook);
  const told = outcome.problems.map(problem => problemText(problem)).join('\n');
  if (expected.outcome === 'same') {
    expect(told).toBe('');
    for (const name of original.keys()) expectSame(summaries(outcome).get(name), name);
  }
  if (expected.outcome === 'problem') {
    const here = outcome.problems.filter(({ line }) => expected.lines.includes(line));
    expect(here, told).not.toEqual([]);
    const { says, nearest } = expected;
    if (says !== undefined)
      expect(
        here.some(({ message }) => says.test(message)),
        told,
      ).toBe(true);
    if (nearest !== undefined)
      expect(
        here.some(problem => problem.nearest.startsWith(nearest)),
        told,
      ).toBe(true);
  }
  for (const name of spared) expectSame(summaries(outcome).get(name), name);
}

it('makes at least 200 mutations, the same ones each time', () => {
  expect([...classes.values()].flat().length).toBeGreaterThanOrEqual(200);
  expect(mutate(text, 20_250)).toEqual(classes);
  for (const { what, text: changed } of [...classes.values()].flat()) expect(changed, what).not.toBe(text);
});

it('starts from a notebook without problems', () => {
  expect(run(text).problems).toEqual([]);
  expect([...original.keys()]).toEqual(['as_it_is', 'road', 'sport', 'wet']);
});

describe.each([...classes])('%s', (name, mutations) => {
  it.each(mutations.map(mutation => [mutation.what, mutation] as const))('%s', (_what, mutation) => {
    expectAsTold(mutation, run(mutation.text));
  });

  it('leaves a report that is well-formed and tells of no fault', async () => {
    const mutation = mutations[(name.length * 7) % mutations.length]!;
    const outcome = run(mutation.text);
    const page = await writeReport(outcome);
    expect(faults(page)).toEqual([]);
    const words = page
      .replace(/<style>[^]*?<\/style>/g, '')
      .replace(/<(pre|code)\b[^]*?<\/\1>/g, '')
      .replaceAll('&quot;', '"');
    expect(ownWords(words)).toEqual([]);
    expect(
      ownWords(
        csvTables(outcome)
          .map(table => table.text)
          .join(''),
      ),
    ).toEqual([]);
    expect(JSON.parse(json(outcome))).toMatchObject({ file: FILE });
    expect(terminalSummary(outcome, { color: false, width: 80 })).not.toMatch(/a fault of axlewatt itself|\n\s+at \S+/);
  });
});

describe('found by hand', () => {
  const plotted = (spec: string): NotebookOutcome =>
    runNotebook(`${dash}${fence('yaml plot p', spec)}`, { file: FILE, kinds: KINDS });

  it('a limit in another unit is the limit, whatever rounding makes of it', () => {
    const field = {
      kind: 'number',
      unit: 'K',
      display: { metric: 'degC', imperial: 'degF' },
      min: 223.15,
      max: 333.15,
      doc: '',
    } as const;
    const context = {
      path: 'a',
      system: 'metric',
      part: () => undefined,
      parts: () => [],
      cell: () => undefined,
      cells: () => [],
      formula: () => ({ value: 0, unit: '1' }),
    } as const;
    const read = (said: string) => readFields(readYaml(`t: ${said}`, { file: FILE, line: 1 }), { t: field }, context);
    expect(read('-50 °C').values['t']).toBe(223.15);
    expect(read('-50 °C .. 60 °C').inputs[0]?.spread).toEqual({ kind: 'rectangular', low: 223.15, high: 333.15 });
    expect(read('-50.001 °C').problems).toHaveLength(1);
  });

  it('a number that is none has no value, with a reason, in formulas, prose and report', async () => {
    const summary = { ...dummyResult.summary, top_speed: Number.NaN };
    const { values, absent, product } = resultYield({ ...dummyResult, summary }, [], 'metric');
    expect(values.has('top_speed')).toBe(false);
    expect(absent.get('top_speed')).toBe('the run gives no number here');
    expect(product).toMatchObject({
      result: { summary: { top_speed: null }, reasons: { top_speed: absent.get('top_speed') } },
    });
  });

  it('a fault of ours in prose is told in its place, and all else goes on', () => {
    const broken: CellKind = {
      ...dummy,
      prepare: () => ({
        needs: [],
        run: () => ({ ...NOTHING, values: new Map([['x', { value: Number.NaN, unit: 'kg' }]]) }),
      }),
    };
    const outcome = runNotebook(`${dash}\nA \`= dash.x\` and \`= 2 kg\`.\n`, { file: FILE, kinds: [broken] });
    expect(outcome.problems).toMatchObject([
      { line: 5, column: 6, message: expect.stringContaining('a fault of axlewatt itself') },
    ]);
    expect(outcome.blocks.at(-1)).toMatchObject({ text: expect.stringContaining('2 kg') });
  });

  it.each([
    ['data: dash', 'shows nothing'],
    ['data: dash\nencoding: { x: { field: time } }', 'shows nothing'],
    ['data: dash\nlayer: [{ encoding: { x: { field: time } } }]', 'shows nothing'],
    [
      'data: dash\nmark: line\ntransform: [{ calculate: "datum.time * 2", as: __proto__ }]',
      '"__proto__" is not allowed',
    ],
    ['data: dash\nmark: line\ntransform: [{ calculate: "datum.time * 2", as: constructor }]', 'is not allowed here'],
  ])('the plot %j is refused', (spec, message) => {
    expect(plotted(spec).problems[0]?.message).toContain(message);
  });

  it('a plot without an encoding is drawn, as empty as it is', async () => {
    const block = plotted('data: dash\nmark: line').blocks.find(each => each.kind === 'cell' && each.cell === 'plot');
    if (block?.kind !== 'cell' || block.chart === null) throw new Error('no chart');
    expect((await chartOf(block.chart, 'p')).html).toContain('<svg');
  });

  it('a picture of ours that cannot be drawn leaves the rest of the page', async () => {
    const table = { columns: ['a'], rows: [['1']] };
    const spec = () => ({ mark: 'no such mark', data: { values: [] } });
    expect((await figureOf({ title: 'Force', caption: '', spec, table }, 'f')).html).toContain(
      'Force could not be drawn',
    );
  });

  it('of a very long line, the part around the place is shown', () => {
    const source = `${'a'.repeat(1000)}wrong${'b'.repeat(1000)}`;
    const said = problemText({
      file: FILE,
      line: 1,
      column: 1001,
      length: 5,
      path: '',
      message: 'x',
      expected: '',
      nearest: '',
      source,
    });
    const [, shown = '', carets = ''] = said.split('\n');
    expect(shown.length).toBeLessThan(220);
    expect(shown.slice(carets.indexOf('^'), carets.lastIndexOf('^') + 1)).toBe('wrong');
  });
});
