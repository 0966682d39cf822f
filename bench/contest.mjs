// Brings integrators to the same accuracy, then times them in turns.

/** The accuracy that every one must reach at every event time. */
export const WANTED = 1e-6;

/** Three tolerances a decade, the loosest first. */
const TOLERANCES = Array.from({ length: 28 }, (_, k) => Number((10 ** -(2 + k / 3)).toPrecision(2)));

/**
 * Largest relative difference of the event times of two launches; 1 if they did not pass the same marks.
 * @param {{ times: Record<string, number> }} found
 * @param {{ times: Record<string, number> }} reference
 */
function timeError(found, reference) {
  const marks = new Set([...Object.keys(found.times), ...Object.keys(reference.times)]);
  return Math.max(...Array.from(marks, mark => relative(found.times[mark], reference.times[mark])));
}

/**
 * Largest relative difference over the energies (against the largest of them) and the peaks.
 * @param {any} found
 * @param {any} reference
 */
function outputError(found, reference) {
  const whole = Math.max(...Object.values(reference.energies).map(Math.abs));
  const energies = Object.keys(reference.energies).map(
    name => Math.abs(found.energies[name] - reference.energies[name]) / whole,
  );
  const peaks = Object.keys(reference.peaks).map(name => relative(found.peaks[name], reference.peaks[name]));
  return Math.max(...energies, ...peaks);
}

function relative(a = NaN, b = NaN) {
  const difference = Math.abs(a - b) / Math.abs(b);
  return Number.isNaN(difference) ? 1 : difference;
}

/**
 * @typedef {object} Entrant
 * @property {string} method
 * @property {number} tolerance
 * @property {number} error of the event times
 * @property {number} outputs difference of energies and peaks
 * @property {number} evaluations
 * @property {number} steps
 */

/**
 * The loosest tolerance at which this method and every tighter one reach the wanted accuracy; null if none does.
 * @param {import('./worker.mjs').Worker} worker
 * @param {string} method
 * @param {any} reference
 * @returns {Promise<Entrant | null>}
 */
export async function loosest(worker, method, reference) {
  let best = null;
  for (const tolerance of TOLERANCES.toReversed()) {
    const found = await worker.ask(`solve ${method} ${tolerance}`);
    const error = timeError(found, reference);
    if (error > WANTED) break;
    const { evaluations, steps } = found;
    best = { method, tolerance, error, outputs: outputError(found, reference), evaluations, steps };
  }
  return best;
}

/**
 * Times all runners in turns, so that what else the machine does hits all of them; seconds of processor time per launch, sorted, for
 * each: a process that has to wait for its turn is not slower.
 * @param {{ worker: import('./worker.mjs').Worker, method: string, tolerance: number }[]} runners
 * @param {{ rounds: number, seconds: number }} effort `seconds` for each runner in each round
 */
export async function timeInTurns(runners, { rounds, seconds }) {
  const counts = [];
  for (const runner of runners) counts.push(await countFor(runner, seconds));
  /** @type {number[][]} */
  const times = runners.map(() => []);
  for (let round = 0; round < rounds; round++) {
    for (const [k, { worker, method, tolerance }] of runners.entries()) {
      const answer = await worker.ask(`time ${method} ${tolerance} ${counts[k]}`);
      times[k].push(Math.min(answer.user, answer.seconds) / counts[k]);
    }
  }
  return times.map(list => list.toSorted((a, b) => a - b));
}

/** Rounds' worth of time before the first one counts: the compiler of the engine is slow to start on a busy machine. */
const WARM_UP = 25;

/** Launches that take about so many seconds; finding out is the warm-up as well. */
async function countFor({ worker, method, tolerance }, seconds) {
  let count = 1;
  for (let spent = 0; ; ) {
    const answer = await worker.ask(`time ${method} ${tolerance} ${count}`);
    spent += answer.seconds;
    if (spent > WARM_UP * seconds && answer.seconds >= seconds / 2) return count;
    if (answer.seconds < seconds) count = Math.ceil(count * Math.min(8, (1.1 * seconds) / answer.seconds));
  }
}

/** The middle of a sorted list. */
export const median = sorted => sorted[sorted.length >> 1];
