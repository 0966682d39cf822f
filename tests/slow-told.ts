/** At the end of `npm test`: what was not among it. */
import { SLOW } from './slow.ts';

export function teardown(): void {
  if (!process.argv.includes('--project')) return;
  console.log(`Not among these: ${SLOW.length} files of slow proofs; npm run test:slow runs them.`);
}
