/** A process to be killed or interrupted: does a job into a file and says on stdout when rows arrive. */
import { writeSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { Job } from '../../src/batch/job.ts';
import { createWorkerPool } from '../../src/batch/worker-pool.ts';
import { createInterrupt } from '../../src/batch/interrupt.ts';
import { runJob } from '../../src/batch/run.ts';
import { testEvaluators } from './evaluators.ts';

const [store = '', job = '', workers = '', worker = ''] = process.argv.slice(2);
const pool = createWorkerPool(pathToFileURL(worker), Number(workers));
await pool?.start();
const interrupt = createInterrupt(process, () => void writeSync(1, 'stopping'));
await interrupt.during(() =>
  runJob(JSON.parse(job) as Job, {
    evaluators: testEvaluators,
    tool: 'test 1',
    store,
    pool,
    poolFrom: 0,
    signal: interrupt.signal,
    onProgress: () => void writeSync(1, '.'),
  }),
);
await pool?.close();
process.exitCode = interrupt.code;
