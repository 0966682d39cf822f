// Looks at the package as those see it who install it: its manifest, its types, and what packers for browsers make of it. Needs `npm run build`.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { checkPackage, createPackageFromTarballData } from '@arethetypeswrong/core';
import { build as esbuild } from 'esbuild';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import { rolldown } from 'rolldown';
import { build as vite } from 'vite';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
const folder = mkdtempSync(join(tmpdir(), 'axlewatt-package-'));
const wrong = [];

/** What programs for a browser import, and how many bytes that may be at most, minified and by gzip: what it is, and a few hundredths more. */
const PROGRAMS = [
  { name: 'launch and range, lean', of: ['launch', 'range'], from: 'axlewatt/lean', most: 95_000 },
  { name: 'launch and range', of: ['launch', 'range'], most: 112_000 },
  {
    name: 'with a car from its description',
    of: ['completeCar', 'completeSurroundings', 'launch', 'range'],
    most: 145_000,
  },
  { name: 'weigh', of: ['completeLedger', 'weigh'], most: 30_000, without: /createUnitClass|isValuelessUnit/u },
];

/**
 * Its CommonJS users get modules: Node from 20.19 on loads them by require, and nothing older is supported. The resolution of Node 10 knows
 * nothing of doors, and compilers have given it up.
 */
const isMeant = ({ kind, resolutionKind }) => kind === 'CJSResolvesToESM' || resolutionKind === 'node10';

async function manifests() {
  const { messages } = await publint({ pkgDir: root, strict: true });
  for (const message of messages) wrong.push(`publint: ${formatMessage(message, manifest)}`);
}

async function types() {
  const packed = execFileSync('npm', ['pack', '--ignore-scripts', '--json', '--pack-destination', folder], {
    cwd: root,
  });
  const [{ filename, size }] = JSON.parse(packed.toString());
  console.log(`the package: ${size} bytes`);
  const { problems = [] } = await checkPackage(createPackageFromTarballData(readFileSync(join(folder, filename))));
  for (const problem of problems) if (!isMeant(problem)) wrong.push(`types: ${JSON.stringify(problem)}`);
}

/** Types of this package alone, looked into, without those of Node. */
function strictTypes() {
  const program = `import { completeCar, launch } from 'axlewatt';\nimport * as studies from 'axlewatt/studies';
import * as fit from 'axlewatt/fit';\nimport * as solvers from 'axlewatt/solvers';\nimport * as notebook from 'axlewatt/notebook';
import * as report from 'axlewatt/report';\nimport * as lean from 'axlewatt/lean';
export { completeCar, fit, launch, lean, notebook, report, solvers, studies };\n`;
  writeFileSync(join(folder, 'types.ts'), program);
  const options = {
    module: 'nodenext',
    target: 'es2022',
    lib: ['es2023'],
    types: [],
    skipLibCheck: false,
    strict: true,
    noEmit: true,
  };
  writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify({ compilerOptions: options, files: ['types.ts'] }));
  try {
    execFileSync(process.execPath, [join(root, 'node_modules/typescript/bin/tsc'), '-p', folder], { cwd: folder });
  } catch (error) {
    wrong.push(`types without those of Node:\n${String(error.stdout)}`);
  }
}

/** One packer each: an entry in, the code and what it complained of out. */
const PACKERS = {
  async esbuild(entry) {
    const { outputFiles, warnings } = await esbuild({
      entryPoints: [entry],
      bundle: true,
      minify: true,
      format: 'esm',
      platform: 'browser',
      write: false,
      logLevel: 'silent',
    });
    return { code: outputFiles[0].text, warnings: warnings.map(({ text }) => text) };
  },
  async rolldown(entry) {
    const warnings = [];
    const bundle = await rolldown({
      input: entry,
      platform: 'browser',
      onLog: (level, { message }) => void (level === 'warn' && warnings.push(message)),
    });
    const { output } = await bundle.generate({ format: 'esm', minify: true });
    await bundle.close();
    return { code: output[0].code, warnings };
  },
  async vite(entry) {
    const warnings = [];
    const { output } = await vite({
      root: folder,
      configFile: false,
      logLevel: 'silent',
      build: {
        write: false,
        minify: true,
        rolldownOptions: {
          input: entry,
          onLog: (level, { message }) => void (level === 'warn' && warnings.push(message)),
        },
      },
    });
    return { code: output[0].code, warnings };
  },
};

async function bundles() {
  for (const { name, of, from = 'axlewatt', most, without } of PROGRAMS) {
    const entry = join(folder, `${name.replaceAll(/\W+/gu, '-')}.mjs`);
    writeFileSync(entry, `import { ${of.join(', ')} } from '${from}';\nglobalThis.axlewatt = { ${of.join(', ')} };\n`);
    for (const [packer, pack] of Object.entries(PACKERS)) {
      const { code, warnings } = await pack(entry);
      const bytes = gzipSync(code, { level: 9 }).length;
      console.log(`${name}, ${packer}: ${bytes} bytes by gzip of ${code.length}`);
      for (const warning of warnings) wrong.push(`${name}, ${packer}: ${warning}`);
      if (bytes > most) wrong.push(`${name}, ${packer}: ${bytes} bytes by gzip are more than ${most}`);
      if (/["'`]node:/u.test(code)) wrong.push(`${name}, ${packer}: asks for a module of Node`);
      if (without?.test(code)) wrong.push(`${name}, ${packer}: has the parser of units in it`);
    }
  }
}

try {
  mkdirSync(join(folder, 'node_modules'));
  symlinkSync(root, join(folder, 'node_modules/axlewatt'));
  await manifests();
  await types();
  strictTypes();
  await bundles();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
for (const each of wrong) console.error(each);
process.exitCode = wrong.length === 0 ? 0 : 1;
