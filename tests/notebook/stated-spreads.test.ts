/** Makers' figures are not exact: what is written without a spread gets a documented one. */
import { describe, expect, it } from 'vitest';
import type { Input } from '../../src/model/fields/input.ts';
import { inputsSection } from '../../src/report/page/inputs.ts';
import { pathReference } from '../../src/notebook/fields/reference.ts';
import { runNotebook } from '../../src/notebook/run.ts';
import { complaints, fence } from './fake.ts';

const run = (unit: string, pack: string) =>
  runNotebook(
    fence(
      'yaml car coupe',
      `mass: 1010 kg
tyres: { radius: 290 mm }
drive: { axle: rear, ratio: 8.5, unit: ${unit} }
pack: ${pack}`,
    ) + fence('yaml launch dash', 'car: coupe'),
    { file: 'a.md' },
  );

const UNIT = '{ peak_torque: 250 N m, peak_power: 110 kW }';
const PACK = '{ cell: cell_nmc_21700, series: 96, parallel: 24 }';

const inputsOf = (unit: string, pack: string): ((path: string) => Input | undefined) => {
  const outcome = run(unit, pack);
  expect(complaints(outcome)).toEqual([]);
  return path => outcome.inputs.find(each => each.path === `coupe.${path}`);
};

describe('a figure of a maker', () => {
  it('has a spread by itself, which is said to be assumed', () => {
    const outcome = run(UNIT, PACK);
    const power = outcome.inputs.find(({ path }) => path === 'coupe.drive.unit.peak_power');
    // UN Regulation No. 85: production within 5 % of the declared power (from memory).
    expect(power).toMatchObject({ value: 110e3, spread: { kind: 'rectangular', low: 104.5e3, high: 115.5e3 } });
    expect(power?.spreadSource).toMatch(/Regulation No\. 85/);
    const page = inputsSection(outcome.inputs, 'a.md').html;
    expect(page).toMatch(/line \d+, spread assumed: /);
  });

  it('is exact where the notebook says so, and has its own spread where that is written', () => {
    const input = inputsOf('{ peak_torque: 250 N m ± 2 N m, peak_power: 110 kW ± 0 }', PACK);
    expect(input('drive.unit.peak_power')?.spread).toBeUndefined();
    expect(input('drive.unit.peak_power')?.spreadSource).toBeUndefined();
    expect(input('drive.unit.peak_torque')?.spread).toEqual({ kind: 'normal', standard: 2 });
  });

  it('is said to have a spread where fields are listed', () => {
    expect(pathReference('part.unit', 200)).toMatch(
      /peak_power[^\n]*\n[^\n]*\n *left out[^\n]*\n *without ±: ± 5 %, rectangular/,
    );
    expect(pathReference('part.pack', 200)).toMatch(/used: modules out of scrapped cars/);
  });

  it('that ships is what its title says, within 5 %', () => {
    const input = inputsOf('unit_100kw', PACK);
    expect(input('drive.unit.peak_torque')?.spread).toEqual({ kind: 'rectangular', low: 247, high: 273 });
  });
});

describe('the health of a pack', () => {
  it('is a word or a share, and takes the resistance along', () => {
    const used = inputsOf(UNIT, '{ cell: cell_nmc_60ah_module, series: 96, parallel: 1, health: used }');
    expect(used('pack.health')).toMatchObject({
      value: 0.8,
      spread: { low: 0.65, high: 0.95 },
      origin: { kind: 'assumed' },
    });
    expect(used('pack.resistance_growth')?.value).toBeCloseTo(1.4, 12);
    const fresh = inputsOf(UNIT, '{ cell: cell_nmc_60ah, series: 96, parallel: 1, health: new }');
    expect(fresh('pack.health')).toMatchObject({ value: 1, origin: { kind: 'assumed' } });
    expect(fresh('pack.resistance_growth')).toMatchObject({ value: 1 });
    expect(inputsOf(UNIT, '{ cell: cell_nmc_60ah, series: 96, parallel: 1, health: 85 % }')('pack.health')?.value).toBe(
      0.85,
    );
    expect(complaints(run(UNIT, '{ cell: cell_nmc_60ah, series: 96, parallel: 1, health: worn }')).join()).toMatch(
      /new or used/,
    );
  });

  it('is that of the weakest module of a string', () => {
    const given = (pack: string) => run(UNIT, pack);
    const listed = given('{ cell: cell_nmc_60ah, series: 96, parallel: 1, module_health: [92 %, 84 %, 88 %] }');
    expect(complaints(listed)).toEqual([]);
    const growth = listed.inputs.find(({ path }) => path === 'coupe.pack.resistance_growth');
    expect(growth?.value).toBeCloseTo(1 + 2 * 0.16, 12);
    const both = given('{ cell: cell_nmc_60ah, series: 96, parallel: 1, health: 90 %, module_health: [92 %] }');
    expect(complaints(both).join()).toMatch(/stands beside health/);
  });
});
