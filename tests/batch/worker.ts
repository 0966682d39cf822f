/** Worker thread with the evaluators of the tests. */
import { createServer } from '../../src/batch/evaluate.ts';
import { testEvaluators } from './evaluators.ts';

export default createServer(testEvaluators);
