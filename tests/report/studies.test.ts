import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/notebook/document/outcome.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { writeReport } from '../../src/report/report.ts';
import { terminalSummary } from '../../src/report/terminal.ts';
import type { Result } from '../../src/runs/result.ts';
import { base, dash, week } from '../notebook/study-cells.ts';
import * as studies from '../studies-results.ts';
import { outcome } from './fixture.ts';
import { faults } from './well-formed.ts';

const plain = (text: string): string => text.replaceAll('\u00a0', ' ').replaceAll('\u202f', ' ');
const blockOf = (result: Result, i: number): Block => ({
  kind: 'cell',
  cell: result.kind,
  name: `study_${i + 1}`,
  line: 3 + 10 * i,
  source: '',
  problem: null,
  result,
  values: [],
  chart: null,
  checks: [],
});
const book = outcome({ blocks: Object.values(studies).map(blockOf), problems: [], failedChecks: 0 });
const page = writeReport(book);

describe('the report of studies', () => {
  it('is well-formed and hides nothing that went wrong', async () => {
    expect(faults(await page)).toEqual([]);
    expect(/.{0,60}(?:NaN|undefined|could not be drawn).{0,80}/.exec(await page)?.[0] ?? '').toBe('');
  });

  it('answers first, and says what a car breaks', async () => {
    const text = plain(await page);
    const answer = text.slice(text.indexOf('id="answer"'), text.indexOf('id="workings"'));
    expect(answer).toMatch(/To 100 km\/h \(dash\): best is quick with \d\.\d\d s/);
    expect(answer).toMatch(
      /<b>\d\.\d\d s<\/b> <span>to 100 km\/h \(dash\)<\/span><span>nine of ten within \[\d\.\d+, \d\.\d+\] s<\/span>/,
    );
    expect(answer).toContain('Nothing in this range will do');
    expect(answer).toContain('heavy breaks the permitted mass');
    expect(answer).toContain('Square brackets: nine of ten lie between');
  });

  it('has one table of the cars, with differences and the best marked', async () => {
    const text = plain(await page);
    const table = text.slice(text.indexOf('The cars in figures, with'), text.indexOf('The cars side by side'));
    expect(table).toContain('<th scope="col">base</th><th scope="col">quick</th><th scope="col">heavy</th>');
    expect(table).toMatch(/<strong>★ \d\.\d\d<\/strong><br><small>−\d\.\d\d<\/small>/);
    expect(table).toContain('<small>+250</small>');
  });

  it('shows of a long sweep a part, and says where the rest is', async () => {
    expect(plain(await page)).toContain('24 of 42 rows are shown');
    expect(await page).toContain('axlewatt run --csv');
  });

  it('tells the conditions of a search with what is left, or what is missing', async () => {
    const text = plain(await page);
    expect(text).toContain('The conditions, and what is left');
    expect(text).toContain('The conditions, and what is missing');
  });

  it.each([40, 72])('fits into a terminal of %i characters', width => {
    const text = terminalSummary(book, { color: false, width });
    for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(width);
    expect(text.replace(/\s+/g, ' ')).toContain('best is quick with');
  });
});

describe('the intervals of runs', () => {
  const sampled = runNotebook(base.replace('mass: 1150 kg', 'mass: 1150 kg ± 20 kg') + dash + week, {
    file: 'a.md',
    samples: 32,
  });

  it('stand in the answer, in the tables and in the sentences, with what they mean', async () => {
    const text = plain(await writeReport(sampled));
    expect(faults(text)).toEqual([]);
    expect(text).toMatch(/nine of ten within \[\d\.\d+, \d\.\d+\] s/);
    expect(text).toMatch(/<th scope="row">to 100 km\/h<\/th><td>\d\.\d\d \[\d\.\d+, \d\.\d+\] s<\/td>/);
    expect(text).toMatch(/\d+ \[\d+, \d+\] km at a steady 80/);
    expect(text).toMatch(
      /Square brackets: nine of ten lie between, rounded outwards to what the samples know; 32 samples of \d+ uncertain inputs, seed 1\./,
    );
    expect(text).toContain('Results with square brackets carry these spreads');
    expect(text).not.toContain('are not carried through');
  });

  it('stand on the terminal', () => {
    const text = terminalSummary(sampled, { color: false, width: 72 }).replace(/\s+/g, ' ');
    expect(text).toMatch(/to 100 km\/h \d\.\d\d \[\d\.\d+, \d\.\d+\] s/);
    expect(text).toContain(
      'Square brackets: nine of ten lie between, rounded outwards to what the samples know; 32 samples of',
    );
  });

  it('say how many samples had no answer', async () => {
    const block = sampled.blocks.find(each => each.kind === 'cell' && each.name === 'dash');
    if (block?.kind !== 'cell' || block.result?.intervals === undefined) throw new Error('no intervals');
    const { intervals } = block.result;
    const holes = { time: { missing: 3, reasons: [{ reason: 'not reached', samples: 3 }] } };
    const holed = { ...block, result: { ...block.result, intervals: { ...intervals, holes } } };
    const text = await writeReport(outcome({ blocks: [holed], problems: [], failedChecks: 0 }));
    expect(text).toContain('No answer: to the target speed in 3 of 32 cases (not reached).');
  });
});
