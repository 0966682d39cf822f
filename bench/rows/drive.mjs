// One WLTC with every energy of the ledger, and a pack driven from full to empty on it: ours, and two peers in other languages.
import { execFileSync } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bundle } from '../bundle.mjs';
import { loosest, median, timeInTurns, WANTED } from '../contest.mjs';
import { driveHeader } from '../drive-header.mjs';
import { whyNot } from '../peers.mjs';
import { startWorker } from '../worker.mjs';

export const title = 'WLTC with the whole ledger, and from full to empty on it';
export const keys = [
  'wltc_us',
  'wltc_median_us',
  'wltc_error',
  'wltc_vs_launch',
  'wltc_vs_cvode',
  'wltc_vs_scipy',
  'depletion_ms',
  'depletion_median_ms',
  'depletion_error',
];

const LIBRARIES = ['cvodes', 'nvecserial', 'sunnonlinsolfixedpoint'];
/** Debian's, which has SciPy beside it; another python3 may not. */
const PYTHON = ['/usr/bin/python3', 'python3'];

/** Steps a second of the reference. */
const FINE = 16;

/** @param {import('../bench.mjs').Setting} setting */
export async function measure({ root, temp, note }) {
  const workers = [];
  const started = (command, args) => {
    const worker = startWorker(command, args);
    workers.push(worker);
    return worker;
  };
  const own = async name => {
    const file = join(temp, `${name}.mjs`);
    await bundle(join(root, `bench/${name}.ts`), file);
    return file;
  };
  try {
    const file = await own('drive');
    const [wltc, depletion] = [started(process.execPath, [file]), started(process.execPath, [file])];
    const launch = started(process.execPath, [await own('launch')]);
    const reference = await wltc.ask(`solve wltc ${FINE}`);
    const emptied = await depletion.ask(`solve depletion ${FINE}`);
    const runners = [
      { name: 'axlewatt, WLTC', ...(await ours(wltc, 'wltc', reference)) },
      { name: 'axlewatt, full to empty', ...(await ours(depletion, 'depletion', emptied)) },
      {
        name: 'axlewatt, launch',
        worker: launch,
        ...(await loosest(launch, 'explicit', await launch.ask('solve explicit 1e-13'))),
      },
    ];
    const car = await wltc.ask('parameters');
    /** The methods of a peer that reach the accuracy; none where it is not there. */
    const peer = async (name, start, methods) => {
      try {
        const worker = started(...start({ root, temp, car }));
        const found = [];
        for (const method of methods) found.push({ method, ...(await loosestDrive(worker, method, reference)) });
        for (const { method, error } of found) {
          if (error === undefined) note(`${name} ${method} reaches the accuracy at no tolerance`);
        }
        const reached = found.filter(({ error }) => error !== undefined);
        return reached.map(each => ({ name: `${name} ${each.method}, WLTC`, worker, ...each }));
      } catch (error) {
        note(whyNot(name, error));
        return [];
      }
    };
    runners.push(...(await peer('CVODES', startCvode, ['adams-states', 'adams-quad'])));
    const slow = await peer('SciPy', startScipy, ['RK45', 'DOP853', 'LSODA']);
    const times = await timeInTurns(runners, { rounds: 15, seconds: 0.05 });
    // Seconds each: once in turns after the warm-up is enough.
    times.push(...(await timeInTurns(slow, { rounds: 2, seconds: 0.05 })));
    return summary(
      [...runners, ...slow].map((runner, k) => ({ ...runner, best: times[k][0], median: median(times[k]) })),
    );
  } finally {
    for (const worker of workers) worker.close();
  }
}

/** Largest difference of an energy, as a share of what came out of the pack. */
function energyError(found, reference) {
  const names = Object.keys(reference.energies);
  const apart = names.map(name => Math.abs(found.energies[name] - reference.energies[name]));
  return Math.max(...apart) / Math.abs(reference.energies.power);
}

async function ours(worker, method, reference) {
  const found = await worker.ask(`solve ${method} 1`);
  const error = energyError(found, reference);
  if (!(error < WANTED)) throw new Error(`${method} is ${error.toExponential(1)} off`);
  return { worker, method, tolerance: 1, error };
}

/** The loosest tolerance of a peer that is as good as it is asked to be. */
async function loosestDrive(worker, method, reference) {
  for (let k = 4; k <= 11; k++) {
    for (const tolerance of [10 ** -k, 3 * 10 ** -(k + 1)]) {
      const found = await worker.ask(`solve ${method} ${tolerance}`);
      const error = energyError(found, reference);
      if (error < WANTED) return { method, tolerance, error };
    }
  }
  return null;
}

function startCvode({ root, temp, car }) {
  writeFileSync(join(temp, 'drive.h'), driveHeader(car));
  const program = join(temp, 'cvode_drive');
  const libraries = LIBRARIES.map(name => `-lsundials_${name}`);
  const args = ['-O3', '-I', temp, join(root, 'bench/peer/cvode_drive.c'), '-o', program, ...libraries, '-lm'];
  execFileSync('gcc', args, { stdio: 'pipe' });
  return [program, []];
}

function startScipy({ root, temp, car }) {
  const file = join(temp, 'drive.json');
  writeFileSync(file, JSON.stringify(car));
  const python = PYTHON.find(path => existsSync(path)) ?? PYTHON.at(-1);
  execFileSync(python, ['-c', 'import scipy.integrate'], { stdio: 'pipe' });
  return [python, [join(root, 'bench/peer/scipy_drive.py'), file]];
}

function summary(runners) {
  const [wltc, depletion, launch] = runners;
  const times = name => {
    const best = runners.filter(runner => runner.name.startsWith(name)).map(runner => runner.best);
    return best.length === 0 ? null : Math.min(...best) / wltc.best;
  };
  return {
    values: {
      wltc_us: 1e6 * wltc.best,
      wltc_median_us: 1e6 * wltc.median,
      wltc_error: wltc.error,
      wltc_vs_launch: wltc.best / launch.best,
      wltc_vs_cvode: times('CVODES'),
      wltc_vs_scipy: times('SciPy'),
      depletion_ms: 1e3 * depletion.best,
      depletion_median_ms: 1e3 * depletion.median,
      depletion_error: depletion.error,
    },
    head: ['', 'best us', 'median us', 'times WLTC', 'steps/s or tolerance', 'error'],
    lines: runners.map(r => [
      r.name,
      (1e6 * r.best).toFixed(1),
      (1e6 * r.median).toFixed(1),
      (r.best / wltc.best).toFixed(2),
      r.tolerance === 1 ? '1' : r.tolerance.toExponential(1),
      r.error.toExponential(1),
    ]),
  };
}
