// Rows of a sweep in a thread that has done nothing else, and in one that has run the cells of the notebook before.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bundle } from '../bundle.mjs';
import { median, timeInTurns } from '../contest.mjs';
import { startWorker } from '../worker.mjs';
import { sweep } from './studies.mjs';

export const title = 'Rows of a sweep of launches in one warm thread, fresh and after the cells have run';
export const keys = ['rows_us', 'rows_after_cells_us', 'rows_after_cells_ratio'];

/** @param {import('../bench.mjs').Setting} setting */
export async function measure({ root, temp }) {
  const file = join(temp, 'sweep.mjs');
  await bundle(join(root, 'bench/sweep.ts'), file);
  const [notebook, job] = [join(temp, 'sweep.md'), join(temp, 'sweep.json')];
  writeFileSync(notebook, sweep('dash', 'dash.time', 10_000));
  const after = startWorker(process.execPath, [file, notebook, job]);
  const runner = { method: 'rows', tolerance: 0 };
  // Its job is there when it has answered.
  await after.ask('time rows 0 1');
  const fresh = startWorker(process.execPath, [file, notebook, job]);
  try {
    const runners = [
      { ...runner, worker: fresh },
      { ...runner, worker: after },
    ];
    const times = await timeInTurns(runners, { rounds: 25, seconds: 0.05 });
    const [[one], [other]] = times;
    return {
      values: { rows_us: 1e6 * one, rows_after_cells_us: 1e6 * other, rows_after_cells_ratio: other / one },
      head: ['', 'best us', 'median us', 'rows a second'],
      lines: ['fresh', 'after the cells'].map((name, k) => [
        name,
        (1e6 * times[k][0]).toFixed(1),
        (1e6 * median(times[k])).toFixed(1),
        (1 / times[k][0]).toFixed(0),
      ]),
    };
  } finally {
    for (const worker of [fresh, after]) worker.close();
  }
}
