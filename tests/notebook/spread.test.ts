import { describe, expect, it } from 'vitest';
import { runNotebook, runNotebookWith } from '../../src/notebook/run.ts';
import type { Result } from '../../src/runs/result.ts';
import { evaluators } from '../../src/batch/evaluators.ts';
import { evaluatorOf } from '../../src/batch/job.ts';
import { cell, complaints, fence } from './fake.ts';
import { asked, base, dash, numbersOf, resultOf, run, textsOf, week } from './study-cells.ts';

const only = (line: string): string => base.replace(/mass: 1150 kg/, line);
const spread = (...lines: string[]): string =>
  fence('yaml spread sure', ['of: dash', 'outputs: dash.time', ...lines].join('\n'));

/** Every default that is uncertain is in the draw as well: the tests look at the one that matters, and hold the others. */
const exact = (text: string): string =>
  text.replace('unit: unit_100kw', 'unit: { peak_torque: 260 N m, peak_power: 100 kW }');

describe('a spread', () => {
  it('of two runs draws for each what it reckons with: a launch does not get a cold pack from the trip beside it', () => {
    const text = only('mass: 1150 kg ± 20 kg') + dash.replace('car: base', 'car: base\ntemperature: -5 degC') + week;
    const alone = resultOf(text + spread('samples: 32'), 'sure');
    const both = resultOf(
      text + fence('yaml spread sure', 'of: dash, week\noutputs: dash.time, week.range\nsamples: 32'),
      'sure',
    );
    expect(both.intervals?.of['dash_time']).toEqual(alone.intervals?.of['dash_time']);
    expect(both.intervals!.inputs).toBeGreaterThan(alone.intervals!.inputs);
  });

  it('finds the interval that one rectangular input makes of a monotone figure', () => {
    // The widest of all by far: 900 to 1500 kg. The ends of the interval are the figure at its 5 % and 95 % points, but for the rest.
    const text = exact(only('mass: 900 kg .. 1500 kg')) + dash;
    const { intervals } = resultOf(text + spread('samples: 512'), 'sure');
    const ask = asked(text, 'dash');
    const at = (share: number): number => ask([{ path: 'base.mass', value: 900 + 600 * share }])['time']!;
    const { low, high } = intervals!.of['dash_time']!;
    const width = at(0.95) - at(0.05);
    expect(Math.abs(low - at(0.05))).toBeLessThan(0.1 * width);
    expect(Math.abs(high - at(0.95))).toBeLessThan(0.1 * width);
    expect(intervals).toMatchObject({ probability: 0.9, samples: 512, seed: 1 });
  });

  it('gives the median, the ends and the standard uncertainty to formulas', () => {
    const result = resultOf(only('mass: 1150 kg ± 20 kg') + dash + spread('samples: 64', 'probability: 80 %'), 'sure');
    const sorted = numbersOf(result, 'samples', 'dash_time').toSorted((a, b) => a - b);
    const { low, high, standard } = result.intervals!.of['dash_time']!;
    expect(result.summary).toMatchObject({ dash_time_low: low, dash_time_high: high, dash_time_uncertainty: standard });
    expect(result.summary['dash_time']).toBe(resultOf(only('mass: 1150 kg ± 20 kg') + dash, 'dash').summary['time']);
    expect(result.summary['dash_time_median']).toBeCloseTo((sorted[31]! + sorted[32]!) / 2, 12);
    // 80 % of 64 are 51.2: 51 steps between the ends.
    expect(sorted.indexOf(high) - sorted.indexOf(low)).toBe(51);
  });

  it('gives the same numbers in any order of the rows, and others with another seed', async () => {
    const text = only('mass: 1150 kg ± 20 kg') + dash + spread('samples: 32');
    const there = runNotebook(text, { file: 'a.md' });
    const backwards = await runNotebookWith(text, { file: 'a.md' }, ask => {
      const { columns, rows } = ask.job;
      const evaluator = evaluatorOf(ask.job, evaluators);
      const values = columns.map(() => new Float64Array(rows));
      const out = new Float64Array(columns.length);
      for (let row = rows - 1; row >= 0; row--) {
        evaluator.evaluate(row, out);
        out.forEach((value, k) => (values[k]![row] = value));
      }
      const table = { rows, code: () => '', column: (name: string) => values[columns.indexOf(name)]! };
      return Promise.resolve(table);
    });
    const column = (outcome: typeof there): readonly number[] =>
      numbersOf(cell(outcome, 'sure').result!, 'samples', 'dash_time');
    expect(column(backwards)).toEqual(column(there));
    expect(column(run(text.replace('samples: 32', 'samples: 32\nseed: 2')))).not.toEqual(column(there));
  });

  it.each([
    ['outputs: dash.tiem', 'did you mean "dash.time"'],
    ['samples: 3', 'sure.samples'],
    ['probability: 120 %', 'sure.probability'],
  ])('complains of %s', (line, text) => {
    expect(complaints(run(base + dash + fence('yaml spread sure', `of: dash\n${line}`))).join()).toContain(text);
  });

  it('complains of a run that can not be run again', () => {
    expect(complaints(run(base + dash + fence('yaml spread sure', 'of: base'))).join()).toContain('sure.of');
  });
});

describe('the intervals of a run', () => {
  it('are the same as those of a spread of it, and are left out where no samples are asked for', () => {
    const text = only('mass: 1150 kg ± 20 kg') + dash;
    const { result } = cell(runNotebook(text, { file: 'a.md', samples: 64 }), 'dash');
    const sure = resultOf(text + spread('samples: 64'), 'sure');
    expect(result!.intervals!.of['time']!.low).toBeCloseTo(sure.intervals!.of['dash_time']!.low, 6);
    expect(result!.intervals!.samples).toBe(64);
    expect(cell(run(text), 'dash').result!.intervals).toBeUndefined();
  });

  it('are those of a spread of several runs, with its points, to the last bit', () => {
    const text = only('mass: 1150 kg ± 20 kg') + dash.replace('car: base', 'car: base\ntemperature: -5 degC') + week;
    for (const how of ['samples: 48\nseed: 3', 'digits: 1\nsamples: 64']) {
      const outcome = runNotebook(text + fence('yaml spread sure', `of: week, dash\n${how}`), {
        file: 'a.md',
        samples: 32,
      });
      const of = (name: string): NonNullable<Result['intervals']>['of'] =>
        cell(outcome, name).result?.intervals?.of ?? {};
      expect(of('dash')['time']).toBeDefined();
      expect(of('sure')['dash_time']).toEqual(of('dash')['time']);
      expect(of('sure')['week_range']).toEqual(of('week')['range']);
      // The same figure by its other name.
      expect(of('dash')['time_to_100_km_h']).toEqual(of('dash')['time']);
    }
  });

  it('leave out the friction of the other surface', () => {
    const paths = (surface: string): string => {
      const text = base + fence('yaml launch dash', `car: base\nsurface: ${surface}`) + spread('samples: 16');
      return textsOf(resultOf(text, 'sure'), 'inputs', 'path').join(' ');
    };
    expect(paths('dry')).toContain('base.tyres.dry_peak');
    expect(paths('dry')).not.toContain('wet_');
    expect(paths('wet')).toContain('base.tyres.wet_peak');
    expect(paths('wet')).not.toContain('dry_');
  });
});
