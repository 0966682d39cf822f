import { describe, expect, it } from 'vitest';
import { intervalRounds } from '../../src/notebook/interval-rounds.ts';
import type { Spreading } from '../../src/notebook/interval-rounds.ts';
import type { Memory } from '../../src/notebook/memory.ts';
import { FEWEST, FIRST, MOST_WORK } from '../../src/notebook/samples.ts';
import { samplesText } from '../../src/plots/kit/interval.ts';
import type { Intervals } from '../../src/runs/result.ts';

const MOST = 1024;
/** Jobs that the latest rounds asked for. */
let asks = 0;

/** Runs of which a sample takes so much work and whose ends stand still from so many samples on: what became of each. */
function rounds(
  works: readonly number[],
  still: number,
  asked: number | null = null,
  { memory, interrupted = false }: { readonly memory?: Memory; readonly interrupted?: boolean } = {},
): readonly (Intervals | 'heavy' | null)[] {
  const found: (Intervals | 'heavy' | null)[] = works.map(() => null);
  const runs = works.map((work, index): Spreading => {
    let samples = 0;
    return {
      cell: `run ${index}`,
      plan: {
        about: { work, still },
        work: () => work,
        job: upTo => ({ kind: 'none', payload: null, rows: upTo - samples, columns: [] }),
        take: ({ rows }) => void (samples += rows),
        standsStill: () => samples >= still,
        read: () => ({ probability: 0.9, samples, seed: 1, inputs: 3, of: {}, holes: {} }),
      },
      heavy: () => void (found[index] = 'heavy'),
      done: intervals => void (found[index] = intervals),
      failed: error => {
        throw error;
      },
    };
  });
  const asking = intervalRounds(runs, asked, MOST, memory);
  asks = 0;
  for (let step = asking.next(); step.done !== true; asks++) {
    const { rows } = step.value.job;
    step = asking.next(interrupted ? null : { rows, column: () => new Float64Array(rows), code: () => '' });
  }
  return found;
}

describe('samples of the runs of a page', () => {
  it('go on until the ends stand still, and no longer', () => {
    expect(rounds([1, 1], FIRST)).toMatchObject([{ samples: FIRST }, { samples: FIRST }]);
    expect(rounds([1, 1], 200)).toMatchObject([{ samples: 256 }, { samples: 256 }]);
    const [most] = rounds([1], 10_000);
    expect(most).toMatchObject({ samples: MOST });
    expect(most).not.toHaveProperty('cut');
  });

  it('end at the work that a page takes unasked, and say so', () => {
    const [cut] = rounds([MOST_WORK / 100], 10_000);
    expect(cut).toMatchObject({ samples: 100, cut: true });
    expect(samplesText(cut as Intervals)).toContain(
      '100 samples of 3 uncertain inputs, as many as a page takes unasked',
    );
    expect(rounds([MOST_WORK / 80, MOST_WORK / 80], 10_000)).toMatchObject([{ samples: 40 }, { samples: 40 }]);
    expect(rounds([MOST_WORK / 100], 100)[0]).not.toHaveProperty('cut');
  });

  it('are not taken of a run of which so few are too much work; the others have theirs', () => {
    const heavy = (1.1 * MOST_WORK) / FEWEST;
    expect(rounds([heavy, 1], FIRST)).toMatchObject(['heavy', { samples: FIRST }]);
    expect(rounds([heavy], FIRST)).toEqual(['heavy']);
  });

  it('are as many as somebody asks for, whatever the work', () => {
    const [asked] = rounds([MOST_WORK], 10_000, 48);
    expect(asked).toMatchObject({ samples: 48 });
    expect(asked).not.toHaveProperty('cut');
  });

  it('are not taken again where they are remembered, nor remembered where they were interrupted', () => {
    const texts = new Map<string, string>();
    const memory: Memory = {
      recall: question => texts.get(question) ?? null,
      keep: (question, answer) => void texts.set(question, answer),
    };
    const heavy = (1.1 * MOST_WORK) / FEWEST;
    expect(rounds([heavy, 1], 200, null, { memory, interrupted: true })).toEqual(['heavy', null]);
    expect(texts.size).toBe(0);
    const first = rounds([heavy, 1], 200, null, { memory });
    expect(asks).toBeGreaterThan(0);
    expect(rounds([heavy, 1], 200, null, { memory })).toEqual(first);
    expect(asks).toBe(0);
    for (const [still, asked] of [
      [300, null],
      [200, 48],
    ] as const) {
      rounds([heavy, 1], still, asked, { memory });
      expect(asks).toBeGreaterThan(0);
    }
  });
});
