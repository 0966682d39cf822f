/** Studies without a notebook: whoever calls them gets what the cells of a notebook say. */
import { describe, expect, it } from 'vitest';
import { carFields } from '../../src/model/spec.ts';
import { numberFieldAt } from '../../src/model/fields/at.ts';
import { uncertainOf } from '../../src/notebook/uncertain-inputs.ts';
import { compare } from '../../src/studies/answers/compare.ts';
import { rank } from '../../src/studies/answers/rank.ts';
import { seek } from '../../src/studies/answers/seek.ts';
import { spread } from '../../src/studies/answers/spread.ts';
import { sweep } from '../../src/studies/answers/sweep.ts';
import type { Axis } from '../../src/studies/question/axis.ts';
import { studyOfRuns } from '../../src/studies/question/figures.ts';
import { fence } from '../notebook/fake.ts';
import { base, dash, heavy, resultOf, runOf } from '../notebook/study-cells.ts';

const text = base.replace('mass: 1150 kg', 'mass: 1150 kg ± 20 kg') + dash + heavy;
const run = runOf(text, 'dash');
const study = studyOfRuns('here', [run], ['dash.time', 'dash.top_speed']);

/** A number of the car over values. */
function axis(below: string, values: readonly number[]): Axis {
  const field = numberFieldAt(carFields, below.split('.'));
  if (field === null) throw new Error(`no field ${below}`);
  const path = `base.${below}`;
  const { unit, display } = field;
  return {
    path,
    label: path,
    unit,
    display,
    values,
    names: [],
    whole: false,
    changes: value => [{ path, value }],
  };
}

describe('a study that is called says what its cell says', () => {
  const cellOf = (kind: string, ...lines: string[]) =>
    resultOf(text + fence(`yaml ${kind} it`, ['of: dash', ...lines].join('\n')), 'it');

  it('of a sweep', () => {
    const outputs = 'outputs: dash.time, dash.top_speed';
    const cell = cellOf('sweep', outputs, 'over: [{ path: drive.ratio, values: [8, 9, 10] }]');
    const { summary, verdicts } = sweep(study, [axis('drive.ratio', [8, 9, 10])]);
    expect(summary).toEqual(cell.summary);
    expect(verdicts).toEqual(cell.verdicts);
  });

  it('of a comparison', () => {
    const cell = cellOf('compare', 'cars: base, heavy', 'outputs: dash.time, dash.top_speed');
    const other = runOf(text.replace('car: base', 'car: heavy'), 'dash').question;
    const cars = new Map([
      ['base', run.question],
      ['heavy', other],
    ]);
    expect(compare(study, cars).summary).toEqual(cell.summary);
  });

  it('of a search', () => {
    const cell = cellOf(
      'seek',
      'vary: [{ path: drive.ratio, from: 6, to: 12 }]',
      'where: dash.time <= 8 s',
      'find: smallest',
    );
    const one = studyOfRuns('here', [run], ['dash.time']);
    const [figure] = one.figures;
    if (figure === undefined) throw new Error('no figure');
    const condition = { text: 'dash.time <= 8 s', figure, sense: 'at_most', bound: 8 } as const;
    const found = seek(one, [axis('drive.ratio', [6, 12])], { kind: 'smallest', axis: 0 }, [condition]);
    expect(found.summary).toEqual(cell.summary);
  });

  it('of a spread, and of a ranking', () => {
    const inputs = uncertainOf(run.question, run.inputs);
    const one = studyOfRuns('here', [run], ['dash.time']);
    const wide = cellOf('spread', 'outputs: dash.time', 'samples: 32');
    const plan = { seed: 1, samples: { fixed: 32 }, probability: 0.9 } as const;
    expect(spread(one, inputs, plan).summary).toEqual(wide.summary);
    const cell = cellOf('rank', 'output: dash.time', 'points: 32', 'inputs: 2');
    const ranked = rank(one, inputs, { points: 32, most: 2 });
    expect(ranked.summary).toEqual(cell.summary);
    expect(ranked.verdicts).toEqual(cell.verdicts);
  });
});

it('an input of which every draw would lie beyond its field is told with its place', () => {
  const { min } = carFields.mass;
  const spread = { kind: 'rectangular', low: min - 1, high: min } as const;
  const path = `${run.question.car}.mass`;
  const light = {
    path,
    value: min,
    unit: 'kg',
    display: 'kg',
    spread,
    origin: { kind: 'assumed', source: '' },
  } as const;
  expect(() => uncertainOf(run.question, [light])).toThrow(
    expect.objectContaining({
      name: 'SpecError',
      path,
      expected: expect.stringContaining('a spread that reaches') as string,
    }),
  );
});
