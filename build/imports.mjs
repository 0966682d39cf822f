// The one-way import rule of src/: which folder may import which, and where node: modules are allowed.
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** What each layer may import besides itself. `units` and `index` are single files. */
const MAY_IMPORT = {
  quantity: [],
  units: [],
  solvers: [],
  cycles: [],
  model: ['units', 'solvers', 'cycles'],
  runs: ['units', 'solvers', 'cycles', 'model'],
  studies: ['units', 'solvers', 'cycles', 'model', 'runs'],
  batch: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies'],
  fit: ['units', 'solvers', 'cycles', 'model', 'runs'],
  plots: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'fit'],
  notebook: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'batch', 'fit', 'plots'],
  report: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'fit', 'plots', 'notebook'],
  cli: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'batch', 'fit', 'plots', 'notebook', 'report'],
  index: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'batch', 'fit', 'plots', 'notebook', 'report'],
};

/** Plain types that say how certain a number is: they import nothing, and every layer may use them. */
const FOUNDATION = 'model/fields/input.ts';

/** Layers that run in a browser as they are. */
const BROWSER = new Set(['quantity', 'units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'fit', 'plots']);

/** Static imports, re-exports, dynamic imports and type imports with a literal specifier. */
const SPECIFIER = /(?:\bfrom\s*|\bimport\s*\(\s*|\bimport\s+)(['"])([^'"\n]+)\1/g;

/** Layer of a path inside src/: its first folder, or the file's own name for files at the top. */
function layerOf(path) {
  if (path === FOUNDATION) return 'quantity';
  return path.split(sep)[0].replace(/\.ts$/, '');
}

/** Comments may quote an import without making one; the line count stays. */
function withoutComments(text) {
  return text.replace(/\/\*[\s\S]*?\*\//g, found => found.replace(/[^\n]/g, ' ')).replace(/(^|\s)\/\/.*$/gm, '$1');
}

/**
 * Every breach of the rule in the files given.
 * @param {{path: string, text: string}[]} files paths relative to src/
 * @returns {string[]} `src/path:line: what is wrong`
 */
export function breaches(files) {
  const found = [];
  for (const { path, text } of files) {
    const layer = layerOf(path);
    const allowed = MAY_IMPORT[layer];
    if (allowed === undefined) {
      found.push(`src/${path}:1: "${layer}" is no layer; known: ${Object.keys(MAY_IMPORT).join(', ')}`);
      continue;
    }
    const code = withoutComments(text);
    for (const match of code.matchAll(SPECIFIER)) {
      const specifier = match[2];
      const place = `src/${path}:${code.slice(0, match.index).split('\n').length}: `;
      if (specifier.startsWith('node:')) {
        if (BROWSER.has(layer)) found.push(`${place}"${layer}" runs in a browser and may not import "${specifier}"`);
      } else if (specifier.startsWith('.')) {
        const target = relative(resolve('/src'), resolve('/src', dirname(path), specifier));
        const other = layerOf(target);
        if (target.startsWith('..')) found.push(`${place}imports "${specifier}" from outside src`);
        else if (other !== layer && other !== 'quantity' && !allowed.includes(other)) {
          found.push(`${place}"${layer}" may not import "${other}" (${specifier})`);
        } else if (!specifier.endsWith('.ts')) found.push(`${place}relative imports end in .ts: "${specifier}"`);
      }
    }
  }
  return found;
}

/** All TypeScript files below `folder`, with paths relative to it. */
export function sources(folder) {
  return readdirSync(folder, { recursive: true })
    .map(String)
    .filter(path => path.endsWith('.ts'))
    .toSorted()
    .map(path => ({ path, text: readFileSync(join(folder, path), 'utf8') }));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const found = breaches(sources(fileURLToPath(new URL('../src', import.meta.url))));
  for (const breach of found) console.error(breach);
  process.exitCode = found.length === 0 ? 0 : 1;
}
