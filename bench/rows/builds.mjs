// Launches of the other builds: wheels that spin, beside a peer on the same physics, and a kept gearbox. Each in a process of its own.
import { join } from 'node:path';
import { bundle } from '../bundle.mjs';
import { loosest, median, timeInTurns } from '../contest.mjs';
import { enter, startCvode, started } from '../peers.mjs';
import { startWorker } from '../worker.mjs';

export const title = 'Launches of other builds to the quarter mile, all outputs';
export const keys = ['spin_us', 'spin_tolerance', 'spin_error', 'spin_vs_cvode', 'gears_us', 'gears_vs_launch'];

const METHODS = ['explicit', 'spin', 'spin-explicit', 'gears'];

/** What launches with free wheels are held against. */
const SPUN = 'solve spin-explicit 1e-11';

/** Of the peer: free wheels are stiff. */
const PEER_METHODS = ['bdf-states', 'bdf-quad'];

/** @param {import('../bench.mjs').Setting} setting */
export async function measure({ root, temp, note }) {
  const file = join(temp, 'builds.mjs');
  await bundle(join(root, 'bench/launch.ts'), file);
  const workers = METHODS.map(() => startWorker(process.execPath, [file]));
  const [, spinning] = workers;
  try {
    const runners = [];
    for (const [k, method] of METHODS.entries()) {
      const worker = workers[k];
      const reference = await worker.ask(method === 'spin' ? SPUN : `solve ${method} 1e-11`);
      const found = await loosest(worker, method, reference);
      if (found === null) throw new Error(`${method} reaches the accuracy at no tolerance`);
      runners.push({ worker, ...found });
    }
    const car = await spinning.ask('parameters spin');
    const peer = await started('CVODES', () => startCvode({ root, temp, car, name: 'cvode-spin' }), note);
    if (peer !== null) {
      workers.push(peer);
      const spun = await spinning.ask(SPUN);
      for (const method of PEER_METHODS) {
        const entrant = await enter(peer, method, spun, note);
        if (entrant !== null) runners.push({ name: `spin, CVODES ${method}`, ...entrant });
      }
    }
    const times = await timeInTurns(runners, { rounds: 15, seconds: 0.05 });
    const rows = runners.map((runner, k) => ({ ...runner, best: times[k][0], median: median(times[k]) }));
    const [plain, spin, , gears, ...peers] = rows;
    const best = Math.min(...peers.map(({ best }) => best));
    return {
      values: {
        spin_us: 1e6 * spin.best,
        spin_tolerance: spin.tolerance,
        spin_error: spin.error,
        spin_vs_cvode: peers.length === 0 ? null : best / spin.best,
        gears_us: 1e6 * gears.best,
        gears_vs_launch: gears.best / plain.best,
      },
      head: ['', 'best us', 'median us', 'tolerance', 'error', 'rates', 'steps'],
      lines: rows.map(r => [
        r.name ?? r.method,
        (1e6 * r.best).toFixed(1),
        (1e6 * r.median).toFixed(1),
        r.tolerance.toExponential(1),
        r.error.toExponential(1),
        String(r.evaluations),
        String(r.steps),
      ]),
    };
  } finally {
    for (const worker of workers) worker.close();
  }
}
