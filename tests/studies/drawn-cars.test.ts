/**
 * Whatever is drawn about a car is a car: draws that contradict each other cannot come up. What is refused would be lost to the
 * interval, and not at random: the slipperiest draws of a tyre went first.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { completeCar } from '../../src/model/complete.ts';
import { shippedParts } from '../../src/model/parts/shipped.ts';
import { readCell } from '../../src/notebook/cells/fields.ts';
import type { CellKind } from '../../src/notebook/cells/kind.ts';
import { NOTHING } from '../../src/notebook/cells/yield.ts';
import { CELL_KINDS } from '../../src/notebook/cells/registry.ts';
import type { World } from '../../src/notebook/context.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { uncertainOf } from '../../src/notebook/uncertain-inputs.ts';
import { withChanges } from '../../src/runs/answer/change.ts';
import { refusal } from '../../src/runs/answer/ask.ts';
import type { Question } from '../../src/runs/answer/question.ts';
import { sampler } from '../../src/studies/sampling/sample.ts';
import { changesFrom, drawsOf } from '../../src/studies/sampling/uncertain.ts';
import { complaints, fence } from '../notebook/fake.ts';

/** The worlds that the cells of a notebook ran in: a test looks at the cars through them. */
function worldOf(text: string, files: { readonly [path: string]: string } = {}): World {
  const seen: World[] = [];
  const look: CellKind = {
    kind: 'look',
    language: 'yaml',
    named: true,
    doc: 'looks around',
    fields: {},
    prepare: cell => ({
      needs: [String(readCell(cell).entries[0]?.key.text)],
      run(world) {
        seen.push(world);
        return NOTHING;
      },
    }),
  };
  const readFile = (path: string): string => files[path] ?? '';
  const outcome = runNotebook(text + fence('yaml look here', 'car: x'), {
    file: 'a.md',
    kinds: [...CELL_KINDS, look],
    readFile,
  });
  expect(complaints(outcome).filter(text => !text.includes('here'))).toEqual([]);
  return seen[0]!;
}

/** Inputs of which half of the draws do not lie on either side of the value that stands in front, to a tenth of their width. */
function aside(text: string): readonly string[] {
  const given = worldOf(fence('yaml car car', text)).given('car');
  if (given?.product?.kind !== 'car') throw new Error('no car');
  const { spec, measured } = given.product;
  const run = { kind: 'launch', values: {} } as const;
  const drawn = uncertainOf({ car: 'car', name: 'dash', spec, measured: [...measured], run }, given.inputs);
  const draws = drawsOf(drawn);
  return drawn.flatMap(({ path, value }, k) => {
    const at = draws[k]?.at ?? Number.NaN;
    if (typeof at === 'number') return [path];
    return Math.abs(at(0.5) - value) > 0.1 * (at(0.95) - at(0.05)) ? [path] : [];
  });
}

/** Reasons for which draws of the car are refused, and how often. */
function refused(text: string, draws: number, files: { readonly [path: string]: string } = {}): Map<string, number> {
  const world = worldOf(fence('yaml car car', text), files);
  const given = world.given('car');
  if (given?.product?.kind !== 'car') throw new Error('no car');
  const { spec, measured } = given.product;
  const reasons = new Map<string, number>();
  for (const surface of ['dry', 'wet'] as const) {
    const run = { kind: 'launch', values: { surface } } as const;
    const question: Question = { car: 'car', name: 'dash', spec, measured: [...measured], run };
    const drawn = uncertainOf(question, given.inputs);
    const at = sampler(drawsOf(drawn), { source: 'random', seed: 1, block: 1 });
    const x = new Float64Array(drawn.length);
    for (let k = 0; k < draws / 2; k++) {
      at(k, x);
      const changes = changesFrom(drawn)(x).map(change => ({ ...change, path: change.path.replace(/^car\./, '') }));
      try {
        completeCar(withChanges(spec, changes), 'car', measured, []);
      } catch (error) {
        const reason = refusal(error);
        reasons.set(reason, (reasons.get(reason) ?? 0) + 1);
      }
    }
  }
  return reasons;
}

const names = (kind: 'tyre' | 'unit' | 'pack' | 'cell'): readonly string[] =>
  shippedParts(kind).map(({ name }) => name);
const UNIT = '{ peak_torque: 250 N m, peak_power: 110 kW }';
const PACK = '{ cell: cell_nmc_21700, series: 96, parallel: 24 }';

const body = (tyres: string, unit: string, pack: string, drive = '', more = ''): string =>
  `mass: 1010 kg ± 15 kg
tyres: ${tyres}
drive: { axle: rear, ratio: 8.5, unit: ${unit}${drive} }
pack: ${pack}${more}`;

/** One for each part that ships, and for what has defaults of its own. */
const cars = [
  ...names('tyre').map(tyre => body(tyre, UNIT, PACK)),
  ...names('unit').map(unit => body('{ radius: 290 mm }', unit, PACK)),
  ...names('pack').map(pack => body('{ radius: 290 mm }', UNIT, pack)),
  ...names('cell').map(cell =>
    body('{ radius: 290 mm }', UNIT, `{ cell: ${cell}, series: 90, parallel: 3, cooling: 10 W/K }`),
  ),
  body('{ radius: 290 mm }', UNIT, PACK, ', traction: spin, regeneration: { kind: lift }'),
  body('{ radius: 290 mm }', UNIT, PACK, ', gearbox: { gears: [3.5, 2, 1.3, 1] }'),
  body('{ radius: 290 mm }', UNIT, PACK, ', gearbox: { gears: [3.5, 2, 1.3, 1], shift: speed }'),
  body('{ radius: 290 mm }', UNIT, PACK, '', '\nroad_load: { f0: 120 N, f1: 1 N s/m, f2: 0.4 N s^2/m^2 }'),
];

describe('draws of a car', () => {
  it('are none of them refused: 10,000 cars of every shipped part and default', () => {
    const each = 2 * Math.ceil(5000 / cars.length);
    for (const car of cars) expect(Object.fromEntries(refused(car, each)), car).toEqual({});
  });

  it('lie half below and half above the value that is shown, for every shipped part and default', () => {
    const found = new Set(cars.flatMap(aside));
    // Nothing is the least, all of it the most that these can be: no value could lie beyond.
    expect([...found]).toEqual(['car.drive.unit.standstill_loss', 'car.road_load.contained']);
  });

  it.each([
    [
      'friction given as a value',
      '{ radius: 290 mm, dry_peak: 0.8 .. 1.1, dry_slide: 0.78, wet_peak: 0.6 ± 0.1, wet_slide: 0.55 ± 0.05 }',
      UNIT,
      PACK,
      '',
    ],
    [
      'friction over a shipped tyre',
      '{ from: tyre_touring, dry_peak: 0.5 .. 1.3, dry_slide: 0.8 .. 0.88 }',
      UNIT,
      PACK,
      '',
    ],
    [
      'speeds of a unit',
      '{ radius: 290 mm }',
      '{ from: unit_100kw, max_speed: 12000 rpm ± 10 %, taper_speed: 8200 .. 11900 rpm }',
      PACK,
      '',
    ],
    [
      'a speed where the torque falls',
      '{ radius: 290 mm }',
      '{ from: unit_100kw, max_speed: 11000 .. 13000 rpm, taper_speed: 11500 rpm }',
      PACK,
      '',
    ],
    [
      'ratings',
      '{ radius: 290 mm }',
      '{ peak_torque: 250 N m, peak_power: 100 kW ± 20 %, continuous_power: 90 kW ± 20 %, derate_temperature: 40 .. 140 degC, cold_temperature: 20 degC ± 20 K }',
      PACK,
      '',
    ],
    [
      'a speed of shifting',
      '{ radius: 290 mm }',
      UNIT,
      PACK,
      ', gearbox: { gears: [3.5, 2], shift: speed, shift_speed: 10000 .. 16000 rpm }',
    ],
    [
      'fading regeneration',
      '{ radius: 290 mm }',
      UNIT,
      PACK,
      ', regeneration: { fade_from: 5 .. 16 km/h, fade_to: 2 .. 14 km/h }',
    ],
    [
      'voltages',
      '{ radius: 290 mm }',
      UNIT,
      '{ cell: { from: cell_nmc_21700, min_voltage: 2 .. 4.1 V, max_voltage: 3.9 .. 4.3 V }, series: 96, parallel: 24, min_voltage: 300 V ± 60 V }',
      '',
    ],
    [
      'window and temperatures',
      '{ radius: 290 mm }',
      UNIT,
      '{ cell: cell_nmc_21700, series: 96, parallel: 24, window_low: 30 % ± 30 %, window_high: 60 % ± 30 %, charge_none_below: 0 degC ± 10 K, charge_full_above: 5 degC ± 10 K }',
      '',
    ],
  ])('that overlap stay apart: %s', (_, tyres, unit, pack, drive) => {
    expect(Object.fromEntries(refused(body(tyres, unit, pack, drive), 2000))).toEqual({});
  });

  it('stay within measured tables', () => {
    const shipped = (name: string): string =>
      readFileSync(new URL(`../../scenarios/maps/${name}.csv`, import.meta.url), 'utf8');
    const files = { 'map.csv': shipped('unit'), 'torque.csv': shipped('torque') };
    const map = 'map: map.csv, map_includes: motor and inverter';
    const rated = `{ peak_torque: 220 N m ± 8 %, peak_power: 90 kW ± 20 %, max_speed: 11000 rpm ± 5 %, ${map} }`;
    const tabled = `{ torque_table: torque.csv, reference_voltage: 340 V ± 40 V, ${map} }`;
    for (const unit of [rated, tabled]) {
      expect(Object.fromEntries(refused(body('{ radius: 290 mm }', unit, PACK), 1000, files)), unit).toEqual({});
    }
  });

  it('spread nothing that is counted', () => {
    const outcome = runNotebook(
      fence('yaml car car', body('{ radius: 290 mm }', UNIT, '{ cell: cell_nmc_21700, series: 96 ± 2, parallel: 24 }')),
      { file: 'a.md' },
    );
    expect(complaints(outcome).join()).toMatch(/count has no spread/);
  });
});
