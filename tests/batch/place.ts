/** Folders and bundles for tests that need files, threads or other processes. */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';
import { afterAll } from 'vitest';
import type { Job } from '../../src/batch/job.ts';
import type { RunOptions } from '../../src/batch/run.ts';
import { testEvaluators } from './evaluators.ts';

/** A folder that goes when the tests of the file are done; gives the path of a file in it. */
export function testFolder(): (name: string) => string {
  const folder = mkdtempSync(join(tmpdir(), 'axlewatt-batch-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  return name => join(folder, name);
}

/** Gives a function that bundles a TypeScript file beside this one; below node_modules, where it finds packages. */
export function testBundles(): (name: string) => Promise<string> {
  const cache = fileURLToPath(new URL('../../node_modules/.axlewatt', import.meta.url));
  mkdirSync(cache, { recursive: true });
  const folder = mkdtempSync(join(cache, 'batch-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  return async name => {
    const input = fileURLToPath(new URL(`./${name}.ts`, import.meta.url));
    const made = await rolldown({ input, platform: 'node', tsconfig: false, external: ['piscina'], logLevel: 'warn' });
    const file = join(folder, `${name}.mjs`);
    await made.write({ file, format: 'esm' });
    await made.close();
    return file;
  };
}

export const mix = (rows: number, payload: Job['payload'] = { seed: 1 }): Job => ({
  kind: 'mix',
  payload,
  rows,
  columns: ['row number', 'a', 'b'],
});

/** In this thread alone. */
export const here: RunOptions = { evaluators: testEvaluators, tool: 'test 1' };
