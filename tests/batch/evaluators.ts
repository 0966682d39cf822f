/** Evaluators for tests: cheap, pure, and with everything a row can have. */
import { isMainThread } from 'node:worker_threads';
import type { Evaluators } from '../../src/batch/job.ts';

/** Scrambles an integer (the finaliser of a well-known 32-bit hash; any other would do). */
function scramble(n: number): number {
  let h = n | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85eb_ca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2_ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

export const testEvaluators: Evaluators = new Map([
  /** Numbers of all sorts and a code now and then; `work` turns of a loop for each row. */
  [
    'mix',
    payload => {
      const { seed = 1, work = 0 } = payload as { seed?: number; work?: number };
      return {
        evaluate(row, out) {
          let x = scramble(row + seed * 1_000_003) / 2 ** 32;
          for (let k = 0; k < work; k++) x = Math.sin(x) + 1e-3;
          out[0] = row;
          if (row % 7 === 3) return 'no answer';
          out[1] = row % 11 === 5 ? -0 : (x - 0.5) * 10 ** ((row % 40) - 20);
          if (row % 13 === 0) {
            out[2] = Number.POSITIVE_INFINITY;
            return `größer als ${row}`;
          }
          out[2] = Math.log(x + 1);
          return '';
        },
      };
    },
  ],
  [
    'fails',
    payload => {
      const { at } = payload as { at: readonly number[] };
      return {
        evaluate(row, out) {
          if (at.includes(row)) throw new RangeError(`cannot do ${row}`);
          out[0] = row;
        },
      };
    },
  ],
  /** Ends any thread but that of the process. */
  [
    'dies',
    () => ({
      evaluate(row, out) {
        if (!isMainThread) process.exit(9);
        out[0] = row;
      },
    }),
  ],
]);
