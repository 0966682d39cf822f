/** A trailer on the scales: by moments about the rear axle, and against what plates permit. */
import { expect, it } from 'vitest';
import { completeLedger } from '../../../src/model/body/complete-ledger.ts';
import type { WeighSpec } from '../../../src/model/body/ledger-fields.ts';
import { weigh } from '../../../src/runs/weigh/weigh.ts';

const spec: WeighSpec = {
  scales: { front: 520, rear: 480 },
  wheelbase: 2.4,
  driver: { mass: 80, x: 1.2 },
  trailer: { mass: 700, hitchLoad: 60, overhang: 0.9, hitchHeight: 0.38 },
  permitted: { front: 700, rear: 600, gross: 1200, train: 1700, hitch: 50 },
};

it('is part of the loaded car with what rests on the hitch', () => {
  const { summary, warnings } = weigh(completeLedger(spec));
  expect(summary['full_front']).toBeCloseTo(520 + 40 - (60 * 0.9) / 2.4, 9);
  expect(summary['full_rear']).toBeCloseTo(480 + 40 + (60 * 3.3) / 2.4, 9);
  expect(summary['driven_mass']).toBeCloseTo(1080, 9);
  expect(summary['train_mass']).toBeCloseTo(1780, 9);
  expect(summary['train_margin']).toBeCloseTo(-80, 9);
  expect(summary['hitch_margin']).toBeCloseTo(-10, 9);
  expect(summary['rear_margin']).toBeCloseTo(600 - 602.5, 9);
  expect(warnings.join('\n')).toMatch(/car and trailer together weigh 1780.kg, 80.kg over/u);
  expect(warnings.join('\n')).toMatch(/On the hitch there rest 60.kg, 10.kg over/u);
  expect(warnings.join('\n')).toContain('brakes and coupling');
});

it('is not there where none is given', () => {
  const { trailer: _trailer, ...alone } = spec;
  const { summary, reasons, warnings } = weigh(completeLedger(alone));
  expect(summary['train_mass']).toBeNull();
  expect(reasons['train_mass']).toBe('there is no trailer');
  expect(summary['full_mass']).toBeCloseTo(1080, 9);
  expect(warnings.join('\n')).not.toContain('trailer');
});
