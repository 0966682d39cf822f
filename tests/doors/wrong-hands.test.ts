/** What doors beside the main one are given that nobody can mean: an error with a code and the path as it was written. */
import { describe, expect, it } from 'vitest';
import { coastDown, coastRun, launchFit, LogError, readLaunchLog, readSpeedLog } from '../../src/doors/fit.ts';
import { readLossTable, readTorqueTable, runNotebook } from '../../src/doors/notebook.ts';
import { picture, pictureNames } from '../../src/doors/report.ts';
import { solveExplicit, solveExtrapolation } from '../../src/doors/solvers.ts';
import type { SolveOptions, SwitchedSystem } from '../../src/doors/solvers.ts';
import {
  completeCar,
  completeSurroundings,
  createAsk,
  createLauncher,
  launch,
  questionOf,
  readLog,
  SpecError,
  weigh,
} from '../../src/index.ts';
import type { CarSpec } from '../../src/index.ts';

const spec = {
  mass: 1010,
  tyres: { size: '165/80 R 13' },
  drive: { axle: 'front', unit: 'unit_100kw', ratio: 8 },
  pack: 'pack_nmc_96s1p_60ah',
} as const satisfies CarSpec;
const { car } = completeCar(spec);
const { surroundings } = completeSurroundings();
const wrong = (value: unknown): never => value as never;

const rows = Array.from({ length: 30 }, (_, i) => `${i},${30 - i / 4}`);
const log = ['time [s],speed [m/s]', ...rows].join('\n');
const track = readSpeedLog(log);
const bytes = wrong(new TextEncoder().encode(log));

function refusal(error: unknown): readonly [code: string, path: string] {
  if (!(error instanceof SpecError)) throw error;
  expect(error.message.startsWith(error.path)).toBe(true);
  return [error.code, error.path];
}

describe('is refused', () => {
  const fit = { logs: [track], car, surroundings, wanted: ['power'], over: 0, nuisances: [] };
  const measured = { value: 1, standard: 0 };
  const coast = {
    there: [],
    back: [],
    mass: measured,
    turning: measured,
    day: { temperature: measured, altitude: measured, humidity: measured },
    standard: { temperature: 293, pressure: 1e5 },
  };
  it.each<[string, () => unknown, string, string]>([
    ['a question of nothing', () => questionOf(wrong(null)), 'outside', 'question'],
    ['an ask of nothing', () => createAsk(wrong(null)), 'outside', 'question'],
    [
      'a change that is no list',
      () => createAsk(questionOf({ spec, kind: 'launch' }))(wrong({})),
      'outside',
      'changes',
    ],
    ['figures in a word', () => createLauncher(wrong('time')), 'outside', 'wanted'],
    ['files that are no Map', () => completeCar(spec, '', wrong({})), 'outside', 'measured'],
    ['a ledger that is none', () => weigh(wrong({})), 'outside', 'question'],
    ['a radius that is missing', () => readLaunchLog(log, wrong({})), 'missing', 'options.radius'],
    ['a log of no axle', () => readLaunchLog(log, wrong({ radius: 0.3 })), 'missing', 'options.driven'],
    ['a fit without logs', () => launchFit(wrong({ ...fit, logs: [] })), 'outside', 'measured.logs'],
    ['a fit of no parameter', () => launchFit(wrong({ ...fit, wanted: ['pwer'] })), 'choice', 'measured.wanted[0]'],
    ['a fit without a car', () => launchFit(wrong({ ...fit, car: spec })), 'outside', 'car'],
    ['a coast to nowhere', () => coastRun(track, wrong({})), 'missing', 'options.to'],
    [
      'a mass below 0',
      () => coastDown(wrong({ ...coast, mass: { value: -1, standard: 0 } })),
      'outside',
      'measured.mass.value',
    ],
    ['a mass as a number', () => coastDown(wrong({ ...coast, mass: 1010 })), 'outside', 'measured.mass'],
    ['a notebook in bytes', () => runNotebook(bytes, { file: 'x.md' }), 'outside', 'text'],
    ['a notebook without its name', () => runNotebook('', wrong({})), 'missing', 'options.file'],
    ['a torque table in bytes', () => readTorqueTable(bytes, 'x.csv'), 'outside', 'text'],
    ['a map in bytes', () => readLossTable(bytes, 'x.csv'), 'outside', 'text'],
    ['pictures of nothing', () => pictureNames(wrong(null)), 'outside', 'result'],
  ])('%s', (_, work, code, path) => {
    let thrown: unknown = null;
    try {
      work();
    } catch (error) {
      thrown = error;
    }
    expect(refusal(thrown)).toEqual([code, path]);
  });

  it.each<[string, () => Promise<unknown>, string, string]>([
    ['a picture of nothing', () => picture(wrong(null), 'trace'), 'outside', 'result'],
    ['a picture without a name', () => picture(launch(car, { surroundings }), wrong(null)), 'outside', 'name'],
    [
      'units of nowhere',
      () => picture(launch(car, { surroundings }), 'trace', wrong({ system: 'us' })),
      'choice',
      'options.system',
    ],
    [
      'a width in text',
      () => picture(launch(car, { surroundings }), 'trace', wrong({ width: '9' })),
      'outside',
      'options.width',
    ],
  ])('%s', async (_, work, code, path) => {
    expect(refusal(await work().catch((error: unknown) => error))).toEqual([code, path]);
  });

  it('a log in bytes', () => {
    for (const read of [() => readLog(bytes), () => readSpeedLog(bytes)]) expect(read).toThrow(LogError);
  });
});

describe('a system that can not be solved', () => {
  const system: SwitchedSystem = {
    states: 1,
    quadratures: 0,
    guards: 0,
    scales: Float64Array.of(1),
    rates: (_mode, y, out) => {
      out[0] = -(y[0] ?? 0);
    },
  };
  const options: SolveOptions = { start: 0, end: 1, initial: [1], mode: 0 };
  const level = { name: 'half', state: 0, value: 0.5, action: 'stop', direction: 'falling' };

  it.each<[string, object, object, string]>([
    ['half a state', { states: 0.5 }, {}, '`states` must be a whole number, 0 or more, found 0.5'],
    ['guards that are no number', { guards: Number.NaN }, {}, '`guards` must be a whole number'],
    ['no rates', { rates: undefined }, {}, '`rates` must be a function, found undefined'],
    ['guards without their function', { guards: 1 }, {}, '`guard` must be a function, found undefined'],
    [
      'a level that does what none does',
      {},
      { levels: [{ ...level, action: 'halt' }] },
      'must be record or stop, found halt',
    ],
    [
      'a level from no side',
      {},
      { levels: [{ ...level, direction: 'down' }] },
      'must be rising, falling or either, found down',
    ],
  ])('is refused alike by both methods: %s', (_, ofSystem, ofOptions, message) => {
    for (const solve of [solveExplicit, solveExtrapolation])
      expect(() => solve({ ...system, ...ofSystem }, { ...options, ...ofOptions })).toThrow(message);
  });
});
