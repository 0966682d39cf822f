// The one-way import rule of src/: which folder may import which, and where node: modules are allowed.
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** What each layer may import besides itself. `foundation` stands for what every layer may use; `units` and `index` are single files. */
const MAY_IMPORT = {
  foundation: [],
  units: [],
  solvers: [],
  cycles: ['units'],
  model: ['units', 'solvers', 'cycles'],
  runs: ['units', 'solvers', 'cycles', 'model'],
  studies: ['units', 'solvers', 'cycles', 'model', 'runs'],
  batch: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies'],
  fit: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies'],
  plots: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'fit'],
  notebook: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'batch', 'fit', 'plots'],
  report: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'fit', 'plots', 'notebook'],
  live: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'batch', 'plots', 'notebook', 'report'],
  cli: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'batch', 'fit', 'plots', 'notebook', 'report'],
  doors: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'batch', 'fit', 'plots', 'notebook', 'report'],
  index: ['units', 'solvers', 'cycles', 'model', 'runs', 'studies', 'batch', 'fit', 'plots', 'notebook', 'report'],
};

/** What describes a car before anything is reckoned: every room of the model stands on it. */
const GROUND = ['effort', 'car', 'gravity', 'air', 'fields', 'tables'];
/** What is said about each part of a car. */
const FIELDS = ['tyre/fields', 'drive/fields', 'pack/fields'];

/** What a car that moves is reckoned from: nothing that a user writes, nothing that ships. */
const PHYSICS = [
  'effort',
  'car',
  'gravity',
  'air',
  'tables',
  'drive/efficiency-map',
  'tyre',
  'drive',
  'pack',
  'cabin',
  'body',
];

/** Forces of a car that stands or keeps its speed: a launch asks for them, and a sheet for launches. */
const BALANCES = ['sheet/balance', 'sheet/top-speed', 'sheet/hill'];
/** What every question to a car is answered with. */
const ANSWER = [
  'result',
  'summaries',
  'output',
  'column',
  'trace-times',
  'series',
  'found',
  'overrun',
  'trailing-wheels',
  'starved',
  'sound',
  'no-answer',
  'kind',
  'options',
  'rules',
  'checked-car',
  'variant',
  'soaked',
  'doubts',
  'trail',
  'duty/currents',
];

/**
 * The rooms of a layer: a folder, or a file where one stands apart from the others of its folder, and what each may import of its
 * own layer besides itself. A layer that is not here has no rooms.
 */
export const ROOMS = {
  model: {
    effort: [],
    gravity: [],
    air: [],
    fields: [],
    tables: [],
    'drive/efficiency-map': ['tables'],
    car: ['drive/efficiency-map', 'surroundings', 'consumers'],
    consumers: [],
    surroundings: [],
    'tyre/fields': ['fields'],
    'pack/fields': ['fields'],
    'drive/map-fields': ['fields'],
    'drive/fields': ['fields', 'drive/map-fields'],
    specs: [],
    'parts/part': ['fields', 'specs'],
    tyre: [...GROUND, 'tyre/fields', 'parts/part'],
    'pack/cell-table': GROUND,
    'pack/voltage-window': [...GROUND, 'pack/cell-table'],
    drive: [...GROUND, 'drive/fields', 'drive/map-fields', 'drive/efficiency-map', 'pack/voltage-window', 'parts/part'],
    pack: [...GROUND, 'pack/fields', 'pack/cell-table', 'pack/voltage-window', 'parts/part'],
    'cabin/fields': ['fields'],
    cabin: [...GROUND, 'cabin/fields', 'parts/part'],
    'body/road-load-fields': ['fields'],
    'body/trailer-fields': ['fields'],
    body: [...GROUND, 'tyre', 'spec', 'body/road-load-fields', 'body/trailer-fields'],
    parts: ['parts/part', 'fields', 'tyre', 'drive', 'pack', 'cabin'],
    described: ['complete', 'body', 'specs', 'parts', 'parts/part', 'fields', 'spec', 'drive'],
    'surroundings-fields': ['fields'],
    spec: ['fields', ...FIELDS, 'cabin/fields', 'body/road-load-fields', 'body/trailer-fields'],
    complete: [...GROUND, 'tyre', 'drive', 'pack', 'cabin', 'cabin/fields', 'body', 'spec', 'surroundings-fields'],
    duty: [...GROUND, 'pack', 'tyre', 'body', 'spec'],
    forward: PHYSICS,
    backward: [...PHYSICS, 'forward'],
  },
  runs: {
    ...Object.fromEntries(
      ['trail', 'variant', 'rules', 'overrun', 'trailing-wheels', 'found', 'starved', 'trace-times'].map(room => [
        room,
        [],
      ]),
    ),
    'checked-car': ['rules'],
    options: ['rules', 'checked-car'],
    result: ['trail'],
    summaries: [],
    series: ['result'],
    output: ['result'],
    column: ['result'],
    doubts: ['result'],
    plausible: ['result'],
    sound: ['result', 'plausible'],
    'no-answer': ['result', 'sound'],
    kind: ['result', 'sound'],
    soaked: ['kind'],
    'duty/currents': ['result', 'output', 'kind', 'trail'],
    'launch/marks': [],
    'launch/shift-points': ['sheet/balance', 'variant'],
    'launch/run': ['overrun', 'trailing-wheels', 'launch/marks', 'launch/shift-points'],
    ledger: ['result', 'launch/run'],
    'second-opinion': ['result', 'ledger', 'launch/run', 'launch/marks'],
    'sheet/balance': ['starved', 'variant'],
    'sheet/top-speed': ['overrun', 'trailing-wheels', 'sheet/balance'],
    'sheet/hill': ['sheet/balance', 'options', 'variant'],
    'sheet/hold-speed': ['trailing-wheels', 'options', 'rules', 'variant'],
    launch: [...ANSWER, 'launch/marks', 'launch/run', 'ledger', 'second-opinion', ...BALANCES],
    sheet: [
      ...ANSWER,
      'sheet/hold-speed',
      'trail',
      'launch',
      'launch/marks',
      'launch/run',
      'second-opinion',
      ...BALANCES,
    ],
    charge: [...ANSWER, 'second-opinion'],
    coast: [...ANSWER, 'second-opinion'],
    schedule: [...ANSWER, 'ledger', 'charge'],
    trip: [...ANSWER, 'schedule', 'second-opinion', 'sheet/hold-speed'],
    standard: [...ANSWER, 'schedule', 'trip'],
    weigh: ANSWER,
    duty: ANSWER,
    kinds: ['kind', 'launch', 'sheet', 'charge', 'coast', 'trip', 'standard', 'duty'],
    answer: ['sound', 'kind', 'kinds', 'options', 'rules'],
    askers: [...ANSWER, 'launch', 'launch/run', 'trip', 'schedule'],
    lean: [...ANSWER, 'duty/currents', 'launch', 'launch/run', 'trip', 'schedule'],
  },
  studies: {
    question: [],
    sampling: ['question'],
    statistics: ['question', 'sampling'],
    search: ['question', 'sampling', 'statistics'],
    answers: ['question', 'sampling', 'statistics', 'search'],
  },
};

/** How certain a number is, the readers of columns, the elementary functions: they import nothing, and every layer may use them. */
const FOUNDATION = ['model/fields/input.ts', 'columns.ts', 'elementary.ts'];

/** Layers that run in a browser as they are. */
const BROWSER = new Set([
  'foundation',
  'units',
  'solvers',
  'cycles',
  'model',
  'runs',
  'studies',
  'fit',
  'plots',
  'live',
]);

/** Static imports, re-exports, dynamic imports and type imports with a literal specifier. */
const SPECIFIER = /(?:\bfrom\s*|\bimport\s*\(\s*|\bimport\s+)(['"])([^'"\n]+)\1/g;

/** Layer of a path inside src/: its first folder, or the file's own name for files at the top. */
function layerOf(path) {
  if (FOUNDATION.includes(path)) return 'foundation';
  return path.split(sep)[0].replace(/\.ts$/, '');
}

/** Room of a path inside its layer; '' where it has none. */
export function roomOf(path, layer) {
  const inside = path.slice(layer.length + 1).replace(/\.ts$/, '');
  const known = Object.keys(ROOMS[layer] ?? {}).filter(room => inside === room || inside.startsWith(`${room}/`));
  return known.toSorted((a, b) => b.length - a.length)[0] ?? '';
}

/** What is wrong with an import inside a layer; '' where nothing is. */
function wrongRoom(path, target, layer) {
  const [room, other] = [roomOf(path, layer), roomOf(target, layer)];
  if (ROOMS[layer] === undefined || other === room || other === '' || room === '') return '';
  return ROOMS[layer][room].includes(other) ? '' : `in "${layer}", "${room}" may not import "${other}"`;
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
    if (ROOMS[layer] !== undefined && roomOf(path, layer) === '') {
      found.push(`src/${path}:1: has no room in "${layer}": say in build/imports.mjs what it may import`);
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
        else if (other !== layer && other !== 'foundation' && !allowed.includes(other)) {
          found.push(`${place}"${layer}" may not import "${other}" (${specifier})`);
        } else if (other === layer && wrongRoom(path, target, layer) !== '') {
          found.push(`${place}${wrongRoom(path, target, layer)} (${specifier})`);
        } else if (!specifier.endsWith('.ts')) found.push(`${place}relative imports end in .ts: "${specifier}"`);
      }
    }
  }
  return found;
}

/** A journey and what it carries along know each other: its record, its memory and its excursions are told by the journey itself. */
const MAY_CIRCLE = new Set(['runs/schedule/journey.ts']);

/**
 * Every circle of files that import one another, types too: none of them could be understood, moved or tested alone.
 * @param {{path: string, text: string}[]} files paths relative to src/
 * @returns {string[]} `src/path:1: circle of imports: path, path, ...`
 */
export function circles(files) {
  const known = new Set(files.map(({ path }) => path));
  const imports = new Map(
    files.map(({ path, text }) => [
      path,
      [...withoutComments(text).matchAll(SPECIFIER)]
        .map(match => relative(resolve('/src'), resolve('/src', dirname(path), match[2])))
        .filter(target => known.has(target) && !MAY_CIRCLE.has(target)),
    ]),
  );
  const reached = new Map();
  for (const path of known) {
    const seen = new Set();
    const next = [...imports.get(path)];
    while (next.length > 0) {
      const target = next.pop();
      if (seen.has(target)) continue;
      seen.add(target);
      next.push(...imports.get(target));
    }
    reached.set(path, seen);
  }
  const told = new Set();
  return [...known].flatMap(path => {
    if (told.has(path) || !reached.get(path).has(path)) return [];
    const circle = [...known].filter(other => reached.get(path).has(other) && reached.get(other).has(path));
    for (const other of circle) told.add(other);
    return [`src/${path}:1: circle of imports: ${circle.join(', ')}`];
  });
}

/** Layers whose numbers a page and the command share to the last bit. */
const SAME_BITS = new Set(['solvers', 'cycles', 'model', 'runs', 'studies', 'fit']);
/** What each engine rounds in its own way. Square roots IEEE 754 rounds; `log2` and `log10` only choose whole numbers. */
const ENGINES_OWN = /\bMath\.(?:a?(?:sin|cos|tan)h?|atan2|cbrt|exp|expm1|hypot|log|log1p|pow)\b/g;

/**
 * Elementary functions of the engine where those of `elementary.ts` belong.
 * @param {{path: string, text: string}[]} files paths relative to src/
 * @returns {string[]} `src/path:line: what is wrong`
 */
export function engineFunctions(files) {
  return files
    .filter(({ path }) => SAME_BITS.has(layerOf(path)))
    .flatMap(({ path, text }) => {
      const code = withoutComments(text);
      return [...code.matchAll(ENGINES_OWN)].map(
        ({ 0: name, index }) =>
          `src/${path}:${code.slice(0, index).split('\n').length}: ${name} differs from engine to engine: take that of elementary.ts`,
      );
    });
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
  const files = sources(fileURLToPath(new URL('../src', import.meta.url)));
  const found = [...breaches(files), ...circles(files), ...engineFunctions(files)];
  for (const breach of found) console.error(breach);
  process.exitCode = found.length === 0 ? 0 : 1;
}
