// Integrators in other languages that a bench row holds ours against: how they are started, and with what they enter.
import { execFileSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { carHeader } from './car-header.mjs';
import { loosest } from './contest.mjs';
import { startWorker } from './worker.mjs';

const LIBRARIES = ['cvodes', 'nvecserial', 'sunmatrixdense', 'sunlinsoldense', 'sunnonlinsolfixedpoint'];

/** A method at the loosest tolerance that is good enough. Without `note` it must be there. */
export async function enter(worker, method, reference, note) {
  try {
    const found = await loosest(worker, method, reference);
    if (found === null) throw new Error(`${method} reaches the accuracy at no tolerance`);
    return { worker, ...found };
  } catch (error) {
    if (note === undefined) throw error;
    note(error.message);
    return null;
  }
}

/** Why there is none of that name: the first line of what it said. */
export function whyNot(name, error) {
  const said = String(error.stderr || error.message).trim();
  return `no ${name}: ${said.split('\n')[0]}`;
}

/** A worker; null, with a note why, where it can not be started. */
export async function started(name, start, note) {
  try {
    return await start();
  } catch (error) {
    note(whyNot(name, error));
    return null;
  }
}

/**
 * The launch in C, with a header of its own.
 * @param {{ root: string, temp: string, car: any, name?: string }} setting `car` as `parameters` tells it, `name` of the program
 */
export function startCvode({ root, temp, car, name = 'cvode' }) {
  const headers = join(temp, `${name}-headers`);
  mkdirSync(headers, { recursive: true });
  writeFileSync(join(headers, 'car.h'), carHeader(car));
  const program = join(temp, name);
  const libraries = LIBRARIES.map(library => `-lsundials_${library}`);
  const args = ['-O3', '-I', headers, join(root, 'bench/peer/cvode.c'), '-o', program, ...libraries, '-lm'];
  execFileSync('gcc', args, { stdio: 'pipe' });
  return startWorker(program, []);
}
