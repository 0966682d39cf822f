/** The worker thread of `crew.ts`. */
import { createServer } from './evaluate.ts';
import { evaluators } from './evaluators.ts';

export default createServer(evaluators);
