import { expect, it } from 'vitest';
import { within } from '../../src/fit/result.ts';

it('tells an interval by its ends: a half of it behind ± would be typed back as a standard uncertainty', () => {
  expect(within(130, 9, each => `${each} kW`)).toBe('130 kW (121 kW to 139 kW)');
});
