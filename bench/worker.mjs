// A process that answers one line with one line of JSON; see `launch.ts` for what is asked.
import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';

/**
 * @typedef {object} Worker
 * @property {(request: string) => Promise<any>} ask rejects when the process ends or answers anything but JSON
 * @property {() => void} close
 */

/**
 * @param {string} command
 * @param {string[]} args
 * @returns {Worker}
 */
export function startWorker(command, args) {
  const child = spawn(command, args, { stdio: ['pipe', 'pipe', 'pipe'] });
  let complaint = '';
  child.stderr.on('data', chunk => {
    complaint += chunk;
  });
  /** @type {{ resolve: (answer: any) => void, reject: (error: Error) => void }[]} */
  const waiting = [];
  /** @type {Error | null} */
  let gone = null;
  const end = reason => {
    const lines = complaint.trim().split('\n');
    gone ??= new Error(`${command}: ${lines.find(line => /Error/.test(line)) ?? (lines.at(-1) || reason)}`);
    for (const { reject } of waiting.splice(0)) reject(gone);
  };
  child.on('error', error => end(error.message));
  child.on('close', code => end(`ended with ${code}`));
  child.stdin.on('error', error => end(error.message));
  createInterface({ input: child.stdout }).on('line', line => {
    const next = waiting.shift();
    if (next === undefined) return;
    try {
      next.resolve(JSON.parse(line));
    } catch {
      next.reject(new Error(`${command} answered: ${line.slice(0, 200)}`));
    }
  });
  return {
    ask: request =>
      new Promise((resolve, reject) => {
        if (gone !== null) reject(gone);
        else {
          waiting.push({ resolve, reject });
          child.stdin.write(`${request}\n`);
        }
      }),
    close: () => child.stdin.end(),
  };
}
