/** Results that are not to be relied on, and faults of our own: where they are told, and what they leave whole. */
import { describe, expect, it } from 'vitest';
import { BatchProblem } from '../../src/batch/problem.ts';
import type { CellKind } from '../../src/notebook/cells/kind.ts';
import { resultYield } from '../../src/notebook/cells/result.ts';
import { runNotebook, runNotebookWith } from '../../src/notebook/run.ts';
import { doubtsOf } from '../../src/runs/doubts.ts';
import type { Result } from '../../src/runs/result.ts';
import { cell, complaints, dash, dummy, dummyResult, fence, KINDS } from './fake.ts';

const opinion = { method: 'odex', difference: 0.02, where: 'top_speed', tolerance: 1e-5, agrees: false };
const open = { in: { pack: 100 }, out: { drag: 99 }, stored: {}, gap: 0.01 };

const shaky = (changed: Partial<Result>): CellKind => ({
  ...dummy,
  kind: 'shaky',
  prepare: () => ({
    needs: [],
    run: ({ system }) => resultYield({ ...dummyResult, ...changed }, [], system),
  }),
});

describe('a result that is not to be relied on', () => {
  const sums = fence('calc sums', 'twice = 2 * odd.top_speed');
  const text = `${fence('yaml shaky odd', '')}${dash}${sums}Top speed \`= odd.top_speed\`, \`= dash.top_speed\`.\n`;

  it.each<[string, Partial<Result>, string]>([
    ['whose energies do not add up', { ledger: open }, 'its energies do not add up: 1.0e+0 % is not accounted for'],
    ['whose energies are no number', { ledger: { ...open, gap: Number.NaN } }, 'its energies do not add up'],
    ['with another opinion', { opinion }, 'by another method (odex) it differs by 2.0e-2 in "top speed"'],
    ['that ended early', { ended: 'the step became too small' }, 'ended early (the step became too small)'],
  ])('%s fails the cell, is shown, and nothing leans on it', (_, changed, message) => {
    const outcome = runNotebook(text, { file: 'a.md', kinds: [...KINDS, shaky(changed)] });
    expect(complaints(outcome)).toEqual([
      expect.stringContaining(message),
      expect.stringContaining('sums: needs odd, which failed'),
      expect.stringContaining('odd, which failed'),
    ]);
    expect(complaints(outcome)[0]).toContain('do not rely on its figures, and please report it');
    expect(cell(outcome, 'odd').result?.kind).toBe('dummy');
    expect(cell(outcome, 'sums').values).toEqual([]);
    expect(cell(outcome, 'dash').problem).toBeNull();
  });

  it('has no doubts when all is sound', () => {
    expect(doubtsOf(dummyResult)).toEqual([]);
    expect(
      doubtsOf({ ...dummyResult, ledger: { ...open, gap: -9e-7 }, opinion: { ...opinion, agrees: true } }),
    ).toEqual([]);
  });
});

describe('rows that cannot be had', () => {
  const asking: CellKind = {
    ...dummy,
    kind: 'asking',
    prepare: () => ({
      needs: [],
      run: ({ system }) => ({
        job: { kind: 'points', payload: null, rows: 1, columns: ['x'] },
        finish: () => resultYield(dummyResult, [], system),
      }),
    }),
  };
  const text = `${fence('yaml asking odd', '')}${dash}`;
  const options = { file: 'a.md', kinds: [...KINDS, asking] };

  it('because of a fault of ours are a fault in the place of the cell, and the others run', async () => {
    const outcome = await runNotebookWith(text, options, () => Promise.reject(new TypeError('no such thing')));
    expect(complaints(outcome)).toEqual([
      '1:1: odd: a fault of axlewatt itself in this asking cell: TypeError: no such thing; expected nothing; please report it',
    ]);
    expect(outcome.problems[0]?.cause).toBe('axlewatt');
    expect(cell(outcome, 'dash').result).not.toBeNull();
    // The payload of this job is none: in this thread the evaluator throws.
    expect(runNotebook(text, options).problems).toMatchObject([{ line: 1, cause: 'axlewatt' }]);
  });

  it('because of a file are told in the place of the cell', async () => {
    const outcome = await runNotebookWith(text, options, () => Promise.reject(new BatchProblem('the disk is full')));
    expect(outcome.problems).toMatchObject([{ line: 1, message: 'the disk is full', cause: 'files' }]);
    expect(cell(outcome, 'dash').result).not.toBeNull();
  });
});
