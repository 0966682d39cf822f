// Imports a TypeScript module of this tree: it is bundled to a folder of its own, imported and forgotten.
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { rolldown } from 'rolldown';

export const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));

/** @param {string} module path below the root. */
export async function bundled(module) {
  const folder = await mkdtemp(path.join(tmpdir(), 'axlewatt-'));
  try {
    const bundle = await rolldown({ tsconfig: false, input: path.join(root, module), platform: 'node', cwd: root });
    await bundle.write({ dir: folder, format: 'esm', entryFileNames: 'main.mjs', chunkFileNames: '[name].mjs' });
    await bundle.close();
    return await import(pathToFileURL(path.join(folder, 'main.mjs')).href);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
