import { expect, it } from 'vitest';
import type { Input } from '../../src/model/fields/input.ts';
import { exactInputs } from '../../src/report/exact-inputs.ts';
import { inputText } from '../../src/report/page/inputs.ts';

const origin = { kind: 'given', file: 'a.md', line: 1, column: 1 } as const;
const efficiency = (place: number): Input => ({
  path: `van.drive.unit.efficiency_points[${place}].efficiency`,
  value: 0.93,
  unit: '1',
  display: '1',
  origin,
});

it('tells the places of a list as one thing', () => {
  expect(exactInputs([efficiency(1), efficiency(2), efficiency(3)])).toBe(
    'Given without ± and so taken as exact: efficiencies of the drive unit; what is not sure of them comes on top.',
  );
});

it('keeps a unit of two words with its number, under a true minus sign', () => {
  const torque: Input = { path: 'a.b', value: 210, unit: 'N m', display: 'N m', origin };
  expect(inputText(torque)).toBe('210\u00a0N\u00a0m');
  const frost: Input = { path: 'a.b', value: 268.15, unit: 'K', display: 'degC', origin };
  expect(inputText({ ...frost, spread: { kind: 'rectangular', low: 263.15, high: 273.15 } })).toBe(
    '−5\u00a0°C (−10\u00a0°C .. 0\u00a0°C)',
  );
});
