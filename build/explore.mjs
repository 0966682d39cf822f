// Bundles tests/explore/ with the sources as they are and runs it; see `npm run explore -- --help`.
import { mkdtempSync, rmSync } from 'node:fs';
import { spawn } from 'node:child_process';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'axlewatt-explore-'));
const bundle = await rolldown({
  input: { explore: join(root, 'tests/explore/explore.ts'), worker: join(root, 'tests/explore/worker.ts') },
  external: ['piscina'],
  platform: 'node',
  tsconfig: false,
  resolve: { alias: { 'string-width': join(root, 'build/string-width.mjs') } },
  logLevel: 'warn',
});
await bundle.write({
  dir: folder,
  format: 'esm',
  entryFileNames: '[name].js',
  chunkFileNames: 'chunks/[name]-[hash].js',
});
await bundle.close();
const child = spawn(process.execPath, [join(folder, 'explore.js'), ...process.argv.slice(2)], { stdio: 'inherit' });
child.on('exit', code => {
  rmSync(folder, { recursive: true });
  process.exitCode = code ?? 1;
});
