/** The worker thread of `worker-pool.ts`. */
import { createServer } from './evaluate.ts';
import { evaluators } from './evaluators.ts';

export default createServer(evaluators);
