/** A sweep of a run that has no answer as it stands, through the built command. */
import { expect, it } from 'vitest';
import { command } from '../command.ts';

it('is made of the figures that the run would have, and the rows that have an answer show it', () => {
  const text = [
    '```yaml car mule',
    'mass: 1200 kg',
    'tyres: { size: 185/60 R 14 }',
    'drive: { axle: rear, ratio: 8, unit: unit_60kw }',
    'pack: { cell: cell_nmc_60ah, series: 96, parallel: 1 }',
    '```',
    '```yaml range far',
    'car: mule',
    'schedule: udds',
    'charge: 0.4 %',
    '```',
    '```yaml sweep fuller',
    'of: far',
    'over:',
    '  - path: far.charge',
    '    values: [0.4 %, 60 %]',
    '```',
    '',
  ].join('\n');
  // It was "a fault of axlewatt itself": a job without columns.
  const called = command({ 'a.md': text }, ['run', 'a.md', '--samples', '0']);
  expect(called.code).toBe(0);
  expect(called.out.replaceAll(/\s+/gu, ' ')).toMatch(/Range \(far\): best \d+ km with 60 % for the charge of far/u);
  expect(called.values('far')['range']).toBeNull();
});
