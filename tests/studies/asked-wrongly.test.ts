/** What a program asks a study that nobody can mean: an error with a code and the path as it was written. */
import { describe, expect, it } from 'vitest';
import { compare, rank, seek, spread, studyOf, sweep, uncertainOf } from '../../src/doors/studies.ts';
import { completeCar, questionOf, SpecError } from '../../src/index.ts';
import type { CarSpec } from '../../src/index.ts';

const spec = {
  mass: 1010,
  tyres: { size: '165/80 R 13' },
  drive: { axle: 'front', unit: 'unit_100kw', ratio: 8 },
  pack: 'pack_nmc_96s1p_60ah',
} as const satisfies CarSpec;
const question = questionOf({ spec, kind: 'launch', car: 'van' });
const study = studyOf([question], ['launch.time']);
const [figure] = study.figures;
const ratio = { path: 'drive.ratio', values: [7, 9] };
const smallest = { kind: 'smallest', axis: 0 } as const;
const condition = { figure, sense: 'at_most', bound: 9, text: 'launch.time <= 9 s' };

function found(work: () => unknown): readonly [code: string, path: string] {
  try {
    work();
  } catch (error) {
    if (!(error instanceof SpecError)) throw error;
    // Whoever only reads the message reads where.
    expect(error.message.startsWith(error.path)).toBe(true);
    return [error.code, error.path];
  }
  throw new Error('was taken');
}

describe('is refused', () => {
  const wrong = (value: unknown): never => value as never;
  it.each<[string, () => unknown, string, string]>([
    ['a study of nothing', () => studyOf(wrong(null)), 'outside', 'questions'],
    ['a study of a specification', () => studyOf([wrong(spec)]), 'outside', 'questions[0]'],
    ['names that are no list', () => studyOf([question], wrong('launch.time')), 'outside', 'names'],
    ['a figure that there is none of', () => studyOf([question], ['launch.tme']), 'conflict', 'figures.outputs'],
    ['a sweep of no study', () => sweep(wrong(question), [ratio]), 'outside', 'study'],
    ['a sweep along nothing', () => sweep(study, []), 'outside', 'along'],
    ['a sweep along what is no list', () => sweep(study, wrong(ratio)), 'outside', 'along'],
    ['a path that is no text', () => sweep(study, [{ ...ratio, path: wrong(3) }]), 'outside', 'along[0].path'],
    ['a value in text', () => sweep(study, [{ ...ratio, values: wrong(['7', 9]) }]), 'outside', 'along[0].values[0]'],
    ['a value outside', () => sweep(study, [{ ...ratio, values: [-7] }]), 'outside', 'drive.ratio'],
    ['a path to nothing', () => sweep(study, [{ ...ratio, path: 'drive.ration' }]), 'unknown', 'drive.ration'],
    [
      'a wish for a figure beyond',
      () => sweep(study, [ratio], [{ figure: 7, wish: 'lowest' }]),
      'outside',
      'wishes[0].figure',
    ],
    [
      'a wish in another word',
      () => sweep(study, [ratio], [{ figure: 0, wish: wrong('low') }]),
      'choice',
      'wishes[0].wish',
    ],
    ['samples as a number', () => spread(study, [], { seed: 1, samples: wrong(200) }), 'outside', 'plan.samples'],
    ['no samples', () => spread(study, [], wrong({ seed: 1 })), 'missing', 'plan.samples'],
    [
      'a plan misspelled',
      () => spread(study, [], wrong({ seed: 1, samples: { fixed: 8 }, sorce: 'sobol' })),
      'unknown',
      'plan.sorce',
    ],
    ['half a sample', () => spread(study, [], { seed: 1, samples: { fixed: 0.5 } }), 'outside', 'plan.samples.fixed'],
    [
      'inputs that are no list',
      () => spread(study, wrong('mass'), { seed: 1, samples: { fixed: 8 } }),
      'outside',
      'inputs',
    ],
    ['a rank by half an option', () => rank(study, [], wrong({ poinst: 16 })), 'unknown', 'options.poinst'],
    ['a rank by no number', () => rank(study, [], { points: Number.NaN }), 'outside', 'options.points'],
    ['a goal in a word', () => seek(study, [ratio], wrong('smallest'), []), 'outside', 'goal'],
    ['a goal without its axis', () => seek(study, [ratio], wrong({ kind: 'smallest' }), []), 'missing', 'goal.axis'],
    ['a goal beyond its axes', () => seek(study, [ratio], { kind: 'smallest', axis: 1 }, []), 'outside', 'goal.axis'],
    ['a goal without its figure', () => seek(study, [ratio], wrong({ kind: 'lowest' }), []), 'missing', 'goal.output'],
    [
      'a bound that is no number',
      () => seek(study, [ratio], smallest, wrong([{ ...condition, bound: '9' }])),
      'outside',
      'conditions[0].bound',
    ],
    [
      'a sense in another word',
      () => seek(study, [ratio], smallest, wrong([{ ...condition, sense: 'below' }])),
      'choice',
      'conditions[0].sense',
    ],
    [
      'a condition about a figure of another study',
      () => seek(study, [ratio], smallest, wrong([{ ...condition, figure: { ...figure } }])),
      'outside',
      'conditions[0].figure',
    ],
    ['a search along three', () => seek(study, [ratio, ratio, ratio], smallest, []), 'outside', 'along'],
    ['cars that have no names', () => compare(study, wrong([spec])), 'outside', 'cars'],
    ['a car that is none', () => compare(study, new Map([['light', wrong(null)]])), 'outside', 'cars.light'],
    [
      'prices in text',
      () => compare(study, new Map([['van', question]]), { prices: wrong(['9']) }),
      'outside',
      'spec.prices[0]',
    ],
    [
      'inputs of a car of another name',
      () => uncertainOf(question, completeCar(spec, 'coupe').inputs),
      'conflict',
      'inputs',
    ],
  ])('%s', (_, work, code, path) => {
    expect(found(work)).toEqual([code, path]);
  });
});

it('takes what it is meant to take', () => {
  const drawn = uncertainOf(question, study.inputs);
  expect(drawn.length).toBeGreaterThan(20);
  expect(uncertainOf(question, completeCar(spec, 'van').inputs).map(({ path }) => path)).toEqual(
    drawn.map(({ path }) => path),
  );
  expect(seek(study, [ratio], smallest, [condition as never]).summary).toBeDefined();
  expect(spread(study, drawn, { seed: 1, samples: { fixed: 16 } }).summary['samples']).toBe(16);
});
