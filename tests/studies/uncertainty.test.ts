import { describe, expect, it } from 'vitest';
import { uncertainty } from '../published/checks/uncertainty.ts';
import { verdict } from '../published/registry.ts';

describe('the published checks of uncertainty', () => {
  it('have an id each', () => {
    expect(new Set(uncertainty.checks.map(check => check.id)).size).toBe(uncertainty.checks.length);
  });

  it.each(uncertainty.checks.map(check => [check.id, check] as const))('%s', (_, check) => {
    const { computed, holds, failure } = verdict(check);
    expect(holds, `${check.what}: expected ${check.expected}, computed ${computed} ${failure}`).toBe(true);
  });
});
