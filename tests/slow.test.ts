import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import config from '../vitest.config.ts';
import { MOCKED, SLOW } from './slow.ts';

const root = new URL('../', import.meta.url);

describe('tests with a command of their own', () => {
  it.each([...MOCKED, ...SLOW])('%s is there', name => {
    expect(existsSync(new URL(name, root))).toBe(true);
  });

  it('are run by one of the two commands, all of them, and both by verify and CI', () => {
    const text = readFileSync(new URL('package.json', root), 'utf8');
    const { scripts } = JSON.parse(text) as { scripts: Record<string, string> };
    const named = ['test', 'test:slow'].flatMap(name =>
      [...(scripts[name] ?? '').matchAll(/--project ([\w-]+)/gu)].map(([, project]) => project),
    );
    const projects = config.test?.projects?.map(each =>
      typeof each === 'object' && 'test' in each ? each.test?.name : '',
    );
    expect(new Set(named)).toEqual(new Set(projects));
    expect(named).toHaveLength(new Set(named).size);
    expect(scripts['verify']).toContain('npm test && npm run test:slow');
    expect(readFileSync(new URL('.ci/run', root), 'utf8')).toContain('for tests in test test:slow; do');
  });
});
