import { expect, it } from 'vitest';
import { checkPromise, sidesOf } from '../../src/notebook/cells/comparison.ts';
import type { World } from '../../src/notebook/context.ts';
import type { CheckOutcome } from '../../src/notebook/document/outcome.ts';
import { evaluateFormula } from '../../src/notebook/formula/formula.ts';
import { checkList } from '../../src/report/page/cell.ts';
import { seconds } from '../../src/runs/output.ts';

/** 8.3 s within [7.9, 9.2] s, another figure of 9 s within as much, one of 8 s of which nobody took samples, and one that many samples lack. */
const ends = {
  low: 7.9,
  high: 9.2,
  promised: { atLeast: 8, atMost: 9.1 },
  standard: 0.4,
  error: 0,
  known: true,
  below: 0.5,
  missing: 0,
};
const figures = new Map([
  ['dash.time', { value: 8.3, ends }],
  ['other.time', { value: 9, ends }],
  ['sure.time', { value: 8, ends: undefined }],
  ['rare.time', { value: 8, ends: { ...ends, promised: { atLeast: null, atMost: null }, missing: 40 } }],
]);
const world = {
  system: 'metric',
  evaluate: (formula: string) =>
    evaluateFormula(formula, path => {
      const found = figures.get(path);
      return found && { value: found.value, unit: 's' };
    }),
  figure: (path: string) => {
    const found = figures.get(path);
    return found === undefined ? null : { output: seconds('to 100 km/h', ''), ends: found.ends, probability: 0.9 };
  },
} as Pick<World, 'system' | 'evaluate' | 'figure'> as World;

const check = (text: string): CheckOutcome => ({ promise: 'Quick', text, line: 3, holds: true, found: 'as asked' });
const judged = (text: string) => checkPromise(check(text), world).sure;

it('judges a promise by what nine of ten samples keep, whichever side the figure stands on, as a seek with that confidence does', () => {
  const [most, least] = ['in nine of ten at most 9.10\u00a0s', 'in nine of ten at least 8.00\u00a0s'];
  expect(judged('dash.time < 10 s')).toEqual({ hold: true, text: most });
  expect(judged('dash.time < 9.1 s')).toEqual({ hold: false, text: most });
  expect(judged('9.1 s >= dash.time')).toEqual({ hold: true, text: most });
  expect(judged('8 s <= dash.time')).toEqual({ hold: true, text: least });
  expect(judged('8 s < dash.time')).toEqual({ hold: false, text: least });
  expect(judged('dash.time > 2 * 3 s')).toEqual({ hold: true, text: least });
});

it('is not sure of what too many samples lack', () => {
  expect(judged('rare.time < 10 s')).toEqual({
    hold: false,
    text: 'too many cases have no answer to say so in nine of ten',
  });
});

it('says nothing of what has no ends, or moves on both sides', () => {
  for (const text of [
    'sure.time < 9 s',
    'dash.time < other.time',
    'dash.time >= sure.time',
    '2 * dash.time < 20 s',
    'dash.time == 8.3 s',
    '8 s < dash.time < 9 s',
    'dash.time < 9 s and dash.time > 1 s',
    '(dash.time < 9 s)',
  ])
    expect(judged(text), text).toBeUndefined();
});

it('cuts comparisons where they compare, not inside words', () => {
  expect(sidesOf('a.b <= 3 s')).toEqual({ sides: ['a.b', '3 s'], operators: ['<='] });
  expect(sidesOf('a.limiter == "x < y"')).toEqual({ sides: ['a.limiter', '"x < y"'], operators: ['=='] });
});

it('tells what holds by its best figures alone apart from what is sure', () => {
  const told = (each: CheckOutcome): string => checkList([each]).html.replaceAll(/<[^>]*>/g, '');
  expect(told(checkPromise(check('dash.time < 10 s'), world))).toContain('✓ holds');
  const unsure = told(checkPromise(check('dash.time < 9 s'), world));
  expect(unsure).toContain('≈ not sure Quick');
  expect(unsure).toContain('in nine of ten at most 9.10\u00a0s');
  expect(told({ ...checkPromise(check('dash.time < 9 s'), world), holds: false })).toContain('✗ fails');
});
