// The command with the counts and switches of drawn mutants in it, for tests that call it: __STRYKER_ACTIVE_MUTANT__ chooses one.
import { cpSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Needs `npm run build`, for what stands beside the code. @returns the file that the host of the tests loads. */
export async function builtWith(texts, folder) {
  const place = join(root, folder, 'built');
  const main = join(place, 'dist/cli/main.mjs');
  if (existsSync(main)) return main;
  cpSync(join(root, 'dist/cli'), join(place, 'dist/cli'), { recursive: true });
  writeFileSync(join(place, 'package.json'), readFileSync(join(root, 'package.json')));
  const bundle = await rolldown({
    input: {
      'batch-worker': join(root, 'src/batch/worker.ts'),
      'render-worker': join(root, 'src/report/page/render-worker.ts'),
      main: join(root, 'src/cli/main.ts'),
    },
    external: ['piscina'],
    platform: 'node',
    tsconfig: false,
    resolve: { alias: { 'string-width': join(root, 'build/string-width.mjs') } },
    plugins: [
      {
        name: 'mutants',
        load(id) {
          const text = texts[relative(root, id)];
          return text === undefined ? null : { code: text, moduleType: 'ts' };
        },
      },
    ],
    logLevel: 'silent',
  });
  await bundle.write({
    dir: join(place, 'dist/cli'),
    format: 'esm',
    entryFileNames: '[name].mjs',
    chunkFileNames: 'chunks/[name]-[hash].mjs',
  });
  await bundle.close();
  return main;
}
