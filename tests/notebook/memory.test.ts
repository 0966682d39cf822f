import { describe, expect, it } from 'vitest';
import type { Input } from '../../src/model/fields/input.ts';
import { remembered } from '../../src/notebook/memory.ts';
import type { Memory, Remembered } from '../../src/notebook/memory.ts';
import { noAnswer } from '../../src/runs/no-answer.ts';
import { dash, base, runOf } from './study-cells.ts';

function memory(): Memory & { readonly texts: Map<string, string> } {
  const texts = new Map<string, string>();
  return { texts, recall: key => texts.get(key) ?? null, keep: (key, text) => void texts.set(key, text) };
}

const { question, result } = runOf(base + dash, 'dash');

describe('an answer that is remembered', () => {
  it('is the answer itself, to the last bit of each number', () => {
    const odd = { a: -0, b: Number.NaN, c: -Infinity, d: 5e-324, e: 0.1 + 0.2 };
    const answer: Remembered = {
      result: { ...result, ledger: { in: odd, out: {}, stored: {}, gap: -0 } },
      assumed: [] satisfies Input[],
    };
    const kept = memory();
    expect(remembered(kept, question, () => answer)).toBe(answer);
    const again = remembered(kept, question, () => {
      throw new Error('it is not asked again');
    });
    const { trail, ...plain } = answer.result;
    const { trail: other, ...same } = again.result;
    expect(same).toEqual(plain);
    expect(other?.saved()).toEqual(trail?.saved());
    expect(other?.track('pack')).toEqual(trail?.track('pack'));
    expect(Object.is(again.result.ledger.in['a'], -0)).toBe(true);
    expect(again.result.series['time']!['speed_m_s']!.values).toBeInstanceOf(Float64Array);
  });

  it('is asked for by all that the question says', () => {
    const kept = memory();
    const answer = (): Remembered => ({ result: noAnswer('launch', {}, 'none'), assumed: [] });
    remembered(kept, question, answer);
    remembered(kept, { ...question, spec: { ...question.spec, mass: 1151 } }, answer);
    remembered(kept, { ...question, run: { ...question.run, values: { to: 20 } } }, answer);
    expect(kept.texts.size).toBe(3);
  });

  it('is not kept where it is thrown, nor where the question can not be written down', () => {
    const kept = memory();
    const fail = (): never => {
      throw new RangeError('no such car');
    };
    expect(() => remembered(kept, question, fail)).toThrow('no such car');
    const answer: Remembered = { result, assumed: [] };
    const unwritable = { ...question, spec: { ...question.spec, mass: Number.NaN } };
    expect(remembered(kept, unwritable, () => answer)).toBe(answer);
    expect(kept.texts.size).toBe(0);
  });
});
