// Bundles one TypeScript entry into one file for Node, the way `build/build.mjs` does it.
import { rolldown } from 'rolldown';

/**
 * @param {string} input
 * @param {string} file
 */
export async function bundle(input, file) {
  const made = await rolldown({ input, platform: 'node', tsconfig: false, logLevel: 'warn' });
  await made.write({ file, format: 'esm', minify: true });
  await made.close();
}
