import { describe, expect, it } from 'vitest';
import { completeLedger } from '../../../src/model/body/complete-ledger.ts';
import type { WeighSpec } from '../../../src/model/body/ledger-fields.ts';
import { weigh } from '../../../src/runs/weigh/weigh.ts';
import type { Result } from '../../../src/runs/result.ts';
import type { System } from '../../../src/units.ts';

/** 1000 kg, 60 % on the front; a box of 100 kg over the rear axle and 75 kg amidships. */
const spec: WeighSpec = {
  scales: { front: 600, rear: 400 },
  wheelbase: 2.5,
  cgHeight: 0.5,
  in: [{ name: 'box', mass: 100, x: 2.5, height: 0.4 }],
  driver: { mass: 75, x: 1.25, height: 0.6 },
};
const run = (changed: WeighSpec = {}, system: System = 'metric'): Result =>
  weigh(completeLedger({ ...spec, ...changed }), system);
/** With the spaces that hold numbers and units together as plain ones. */
const warnings = (changed: WeighSpec, system?: System): readonly string[] =>
  run(changed, system).warnings.map(text => text.replaceAll('\u00a0', ' '));

describe('a weighing', () => {
  it('describes and answers every key, or says why not', () => {
    const { summary, outputs, reasons } = run();
    expect(Object.keys(summary)).toEqual(Object.keys(outputs));
    for (const [key, value] of Object.entries(summary)) {
      if (value === null) expect(reasons[key], key).toMatch(/./);
      else expect(reasons[key], key).toBeUndefined();
    }
  });

  it('gives what the statics give by hand', () => {
    const { summary } = run({ permitted: { front: 700, rear: 540, gross: 1300 } });
    expect(summary).toMatchObject({
      kerb_mass: 1100,
      mass_change: 100,
      kerb_front: 600,
      kerb_rear: 500,
      driven_mass: 1175,
      front: 637.5,
      rear: 537.5,
      front_share: 637.5 / 1175,
      before_front_share: 0.6,
      before_cg_x: 1,
      payload: 200,
      gross_margin: 125,
      front_margin: 62.5,
      rear_margin: 2.5,
    });
  });

  it('tells how far the named box must move, and obeys itself', () => {
    const first = run({ move: 'box' });
    // 60 % of 1100 kg are 660 kg: 60 kg more on the front from 100 kg, 0.6 of 2.5 m.
    expect(first.summary['move_by']).toBeCloseTo(-1.5, 12);
    const to = Number(first.summary['move_to']);
    const second = run({ move: 'box', in: [{ name: 'box', mass: 100, x: to, height: 0.4 }] });
    expect(Math.abs(Number(second.summary['kerb_front_share']) - 0.6)).toBeLessThan(1e-9);
    expect(second.summary['move_by']).toBeCloseTo(0, 12);
  });

  it('gives a reason with the nearest place when the box would leave the car', () => {
    const { summary, reasons } = run({ move: 'box', keepShare: 0.75 });
    expect(summary['move_by']).toBeNull();
    expect(reasons['move_by']?.replaceAll('\u00a0', ' ')).toBe(
      'for a front share of 75.0 % it would have to stand at 3.13 m in front of the front axle, outside the car; at its foremost place, −0.60 m, the front share comes to 65.8 %',
    );
  });

  it('has columns of one length in each series', () => {
    for (const series of Object.values(run({ load: [{ name: 'guests', mass: 75, count: 2, x: 1.9 }] }).series)) {
      expect(new Set(Object.values(series).map(column => column.values.length)).size).toBe(1);
    }
  });
});

describe('warnings', () => {
  it('are silent when all is well', () => {
    const fine: WeighSpec = {
      in: [],
      permitted: { front: 700, rear: 500, gross: 1200 },
      tyres: { loadIndex: 82, speedSymbol: 'T' },
      topSpeed: 190 / 3.6,
    };
    expect(warnings(fine)).toEqual([]);
  });

  it.each<[string, WeighSpec, string]>([
    [
      'an axle is over its permitted load fully loaded',
      { in: [], load: [{ name: 'trunk', mass: 100, x: 2.5 }], permitted: { rear: 525 } },
      'Fully loaded the rear axle carries 538 kg, 13 kg over the 525 kg it is permitted',
    ],
    [
      'an axle is over with the driver alone',
      { in: [], permitted: { front: 637.4 } },
      'With the driver alone the front axle carries 638 kg, 0.1 kg over the 637 kg it is permitted',
    ],
    [
      'an axle is over empty',
      { in: [], permitted: { front: 590 } },
      'Even empty the front axle carries 600 kg, 10 kg over the 590 kg it is permitted',
    ],
    [
      'the gross mass is exceeded',
      { in: [], permitted: { gross: 1050 } },
      'With the driver alone the car weighs 1075 kg, 25 kg over its permitted gross mass of 1050 kg',
    ],
    [
      'the load index is too low',
      { in: [], tyres: { loadIndex: 67 } },
      'Fully loaded the front axle carries 638 kg, but two tyres of load index 67 carry 614 kg, 24 kg too little: load index 69 or more would do',
    ],
    [
      'the tyres carry less than the axle is permitted',
      { in: [], permitted: { front: 700 }, frontTyres: { loadIndex: 70 } },
      'The front axle is permitted 700 kg, but two tyres of load index 70 carry 670 kg: for the permitted load, load index 72 or more would do',
    ],
    [
      'the speed symbol is too slow',
      { in: [], tyres: { speedSymbol: 'S' }, topSpeed: 200 / 3.6 },
      'The car reaches 200 km/h, but tyres marked S may run up to 180 km/h: speed symbol U or faster would do',
    ],
    [
      'no load index holds in full any more',
      { in: [], tyres: { speedSymbol: 'V' }, topSpeed: 220 / 3.6 },
      'Above 210 km/h a tyre carries less than its load index says; the maker of the tyre says how much less',
    ],
    [
      'the front share has moved by more than three points',
      {},
      'The front share of the empty car goes from 60.0 % to 54.5 %, 5.5 points less: springs, brake balance and headlamps were set for the old one',
    ],
  ])('when %s', (_, changed, expected) => {
    expect(warnings(changed)).toEqual([expected]);
  });

  it('speak pounds and miles to who reads them', () => {
    // 590 kg are 1300.7 lb, 600 kg are 1322.8 lb (1 lb = 0.45359237 kg).
    expect(warnings({ in: [], permitted: { front: 590 } }, 'imperial')).toEqual([
      'Even empty the front axle carries 1323 lb, 22 lb over the 1301 lb it is permitted',
    ]);
  });
});
