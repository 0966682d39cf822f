/**
 * The rows of a sweep that the benchmark times, as a process that answers requests. Arguments: a notebook whose last study is the sweep,
 * and a file with its job. Where that file is not there yet the cells of the notebook are run first, in this process, and the job is
 * written to it.
 *
 *     time rows 0 N   N rows: the seconds they took together
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { evaluators } from '../src/batch/evaluators.ts';
import { evaluatorOf } from '../src/batch/job.ts';
import type { Job } from '../src/batch/job.ts';
import { runNotebookWith } from '../src/notebook/run.ts';

const [notebook = '', file = ''] = process.argv.slice(2);
const job = existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as Job) : await jobAfterCells();
const evaluator = evaluatorOf(job, evaluators);
const out = new Float64Array(job.columns.length);
/** Rows are taken all over the sweep. */
const STRIDE = 7919;
let row = 0;

async function jobAfterCells(): Promise<Job> {
  const jobs: Job[] = [];
  await runNotebookWith(readFileSync(notebook, 'utf8'), { file: notebook }, async ask => {
    jobs.push(ask.job);
    return null;
  });
  const last = jobs.at(-1);
  if (last === undefined) throw new Error(`${notebook} has no sweep`);
  writeFileSync(file, JSON.stringify(last));
  return last;
}

function time(count: number): object {
  const [start, before] = [performance.now(), process.cpuUsage().user];
  for (let i = 0; i < count; i++) {
    row = (row + STRIDE) % job.rows;
    evaluator.evaluate(row, out);
  }
  return { seconds: (performance.now() - start) / 1000, user: (process.cpuUsage().user - before) / 1e6 };
}

createInterface({ input: process.stdin }).on('line', line => {
  const [, , , count] = line.trim().split(/\s+/);
  console.log(JSON.stringify(time(Number(count))));
});
