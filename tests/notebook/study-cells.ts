/** A small notebook with a car and its runs, for tests of the studies; and what any car does when it is asked directly. */
import type { Result } from '../../src/runs/result.ts';
import type { AnswerSettings } from '../../src/runs/kind.ts';
import { CAR_FIGURES, createAsk } from '../../src/runs/answer/ask.ts';
import { runKindOf } from '../../src/runs/kinds.ts';
import type { Change } from '../../src/runs/answer/change.ts';
import type { StudyRun } from '../../src/studies/question/figures.ts';
import type { NotebookOutcome } from '../../src/notebook/document/outcome.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { CELL_KINDS } from '../../src/notebook/cells/registry.ts';
import type { CellKind } from '../../src/notebook/cells/kind.ts';
import { cell, complaints, fence } from './fake.ts';

/** Everything exact that a launch is sensitive to, so that only what a test makes uncertain is. */
export const base: string = fence(
  'yaml car base',
  [
    'mass: 1150 kg',
    'front_share: 50 %',
    'cg_height: 0.5 m',
    'drag_area: 0.7 m^2',
    'tyres: { from: tyre_touring, radius: 290 mm }',
    'drive: { axle: rear, ratio: 9, unit: unit_100kw }',
    'pack: { cell: cell_nmc_60ah, series: 96, parallel: 2 }',
  ].join('\n'),
);
export const quick: string = fence('yaml car quick', 'from: base\nmass: 1000 kg\ndrive: { ratio: 10 }');
export const heavy: string = fence('yaml car heavy', 'from: base\nmass: 1400 kg\npack: { parallel: 3 }');
export const dash: string = fence('yaml launch dash', 'car: base');
export const week: string = fence('yaml steady week', 'car: base\nspeed: 80 km/h\ntemperature: 0 degC');

export const run = (text: string): NotebookOutcome => runNotebook(text, { file: 'a.md' });

/** The result of the cell `name`; fails with what the notebook complains of. */
export function resultOf(text: string, name: string): Result {
  const outcome = run(text);
  const { result } = cell(outcome, name);
  if (result === null) throw new Error(complaints(outcome).join('\n') || `${name} has no result`);
  return result;
}

/** A run of a notebook as studies take it. */
export function runOf(text: string, name: string): StudyRun {
  let found: StudyRun | undefined;
  const spying: readonly CellKind[] = CELL_KINDS.map(kind => ({
    ...kind,
    prepare: text => {
      const prepared = kind.prepare(text);
      return {
        ...prepared,
        run: world => {
          const given = prepared.run(world);
          if (text.piece.name === name && 'product' in given && given.product?.kind === 'result') {
            const { question, result } = given.product;
            if (question !== undefined) found = { question, result, inputs: given.inputs };
          }
          return given;
        },
      };
    },
  }));
  runNotebook(text, { file: 'a.md', kinds: spying });
  if (found === undefined) throw new Error(`${name} has no question`);
  return found;
}

/** What a run answers with other values: put to the car itself, without any study. @param settings as the cell asks where left out. */
export function asked(
  text: string,
  name: string,
  settings: AnswerSettings = {},
): (changes?: readonly Change[]) => { readonly [key: string]: number | null } {
  const { question } = runOf(text, name);
  const { intervals } = runKindOf(question.run.kind);
  const ask = createAsk(question, { ...settings, wanted: [...intervals, ...CAR_FIGURES] });
  return (changes = []) =>
    Object.fromEntries(
      Object.entries(ask(changes).summary).map(([key, value]) => [key, typeof value === 'number' ? value : null]),
    );
}

export const numbersOf = (result: Result, series: string, key: string): readonly number[] => {
  const column = result.series[series]?.[key];
  if (!(column?.values instanceof Float64Array)) throw new Error(`no numbers ${series}.${key}`);
  return [...column.values];
};

export const textsOf = (result: Result, series: string, key: string): readonly string[] => {
  const column = result.series[series]?.[key];
  if (column === undefined || column.values instanceof Float64Array) throw new Error(`no texts ${series}.${key}`);
  return column.values;
};

export const plain = (text: string): string => text.replaceAll('\u00a0', ' ').replaceAll('\u202f', ' ');
