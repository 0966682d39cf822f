import { describe, expect, it } from 'vitest';
import { runNotebookWith } from '../../src/notebook/run.ts';

const TEXT = ['one = 1', 'two = one + 1', 'three = two + 1']
  .map((line, k) => `\`\`\`calc sums_${k}\n${line}\n\`\`\`\n`)
  .join('\n');

describe('a notebook that is run where others are heard', () => {
  const run = (signal: { throwIfAborted(): void }, pause: () => Promise<void>) =>
    runNotebookWith(TEXT, { file: 'a.md' }, () => Promise.resolve(null), signal, pause);

  it('hears them before every cell of whatever kind', async () => {
    let pauses = 0;
    const outcome = await run({ throwIfAborted: () => {} }, async () => void (pauses += 1));
    expect(outcome.problems).toEqual([]);
    expect(pauses).toBe(3);
  });

  it('ends between two cells where somebody wants something newer', async () => {
    const newer = new AbortController();
    let pauses = 0;
    const running = run(newer.signal, async () => {
      pauses += 1;
      if (pauses === 2) newer.abort();
    });
    await expect(running).rejects.toThrow(/abort/u);
    expect(pauses).toBe(2);
  });
});
