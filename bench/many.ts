/**
 * A sweep of a given notebook into a file of rows, as the command does it, in this process alone: what it takes, and what memory it holds on the
 * way. Arguments: the notebook, whose last study is the sweep, and the file. Answers with one line of JSON. Run with --expose-gc.
 */
import { readFileSync } from 'node:fs';
import { evaluators } from '../src/batch/evaluators.ts';
import type { Job } from '../src/batch/job.ts';
import { runJob } from '../src/batch/run.ts';
import { runNotebookWith } from '../src/notebook/run.ts';

const [notebook = '', store = ''] = process.argv.slice(2);

/** How often the memory is looked at. */
const LOOKS = 10;

const jobs: Job[] = [];
await runNotebookWith(readFileSync(notebook, 'utf8'), { file: notebook }, async ask => {
  jobs.push(ask.job);
  return null;
});
const job = jobs.at(-1);
if (job === undefined) throw new Error(`${notebook} has no sweep`);

const heaps: number[] = [];
const residents: number[] = [];
const [start, before] = [performance.now(), process.cpuUsage().user];
await runJob(job, {
  evaluators,
  tool: 'bench',
  store,
  onProgress(done, total) {
    if (done < (total * (heaps.length + 1)) / LOOKS) return;
    globalThis.gc?.();
    const { heapUsed, rss } = process.memoryUsage();
    heaps.push(heapUsed / 1e6);
    residents.push(rss / 1e6);
  },
});
const user = (process.cpuUsage().user - before) / 1e6;
console.log(JSON.stringify({ rows: job.rows, seconds: (performance.now() - start) / 1000, user, heaps, residents }));
