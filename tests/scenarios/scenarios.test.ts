import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { LIMITERS } from '../../src/model/forward/limiter.ts';
import { folderReader } from '../../src/notebook/files/folder.ts';
import { problemText } from '../../src/notebook/document/problem.ts';
import { runNotebook } from '../../src/notebook/run.ts';

const folder = fileURLToPath(new URL('../../scenarios/', import.meta.url));
const files = readdirSync(folder).filter(name => name.endsWith('.md'));
const outcomes = files.map(name => {
  const file = folder + name;
  return { name, outcome: runNotebook(readFileSync(file, 'utf8'), { file: name, readFile: folderReader(file) }) };
});

describe('the examples that ship', () => {
  it.each(outcomes)('$name has no problem, and all that it checks holds', ({ outcome }) => {
    expect(outcome.problems.map(problemText)).toEqual([]);
    const checks = outcome.blocks.flatMap(block => (block.kind === 'cell' ? block.checks : []));
    expect(checks.filter(({ holds }) => !holds)).toEqual([]);
    expect(checks.length).toBeGreaterThan(0);
  });

  it('show every limiter in some band at least once', () => {
    const seen = new Set(
      outcomes.flatMap(({ outcome }) =>
        outcome.blocks.flatMap(block =>
          block.kind === 'cell' && block.result !== null ? block.result.bands.map(band => band.limiter) : [],
        ),
      ),
    );
    expect(LIMITERS.filter(word => !seen.has(word))).toEqual([]);
  });

  it('run without a result that its second integrator disagrees with', () => {
    const doubtful = outcomes.flatMap(({ name, outcome }) =>
      outcome.blocks.flatMap(block =>
        block.kind === 'cell' && block.result?.opinion?.agrees === false ? [`${name}: ${block.name}`] : [],
      ),
    );
    expect(doubtful).toEqual([]);
  });
});
