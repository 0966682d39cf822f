// One launch to the quarter mile with everything that a sweep takes from it: ours, odex, and two peers in other languages.
import { execFileSync } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bundle } from '../bundle.mjs';
import { median, timeInTurns } from '../contest.mjs';
import { enter, startCvode, started } from '../peers.mjs';
import { startWorker } from '../worker.mjs';

export const title = 'Launch to the quarter mile, all outputs';
export const keys = [
  'launch_us',
  'launch_median_us',
  'launch_tolerance',
  'launch_error',
  'launch_vs_scipy',
  'launch_vs_cvode',
  'second_opinion_us',
];

/** Debian's, which has SciPy beside it; another python3 may not. */
const PYTHON = ['/usr/bin/python3', 'python3'];

/** Every number of ours and of the peers is held against this run. */
const REFERENCE = 'solve explicit 1e-13';

/** @param {import('../bench.mjs').Setting} setting */
export async function measure({ root, temp, note }) {
  const file = join(temp, 'launch.mjs');
  await bundle(join(root, 'bench/launch.ts'), file);
  const ours = startWorker(process.execPath, [file]);
  // A process of its own: the engine is at its best where one plant and one solver is all it has ever seen.
  const mixed = startWorker(process.execPath, [file]);
  const workers = [ours, mixed];
  try {
    const reference = await ours.ask(REFERENCE);
    const car = await mixed.ask('parameters');
    const explicit = await enter(ours, 'explicit', reference);
    const odex = await enter(mixed, 'odex', reference, note);
    const peers = [];
    for (const [name, start, methods] of PEERS) {
      const worker = await started(name, () => start({ root, temp, car }), note);
      if (worker === null) continue;
      workers.push(worker);
      for (const method of methods) {
        const peer = await enter(worker, method, reference, note);
        if (peer !== null) peers.push({ name, ...peer });
      }
    }
    const runners = [
      { name: 'axlewatt', ...explicit },
      ...(odex === null ? [] : [{ name: 'odex', ...odex }]),
      { name: 'axlewatt beside odex:', ...explicit, worker: mixed },
      ...peers,
    ];
    const times = await timeInTurns(runners, { rounds: 25, seconds: 0.05 });
    return summary(runners.map((runner, k) => ({ ...runner, best: times[k][0], median: median(times[k]) })));
  } finally {
    for (const worker of workers) worker.close();
  }
}

async function startScipy({ root, temp, car }) {
  const file = join(temp, 'car.json');
  writeFileSync(file, JSON.stringify(car));
  const python = PYTHON.find(path => existsSync(path)) ?? PYTHON.at(-1);
  execFileSync(python, ['-c', 'import scipy.integrate'], { stdio: 'pipe' });
  return startWorker(python, [join(root, 'bench/peer/scipy_launch.py'), file]);
}

/** Name, how to start it, and its methods: the fastest counts. */
const PEERS = /** @type {const} */ ([
  ['CVODES', startCvode, ['adams-states', 'adams-quad', 'bdf-states', 'bdf-quad']],
  ['SciPy', startScipy, ['RK45', 'DOP853', 'LSODA']],
]);

function summary(runners) {
  const [ours] = runners;
  const fastest = name => runners.filter(runner => runner.name === name).toSorted((a, b) => a.best - b.best)[0];
  const times = name => (fastest(name) === undefined ? null : fastest(name).best / ours.best);
  return {
    values: {
      launch_us: 1e6 * ours.best,
      launch_median_us: 1e6 * ours.median,
      launch_tolerance: ours.tolerance,
      launch_error: ours.error,
      launch_vs_scipy: times('SciPy'),
      launch_vs_cvode: times('CVODES'),
      second_opinion_us: fastest('odex') === undefined ? null : 1e6 * fastest('odex').best,
    },
    head: ['', 'best us', 'median us', 'times ours', 'tolerance', 'error', 'outputs', 'rates', 'steps'],
    lines: runners.map(r => [
      r.name === r.method ? r.name : `${r.name} ${r.method}`,
      (1e6 * r.best).toFixed(1),
      (1e6 * r.median).toFixed(1),
      (r.best / ours.best).toFixed(1),
      r.tolerance.toExponential(1),
      r.error.toExponential(1),
      r.outputs.toExponential(1),
      String(r.evaluations),
      String(r.steps),
    ]),
  };
}
