import { spawnSync } from 'node:child_process';

/**
 * Wall-clock seconds of one Node process; throws with what it complained about if it fails.
 * @param {string[]} args
 */
export function secondsOf(args) {
  const start = performance.now();
  const { status, error, stderr } = spawnSync(process.execPath, args, { stdio: 'pipe', encoding: 'utf8' });
  const seconds = (performance.now() - start) / 1000;
  if (error !== undefined) throw error;
  if (status !== 0) throw new Error(`${args.join(' ')} ended with ${status}: ${stderr.trim().split('\n')[0]}`);
  return seconds;
}
