// Builds dist/: the library with its types (tsc), the command line in minified chunks that load on demand, and what a page with
// knobs carries (rolldown).
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmodSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { rolldown } from 'rolldown';
import { notices } from './notices.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const dist = join(root, 'dist');
rmSync(dist, { recursive: true, force: true });

const require = createRequire(import.meta.url);
const { bin } = JSON.parse(readFileSync(require.resolve('typescript/package.json'), 'utf8'));
const tsc = join(dirname(require.resolve('typescript/package.json')), bin.tsc);
const types = spawnSync(process.execPath, [tsc, '-p', join(root, 'tsconfig.lib.json')], { stdio: 'inherit' });
if (types.status !== 0) process.exit(types.status ?? 1);

// Types stay as tsc made them, one a module; of the code each door is a bundle, which shares what it has in common with the others.
for (const name of readdirSync(join(dist, 'lib'), { recursive: true }).map(String)) {
  if (name.endsWith('.js')) rmSync(join(dist, 'lib', name));
}
const doors = readdirSync(join(root, 'src/doors')).map(name => name.replace(/\.ts$/u, ''));
const library = await rolldown({
  input: {
    index: join(root, 'src/index.ts'),
    ...Object.fromEntries(doors.map(name => [`doors/${name}`, join(root, `src/doors/${name}.ts`)])),
  },
  platform: 'node',
  tsconfig: false,
  logLevel: 'warn',
});
const { output: inLibrary } = await library.write({
  dir: join(dist, 'lib'),
  format: 'esm',
  entryFileNames: '[name].js',
  chunkFileNames: 'chunks/[name]-[hash].js',
});
await library.close();

// For browsers, one file a module: their packers leave out what is not used, which they can not in a bundle.
const modules = await rolldown({
  input: Object.fromEntries([
    ['index', join(root, 'src/index.ts')],
    ...['fit', 'lean', 'solvers', 'studies'].map(name => [`doors/${name}`, join(root, `src/doors/${name}.ts`)]),
  ]),
  platform: 'browser',
  tsconfig: false,
  treeshake: { moduleSideEffects: false },
  logLevel: 'warn',
});
const { output: inModules } = await modules.write({
  dir: join(dist, 'modules'),
  format: 'esm',
  preserveModules: true,
  // A folder of the other name would be left out of the package.
  entryFileNames: ({ name }) => `${name.replaceAll('node_modules/', 'libraries/').replace(/^src\//u, '')}.js`,
});
await modules.close();
// Empty imports keep an order of side effects that nothing here has, and packers complain of them.
for (const name of readdirSync(join(dist, 'modules'), { recursive: true }).map(String)) {
  if (!name.endsWith('.js')) continue;
  const file = join(dist, 'modules', name);
  const code = readFileSync(file, 'utf8');
  const kept = code.replaceAll(/^import ["'][^"']+["'];\n/gmu, '');
  if (kept !== code) writeFileSync(file, kept);
}

const bundle = await rolldown({
  input: {
    main: join(root, 'src/cli/main.ts'),
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
const { output: inCommand } = await bundle.write({
  dir: join(dist, 'cli'),
  format: 'esm',
  minify: true,
  entryFileNames: '[name].mjs',
  chunkFileNames: 'chunks/[name]-[hash].mjs',
});
await bundle.close();
// What is called is no module: Node starts a quarter sooner without its loader of modules, and the help needs nothing more.
const door = await rolldown({
  input: join(root, 'src/cli/axlewatt.ts'),
  platform: 'node',
  tsconfig: false,
  logLevel: 'warn',
});
await door.write({
  dir: join(dist, 'cli'),
  format: 'cjs',
  minify: true,
  entryFileNames: '[name].js',
  banner: '#!/usr/bin/env node',
});
await door.close();
writeFileSync(join(dist, 'cli/package.json'), '{ "type": "commonjs" }\n');
chmodSync(join(dist, 'cli/axlewatt.js'), 0o755);

// Its help is written down, so that saying it takes no longer than reading it.
const { HELP_WIDTHS, main } = await import(join(dist, 'cli/main.mjs'));
for (const width of HELP_WIDTHS) {
  const written = { out: text => writeFileSync(join(dist, `cli/help-${width}.txt`), `${text}\n`), width };
  if ((await main(['--help'], written)) !== 0) process.exit(1);
}

/** A script for a browser, whole in one file; nothing of Node may be left in it. */
async function script(entry, made) {
  const live = await rolldown({
    input: join(root, entry),
    platform: 'browser',
    tsconfig: false,
    logLevel: 'silent',
  });
  const { output } = await live.generate({ format: 'iife', minify: true });
  await live.close();
  made.push(output);
  const [chunk] = output;
  if (output.length !== 1 || chunk.imports.length > 0 || /['"`]node:|<\/script/u.test(chunk.code)) {
    throw new Error(`${entry} is no script for a page: ${chunk.imports.join(', ')}`);
  }
  return chunk.code;
}

// What a page carries.
const inPages = [];
// The time is left out of the header, so that the same source gives the same bytes.
writeFileSync(
  join(dist, 'cli/live-engine.txt'),
  gzipSync(await script('src/live/worker.ts', inPages), { level: 9 }).toString('base64'),
);
writeFileSync(join(dist, 'cli/live-page.js'), await script('src/live/page.ts', inPages));
writeFileSync(join(dist, 'cli/pictures-page.js'), await script('src/live/pictures.ts', inPages));
writeFileSync(join(dist, 'cli/open-page.js'), await script('src/live/open.ts', inPages));

writeFileSync(join(dist, 'cli/live-notices.txt'), notices(inPages));
writeFileSync(join(dist, 'NOTICES.txt'), notices([inLibrary, inModules, inCommand, ...inPages]));

// What the command keeps of its runs is known by the build that made it.
const digest = createHash('sha256');
for (const name of readdirSync(join(dist, 'cli'), { recursive: true }).map(String).toSorted()) {
  if (/\.m?js$/u.test(name)) digest.update(name).update(readFileSync(join(dist, 'cli', name)));
}
writeFileSync(join(dist, 'cli/build-id'), `${digest.digest('hex').slice(0, 16)}\n`);
