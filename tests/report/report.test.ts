import { beforeAll, describe, expect, it } from 'vitest';
import { NOTHING_COMPARED } from '../../src/runs/second-opinion.ts';
import type { NotebookOutcome } from '../../src/notebook/document/outcome.ts';
import type { ProblemData } from '../../src/notebook/document/problem.ts';
import type { Input } from '../../src/model/fields/input.ts';
import { inputText, shareInputs } from '../../src/report/page/inputs.ts';
import { proseHtml } from '../../src/report/page/prose.ts';
import { writeReport } from '../../src/report/report.ts';
import { terminalSummary } from '../../src/report/terminal.ts';
import { cell, launch, outcome, problem } from './fixture.ts';
import { faults, headings } from './well-formed.ts';

const HOSTILE = `"><script>alert('x')</script><img src="http://127.0.0.1:9/">&\u0000`;

let page = '';
beforeAll(async () => {
  page = await writeReport(outcome());
});

/** Nothing but links that a reader clicks may name an address. */
function addresses(text: string): readonly string[] {
  return [
    ...text
      .replaceAll('xmlns="http://www.w3.org/2000/svg"', '')
      .replaceAll('xmlns:xlink="http://www.w3.org/1999/xlink"', '')
      .matchAll(/https?:[^\s"<]*/g),
  ].map(match => match[0]);
}

/** A number of the page without the spaces between its groups. */
function number(text: string | undefined): number {
  return Number((text ?? '').replaceAll('\u202f', ''));
}

function given(path: string, value: number, line: number): Input {
  return { path, value, unit: 'kg', display: 'kg', origin: { kind: 'given', file: 'a.md', line, column: 1 } };
}

describe('the page', () => {
  it('is well-formed, with unique ids and links that lead somewhere', () => {
    expect(faults(page)).toEqual([]);
  });

  it('says its language, has one first heading, and skips no level of heading', () => {
    expect(page).toMatch(/^<!DOCTYPE html>\n<html lang="en">/);
    const levels = headings(page);
    expect(levels.filter(level => level === 1)).toHaveLength(1);
    expect(levels[0]).toBe(1);
    levels.slice(1).forEach((level, i) => expect(level - (levels[i] ?? 0)).toBeLessThanOrEqual(1));
    for (const landmark of ['<header>', '<main>', '<footer>']) expect(page.split(landmark)).toHaveLength(2);
  });

  it('forbids everything from outside and all scripts, and has none', () => {
    expect(page).toContain(`<meta http-equiv="Content-Security-Policy" content="default-src 'none'; `);
    expect(page).not.toContain('script-src');
    expect(page).not.toMatch(/<script|<link|<iframe|<object|<embed|\son\w+=|@import|url\((?!#)/);
    expect(addresses(page)).toEqual([]);
  });

  it('is the same text for the same outcome', async () => {
    expect(await writeReport(outcome())).toBe(page);
  });

  it('gives every picture words, a name, two drawings and its numbers', () => {
    const figures = [...page.matchAll(/<figure class="picture[^"]*"[\s\S]*?<\/figure>/g)].map(match => match[0]);
    expect(figures).toHaveLength(3 * 4 + 1 + 1);
    for (const figure of figures) {
      expect(figure).toMatch(/class="wide" role="img" aria-label="[^"]+"/);
      expect(figure).toMatch(/class="slim" role="img" aria-label="[^"]+"/);
      expect(figure).toMatch(/<figcaption><strong>/);
    }
    expect(figures.filter(figure => figure.includes('<table'))).toHaveLength(3 * 4 + 1);
  });

  it('gives every table a caption, except those of the prose', () => {
    const own = page.split('<table class=').slice(1);
    expect(own.length).toBeGreaterThan(10);
    for (const table of own) expect(table).toMatch(/^"[a-z ]+">\s*<caption/);
    expect(page).not.toMatch(/<th>/);
  });

  it('comes in this order: trouble, answer, notebook, inputs, cautions', () => {
    const order = ['id="troubles"', 'id="answer"', 'id="workings"', 'id="inputs"', 'id="cautions"'].map(id =>
      page.indexOf(id),
    );
    expect(order.every(at => at > 0)).toBe(true);
    expect(order.toSorted((a, b) => a - b)).toEqual(order);
  });

  it('shows one answer per launch, with its verdict', () => {
    expect(page.match(/<article class="card"/g)).toHaveLength(3);
    expect(page.replaceAll('\u00a0', ' ')).toMatch(
      /<strong>Yes\.<\/strong> Up to 100 km\/h these tyres can not put down \d+ %/,
    );
  });

  it('shows inputs with value, spread and where they come from', () => {
    expect(page).toContain('1100\u00a0kg ± 12\u00a0kg');
    expect(page).toContain('<td>1100\u00a0kg ± 12\u00a0kg</td><td>line 14</td>');
    expect(page).toContain('<td>near the top of class E of an EU tyre label</td>');
    expect(page).toContain('0.57 (0.56 .. 0.58)');
    expect(page).toMatch(/<a href="#source-1">source 1<\/a>/);
    expect(page).toContain('5 given, 2 computed and 3 assumed');
  });

  it('shows the cautions that are due, with the voltage of this pack', () => {
    for (const words of ['60 V dc', 'ISO 6469-3', 'closed course', 'approved again', 'ISO 4000-1', 'JCGM 100'])
      expect(page).toContain(words);
    expect(page).toMatch(/stands at up to 35\d V/);
  });

  it('shows the problem in its cell with place, cure and carets, and marks the check that fails', () => {
    const own = page.slice(page.indexOf('<span class="kind">part</span>'));
    expect(own).toContain('scenarios/beekeeper.md:71:9');
    expect(own).toContain('  mass: 120 kgs\n        ^^^^^^^');
    expect(own).toContain('Did you mean <code>kg</code>');
    expect(page).toMatch(/<li class="fails" id="check-64"><b>✗ fails<\/b>/);
    expect(page).toContain('1 problem, 1 check not met');
  });

  it('names the cure in the box at its head too, with a way to the cell', () => {
    const box = page.slice(page.indexOf('<section class="troubles"'), page.indexOf('<section class="answer"'));
    expect(box).toMatch(/<a href="#cell-\d+">scenarios\/beekeeper\.md:71:9<\/a> <strong>/);
    expect(box).toContain('Expected: a mass such as &quot;1010 kg&quot;.');
    expect(box).toContain('Did you mean <code>kg</code>?');
  });

  it('lets the ledger add up on the page', () => {
    const ledger = /<table class="figures ledger">[\s\S]*?<\/table>/.exec(page)?.[0] ?? '';
    const rows = [...ledger.matchAll(/<td>(put in|gone|stored)<\/td><td>([^<]*)<\/td>/g)];
    const side = (...names: string[]): number =>
      rows.filter(row => names.includes(row[1] ?? '')).reduce((all, row) => all + number(row[2]), 0);
    expect(rows.length).toBeGreaterThan(5);
    // Each line is rounded to a tenth.
    expect(Math.abs(side('put in') - side('gone', 'stored'))).toBeLessThan(0.05 * rows.length);
  });
});

describe('a hostile notebook', () => {
  const bad: NotebookOutcome = outcome({
    title: HOSTILE,
    file: HOSTILE,
    blocks: [
      {
        kind: 'prose',
        html: '<p>&lt;script&gt;</p><p><img src="http://127.0.0.1:9/a.png" alt="a view"></p>',
        text: '',
      },
      cell('launch', HOSTILE, 3, HOSTILE, { result: { ...launch({ mu: 0.7, power: 90_000 }), warnings: [HOSTILE] } }),
      cell('launch', `${HOSTILE}2`, 9, HOSTILE, { result: launch({ mu: 0.9, power: 90_000 }) }),
      cell('calc', 'c', 15, '', { values: [{ name: HOSTILE, value: HOSTILE, unit: '', display: '' }] }),
      cell('plot', 'p', 20, '', {
        chart: {
          title: HOSTILE,
          spec: { mark: 'image', data: { values: [{ u: 'http://127.0.0.1:9/' }] }, encoding: { url: { field: 'u' } } },
        },
      }),
      cell('check', 'k', 30, '', {
        checks: [{ promise: HOSTILE, text: HOSTILE, line: 31, holds: false, found: HOSTILE }],
      }),
    ],
    inputs: [{ path: HOSTILE, value: HOSTILE, unit: '', display: '', origin: { kind: 'assumed', source: HOSTILE } }],
    problems: [
      { ...problem, line: 999, path: HOSTILE, message: HOSTILE, expected: HOSTILE, nearest: HOSTILE, source: HOSTILE },
    ],
  });

  it('is shown as text: well-formed, without a script or an address that is loaded', async () => {
    const shown = await writeReport(bad);
    expect(faults(shown)).toEqual([]);
    expect(shown).not.toMatch(/<script|<img|<image/i);
    expect(shown).toContain('could not be drawn');
    expect(shown).toContain('[picture not in this file: a view]');
  });
});

describe('a notebook with little in it', () => {
  it('makes a page without runs, inputs or problems', async () => {
    const shown = await writeReport(outcome({ blocks: [], inputs: [], problems: [], failedChecks: 0 }));
    expect(faults(shown)).toEqual([]);
    expect(shown).not.toContain('id="answer"');
    expect(shown).toContain('id="cautions"');
  });

  it('shows reasons where a launch has no times', async () => {
    const result = launch({ mu: 0.7, power: 118_000 });
    const never = 'the car can not climb this';
    const summary = Object.fromEntries(Object.keys(result.summary).map(key => [key, null]));
    const reasons = Object.fromEntries(Object.keys(result.summary).map(key => [key, never]));
    const shown = await writeReport(
      outcome({ blocks: [cell('launch', 'hill', 3, '', { result: { ...result, summary, reasons } })] }),
    );
    expect(faults(shown)).toEqual([]);
    expect(shown).toContain(`0 to 100\u00a0km/h: ${never}`);
    expect(shown).not.toMatch(/NaN|undefined|>null</);
  });

  it('warns when the second method disagrees', async () => {
    const result = launch({ mu: 0.7, power: 118_000 });
    const opinion = { method: 'odex', difference: 0.02, where: 'time_to_100_km_h', tolerance: 1e-6, agrees: false };
    const shown = await writeReport(
      outcome({ blocks: [cell('launch', 'odd', 3, '', { result: { ...result, opinion } })] }),
    );
    expect(shown).toMatch(
      /class="warning"><strong>Mind:<\/strong> Worked out a second time.*Do not rely on this result/,
    );
  });

  it('says in words that nothing could be compared', async () => {
    const result = launch({ mu: 0.7, power: 118_000 });
    const opinion = { method: 'odex', difference: 0, where: NOTHING_COMPARED, tolerance: 1e-6, agrees: true, until: 0 };
    const shown = await writeReport(
      outcome({ blocks: [cell('launch', 'odd', 3, '', { result: { ...result, opinion } })] }),
    );
    expect(shown).toMatch(/did not come far enough .* for anything to be compared: nothing checks this run/);
    expect(shown).not.toMatch(/agrees to/);
  });
});

describe('a fault of axlewatt in one cell', () => {
  it('stands in its place in page and summary, and leaves the others whole', async () => {
    const result = launch({ mu: 0.7, power: 118_000 });
    const { time_s: _, ...time } = result.series['time'] ?? {};
    const broken = { ...result, series: { ...result.series, time } };
    const book = outcome({
      blocks: [
        cell('launch', 'whole', 3, '', { result }),
        cell('launch', 'broken', 9, '', { result: broken }),
        cell('launch', 'sound', 15, '', { result }),
      ],
    });
    const told: ProblemData[] = [];
    const shown = await writeReport(book, { onFault: fault => void told.push(fault) });
    expect(faults(shown)).toEqual([]);
    expect(shown).toContain('a fault of axlewatt itself in the report: Error: the series has no column time_s');
    expect(shown.match(/<figure class="picture" id="cell-3-/g)?.length).toBeGreaterThan(2);
    expect(shown).toContain('id="cautions"');
    expect(told.map(({ line, cause }) => [line, cause])).toEqual(told.map(() => [9, 'axlewatt']));
    expect(told.length).toBeGreaterThan(0);
    const lines: ProblemData[] = [];
    const text = terminalSummary(book, { color: false, width: 80 }, fault => void lines.push(fault));
    expect(text).toContain('launch sound');
    expect(lines.every(({ cause, line }) => cause === 'axlewatt' && line === 9)).toBe(true);
  });
});

describe('inputs', () => {
  it('that several cells have alike stand once, with the cells named', () => {
    const shared = shareInputs([
      given('one.mass', 9, 1),
      given('two.mass', 9, 1),
      given('three.mass', 8, 2),
      given('mass', 9, 1),
    ]);
    expect(shared.map(({ cells, path, input }) => [cells, path, input.value])).toEqual([
      [['one', 'two'], 'mass', 9],
      [['three'], 'mass', 8],
      [[''], 'mass', 9],
    ]);
  });

  it('that are lists are shown with their unit', () => {
    expect(
      inputText({ path: 'p', value: '3.1, 3.2', unit: 'V', display: 'V', origin: { kind: 'assumed', source: '' } }),
    ).toBe('3.1, 3.2 V');
    expect(
      inputText({ path: 'p', value: '0, 1', unit: '1', display: '1', origin: { kind: 'assumed', source: '' } }),
    ).toBe('0, 1');
  });
});

describe('prose', () => {
  it('goes one level down, loses a heading that repeats the title, and never skips to the top', () => {
    expect(proseHtml('<h1>T &amp; x</h1>\n<p>a</p><h2>b</h2>', 'T & x')).toEqual({
      html: '<p>a</p><h3>b</h3>',
      level: 3,
    });
    expect(proseHtml('<h1>other</h1>', 'T').html).toBe('<h3>other</h3>');
    expect(proseHtml('<h6>deep</h6>', null).level).toBe(6);
    expect(proseHtml('<p>none</p>', null).level).toBeNull();
  });
});
