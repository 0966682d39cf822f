// The small changes that the source can suffer, as Stryker's instrumenter finds them, and a sample drawn from them.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { Instrumenter } from '@stryker-mutator/instrumenter';

const silent = { isDebugEnabled: () => false, debug() {}, info() {}, warn() {} };

/** The instrumenter over files: every mutant of theirs, and their text with a count at each place. */
function instrument(files) {
  // Words are held by other tests; a message that changes is no physics.
  const options = { excludedMutations: ['StringLiteral'], ignorers: [], plugins: null };
  return new Instrumenter(silent).instrument(files, options);
}

/** All mutants of the sources in folders, in the order of the sources. */
export async function mutantsOf(folders) {
  const files = execFileSync('git', ['ls-files', ...folders], { encoding: 'utf8' }).split('\n');
  const sources = files.filter(name => name.endsWith('.ts'));
  const { mutants } = await instrument(
    sources.map(name => ({ name, content: readFileSync(name, 'utf8'), mutate: true })),
  );
  return mutants
    .filter(({ statusReason }) => statusReason === undefined)
    .map(({ fileName, location, mutatorName, replacement }) => ({ fileName, location, mutatorName, replacement }));
}

/** Numbers in [0, 1) that a seed gives, the same everywhere: mulberry32, public domain. */
function numbersOf(seed) {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** As many as asked, each with the same chance, none twice: the first steps of Fisher and Yates's shuffle. */
export function drawn(mutants, count, seed) {
  const left = [...mutants];
  const next = numbersOf(seed);
  const taken = Math.min(count, left.length);
  for (let i = 0; i < taken; i++) {
    const j = i + Math.floor(next() * (left.length - i));
    [left[i], left[j]] = [left[j], left[i]];
  }
  return left.slice(0, taken);
}

function offsetOf(text, { line, column }) {
  let start = 0;
  for (let i = 0; i < line; i++) start = text.indexOf('\n', start) + 1;
  return start + column;
}

/** The text of its file with the mutant in its place. */
export function mutated({ fileName, location, replacement }) {
  const text = readFileSync(fileName, 'utf8');
  return text.slice(0, offsetOf(text, location.start)) + replacement + text.slice(offsetOf(text, location.end));
}

/** What stands in the place of a mutant, in one line. */
export function original({ fileName, location }) {
  const text = readFileSync(fileName, 'utf8');
  return text.slice(offsetOf(text, location.start), offsetOf(text, location.end)).replace(/\s+/gu, ' ');
}

const isSame = (a, b) =>
  a.fileName === b.fileName &&
  a.mutatorName === b.mutatorName &&
  a.replacement === b.replacement &&
  JSON.stringify(a.location) === JSON.stringify(b.location);

/**
 * Files of the drawn mutants with a count at their places.
 * @returns text by file, and the number that each drawn mutant is counted under.
 */
export async function counted(sample) {
  const names = [...new Set(sample.map(({ fileName }) => fileName))];
  const ranges = name => sample.filter(({ fileName }) => fileName === name).map(({ location }) => location);
  const { files, mutants } = await instrument(
    names.map(name => ({ name, content: readFileSync(name, 'utf8'), mutate: ranges(name) })),
  );
  return {
    texts: Object.fromEntries(files.map(({ name, content }) => [name, content])),
    ids: sample.map(one => mutants.find(each => isSame(each, one))?.id),
  };
}
