import { describe, expect, it } from 'vitest';
import { topics, verdict } from './registry.ts';

const all = topics.flatMap(topic => topic.checks);

describe('the registry', () => {
  it('has an id, a source and a unit for every check', () => {
    expect(new Set(all.map(check => check.id)).size).toBe(all.length);
    for (const check of all) {
      expect(check.id).toMatch(/^[\w.-]+$/);
      expect(check.source.length, check.id).toBeGreaterThan(10);
      expect(check.unit, check.id).not.toBe('');
      expect(Number.isFinite(check.expected), check.id).toBe(true);
    }
  });
});

const quick = topics.filter(topic => topic.slow !== true);

describe.each(quick.map(topic => [topic.title, topic] as const))('%s', (_, topic) => {
  it.each(topic.checks.map(check => [check.id, check] as const))('%s', (_, check) => {
    const { computed, holds, failure } = verdict(check);
    expect(holds, `${check.what}: expected ${check.expected} ${check.unit}, computed ${computed} ${failure}`).toBe(
      check.missed === undefined,
    );
  });
});
