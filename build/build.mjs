// Builds dist/: the library with its types (tsc), and the command line in minified chunks that load on demand (rolldown).
import { spawnSync } from 'node:child_process';
import { chmodSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';

const root = fileURLToPath(new URL('..', import.meta.url));
const dist = join(root, 'dist');
rmSync(dist, { recursive: true, force: true });

const require = createRequire(import.meta.url);
const { bin } = JSON.parse(readFileSync(require.resolve('typescript/package.json'), 'utf8'));
const tsc = join(dirname(require.resolve('typescript/package.json')), bin.tsc);
const types = spawnSync(process.execPath, [tsc, '-p', join(root, 'tsconfig.lib.json')], { stdio: 'inherit' });
if (types.status !== 0) process.exit(types.status ?? 1);

const bundle = await rolldown({
  input: {
    axlewatt: join(root, 'src/cli/axlewatt.ts'),
    'batch-worker': join(root, 'src/batch/worker.ts'),
    'render-worker': join(root, 'src/report/page/render-worker.ts'),
  },
  // It starts its threads from a file beside its own code.
  external: ['piscina'],
  platform: 'node',
  // Its `paths` are for types only: the bundle needs odex itself.
  tsconfig: false,
  resolve: { alias: { 'string-width': join(root, 'build/string-width.mjs') } },
  logLevel: 'warn',
});
await bundle.write({
  dir: join(dist, 'cli'),
  format: 'esm',
  minify: true,
  entryFileNames: '[name].js',
  chunkFileNames: 'chunks/[name]-[hash].js',
  banner: chunk => (chunk.isEntry && chunk.name === 'axlewatt' ? '#!/usr/bin/env node' : ''),
});
await bundle.close();
chmodSync(join(dist, 'cli/axlewatt.js'), 0o755);
