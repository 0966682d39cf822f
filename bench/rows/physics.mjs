// What each piece of physics costs a launch: the bare car with it against the bare car, in turns, each in a process of its own.
import { join } from 'node:path';
import { bundle } from '../bundle.mjs';
import { median, timeInTurns } from '../contest.mjs';
import { startWorker } from '../worker.mjs';

export const title = 'What each piece of physics costs a launch to the quarter mile, all outputs';
export const keys = ['physics_worst', 'physics_all'];

const TOLERANCE = 1e-6;

/** @param {import('../bench.mjs').Setting} setting */
export async function measure({ root, temp }) {
  const file = join(temp, 'physics.mjs');
  await bundle(join(root, 'bench/launch.ts'), file);
  const plain = await enter(file, 'nothing', 'bare');
  try {
    const rows = [];
    for (const { name, method } of await plain.worker.ask('added')) {
      const added = await enter(file, name, method);
      try {
        const [without = [], with_ = []] = await timeInTurns([plain, added], { rounds: 15, seconds: 0.05 });
        rows.push({ ...added, without: median(without), with: median(with_), share: median(with_) / median(without) });
      } finally {
        added.worker.close();
      }
    }
    const all = rows.at(-1);
    return {
      values: {
        physics_worst: Math.max(...rows.slice(0, -1).map(({ share }) => share)),
        physics_all: all === undefined ? null : all.share,
      },
      head: ['', 'us without', 'us with', 'times', 'rates', 'steps', 'switches'],
      lines: [{ ...plain, without: NaN, with: NaN, share: 1 }, ...rows].map(r => [
        r.name,
        r.method === 'bare' ? '' : (1e6 * r.without).toFixed(1),
        r.method === 'bare' ? '' : (1e6 * r.with).toFixed(1),
        r.share.toFixed(2),
        String(r.evaluations),
        String(r.steps),
        String(r.switches),
      ]),
    };
  } finally {
    plain.worker.close();
  }
}

/** A launch in a process of its own, and what it takes. */
async function enter(file, name, method) {
  const worker = startWorker(process.execPath, [file]);
  const { evaluations, steps, switches } = await worker.ask(`solve ${method} ${TOLERANCE}`);
  return { worker, name, method, tolerance: TOLERANCE, evaluations, steps, switches };
}
