/** What a program asks by path and by name: what leads nowhere is an error with the nearest that does. */
import { describe, expect, it } from 'vitest';
import { sweep, spread, studyOf, uncertainOf } from '../../../src/doors/studies.ts';
import {
  completeCar,
  completeSurroundings,
  createAsk,
  createLauncher,
  createRanger,
  launch,
  questionOf,
  scheduleNamed,
  SpecError,
  tripThrough,
} from '../../../src/index.ts';
import type { CarSpec } from '../../../src/index.ts';

const spec = {
  mass: 1180,
  tyres: { size: '175/70 R 13', dryPeak: 0.9 },
  drive: { axle: 'rear' as const, unit: 'unit_150kw' as const, ratio: 8.6 },
  pack: { cell: 'cell_nmc_60ah' as const, series: 96, parallel: 2 },
} satisfies CarSpec;
const question = questionOf({ spec, kind: 'launch', values: { surface: 'dry' }, car: 'van', name: 'dash' });
const sure = { surroundings: completeSurroundings({}).surroundings };

function complaint(work: () => unknown): readonly [path: string, nearest: string, code: string] {
  try {
    work();
  } catch (error) {
    if (!(error instanceof SpecError)) throw error;
    expect(error.message.startsWith(error.path)).toBe(true);
    return [error.path, error.nearest, error.code];
  }
  throw new Error('was taken');
}

describe('a question', () => {
  it('names parts that ship, and answers as the run itself', () => {
    const { summary } = createAsk(question)([]);
    expect(summary['time']).toBe(createLauncher()(completeCar(spec).car, sure).summary['time']);
  });

  it.each([
    [{ values: { too: 3 } }, 'launch.too', 'to'],
    [{ kind: 'lunch' }, 'kind', ''],
    [{ kind: 'drive' }, 'trip', ''],
    [{ car: 'launch' }, 'name', ''],
    [{ spec: { ...spec, weight: 3 } }, 'car.weight', 'mass'],
    [{ spec: { ...spec, pack: { ...spec.pack, cell: 'cell_nmc_60a' } } }, 'car.pack.cell', 'cell_nmc_60ah'],
  ])('%#: is refused', (wrong, path, nearest) => {
    const asked = { spec, kind: 'launch', ...wrong } as Parameters<typeof questionOf>[0];
    expect(complaint(() => questionOf(asked)).slice(0, 2)).toEqual([path, nearest]);
  });

  it('that drives takes its trip', () => {
    const trip = tripThrough('way', [scheduleNamed('wltc_low')]);
    expect(
      createAsk(questionOf({ spec, kind: 'drive', trip }), { wanted: ['distance'] })([]).summary['distance'],
    ).toBeGreaterThan(3000);
  });
});

describe('an ask', () => {
  const ask = createAsk(question, { wanted: ['time', 'mass'] });

  it.each([
    ['van.tyres.dry_peek', 'van.tyres.dry_peak'],
    ['vam.tyres.dry_peak', 'van.tyres.dry_peak'],
    ['van.dry_peak', 'van.tyres.dry_peak'],
    ['dash.temprature', 'dash.temperature'],
    ['nothing', ''],
  ])('refuses %s', (path, nearest) => {
    expect(complaint(() => ask([{ path, value: 1 }]))).toEqual([path, nearest, 'unknown']);
  });

  it('takes a path in words of the code or of a notebook', () => {
    const [code, notebook] = ['van.tyres.dryPeak', 'van.tyres.dry_peak'].map(
      path => ask([{ path, value: 0.6 }]).summary['time'],
    );
    expect(code).toBe(notebook);
    expect(code).toBeGreaterThan(Number(ask([]).summary['time']));
  });

  it('refuses figures and options that there are none of', () => {
    expect(complaint(() => createAsk(question, { wanted: ['time', 'tiem'] }))).toEqual([
      'wanted[1]',
      'time',
      'unknown',
    ]);
    expect(complaint(() => createLauncher(['tiem']))).toEqual(['wanted[0]', 'time', 'unknown']);
    expect(complaint(() => createRanger(['rnge']))).toEqual(['wanted[0]', 'range', 'unknown']);
    const wrong: object = { carryMas: false };
    expect(() => createAsk(question, wrong)).toThrow('carryMass');
  });
});

describe('a study', () => {
  const study = studyOf([question], ['dash.time', 'van.mass']);

  it('sweeps a path over values', () => {
    const { series } = sweep(study, [{ path: 'tyres.dryPeak', values: [0.5, 0.9] }]);
    const alone = (dryPeak: number) =>
      createAsk(question)([{ path: 'van.tyres.dry_peak', value: dryPeak }]).summary['time'];
    const times = series['rows']?.['dash_time']?.values ?? [];
    expect(Number(times[0])).toBeCloseTo(Number(alone(0.5)), 5);
    expect(Number(times[1])).toBeCloseTo(Number(alone(0.9)), 5);
  });

  it('refuses a path that leads nowhere, and a value beyond its field', () => {
    expect(() => sweep(study, [{ path: 'tyres.dryPeek', values: [1] }])).toThrow(
      '"tyres.dryPeek" is no number of the car',
    );
    expect(() => sweep(study, [{ path: 'tyres.dryPeak', values: [9] }])).toThrow('9 is outside');
    const hand = {
      path: 'x',
      label: 'x',
      unit: '1',
      display: { metric: '1', imperial: '1' },
      values: [1],
      names: [],
      whole: false,
    };
    const axis = { ...hand, changes: (value: number) => [{ path: 'van.tyres.dry_peek', value }] };
    expect(complaint(() => sweep(study, [axis]))[1]).toBe('van.tyres.dry_peak');
  });

  it('draws what is uncertain', () => {
    const inputs = uncertainOf(question, study.inputs);
    expect(inputs.length).toBeGreaterThan(10);
    const { intervals } = spread(study, inputs, { seed: 1, samples: { fixed: 16 } });
    expect(intervals?.of['dash_time']?.high).toBeGreaterThan(intervals?.of['dash_time']?.low ?? Infinity);
    const [first] = inputs;
    if (first === undefined) throw new Error('no input');
    expect(
      complaint(() => spread(study, [{ ...first, path: 'van.masss' }], { seed: 1, samples: { fixed: 16 } }))[1],
    ).toBe('van.mass');
  });
});

it('what completeSurroundings gives can be handed on', () => {
  expect(launch(completeCar(spec).car, completeSurroundings({})).summary).toEqual(
    launch(completeCar(spec).car, sure).summary,
  );
});
