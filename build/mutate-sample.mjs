// Draws mutants at random over the core and asks for each whether a quick test that reaches it fails:
//   npm run mutate -- --sample 200 --seed 1 [--minutes 4] [--budget 45]
// Goes on where it ended, until all are asked; tells the score of each folder and every mutant that lived. docs/MUTATION.md keeps the scores.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { relative } from 'node:path';
import { counted, drawn, mutantsOf, mutated, original } from './mutants.mjs';

const CORE = ['src/model', 'src/solvers', 'src/runs'];
/** Folders of tests that call the sources in their own process; those through the built command never see a mutant. */
const ASKED = ['model', 'solvers', 'runs', 'studies', 'cycles', 'fit', 'notebook', 'plots', 'report', 'published'].map(
  name => `tests/${name}`,
);
/** Seconds of processor for the tests nearest to a mutant, which come first: most mutants die there. */
const FIRST = 8;

/** Runs tests under a limit of processor seconds, which is the same on a machine that is busy with other things. */
function runTests(files, { environment, seconds, wall, folder, bail = 1 }) {
  const report = `${folder}/report.json`;
  rmSync(report, { force: true });
  const command = `ulimit -t ${Math.ceil(seconds)}; exec "$0" "$@"`;
  const vitest = [
    'node_modules/vitest/vitest.mjs',
    'run',
    '--config',
    'build/vitest.mutate.config.mjs',
    '--pool',
    'threads',
  ];
  const more = ['--maxWorkers', '1', '--bail', String(bail), '--testTimeout', '600000', '--hookTimeout', '600000'];
  const told = ['--reporter', 'json', '--outputFile', report];
  const { status, signal } = spawnSync('sh', ['-c', command, process.execPath, ...vitest, ...more, ...told], {
    env: { ...process.env, ...environment, MUTATE_TESTS: files.join(',') },
    stdio: 'ignore',
    timeout: wall * 1000,
    killSignal: 'SIGKILL',
  });
  return { status, signal, report: existsSync(report) ? JSON.parse(readFileSync(report, 'utf8')) : undefined };
}

function firstFailed(report) {
  const failed = report?.testResults.find(({ status }) => status === 'failed');
  if (failed === undefined) return 'no test told why';
  const test = failed.assertionResults.find(({ status }) => status === 'failed');
  return `${relative(process.cwd(), failed.name)}: ${test?.fullName ?? failed.message.split('\n')[0]}`;
}

/** Tests that reach a mutant, those beside it and those that take little first. */
function testsOf(mutant, index, reach) {
  const path = name =>
    relative(process.cwd(), name)
      .replace(/\.test\.ts$|\.ts$/u, '')
      .split('/')
      .slice(1);
  const wanted = path(mutant.fileName);
  const near = name => {
    const own = path(name);
    let shared = 0;
    while (shared < own.length && own[shared] === wanted[shared]) shared++;
    return shared;
  };
  const sound = reach.filter(({ failed }) => !failed);
  const reaching = sound.filter(({ reached }) => mutant.id !== undefined && reached.includes(mutant.id));
  // What a module does when it is read happens in the first test of a process that asks for it: who else depends on it is not known.
  const asked =
    reaching.length > 1 ? reaching : [...new Set([...reaching, ...sound.filter(({ file }) => near(file) > 1)])];
  const cost = ({ file, seconds }) => seconds / 4 ** near(file);
  return asked.toSorted((a, b) => cost(a) - cost(b));
}

const named = (name, usual) => {
  const at = process.argv.indexOf(name);
  return at < 0 ? usual : Number(process.argv[at + 1]);
};

export async function mutateSample() {
  const [count, seed] = [named('--sample', 100), named('--seed', 1)];
  const until = Date.now() + named('--minutes', 4) * 60_000;
  const folder = `out/mutants/${count}-${seed}`;
  mkdirSync(folder, { recursive: true });
  const kept = `${folder}/sample.json`;
  if (!existsSync(kept)) await draw(count, seed, folder, kept);
  const state = JSON.parse(readFileSync(kept, 'utf8'));
  const moved = state.mutants.find(mutant => original(mutant) !== mutant.was);
  if (moved !== undefined)
    throw new Error(
      `${moved.fileName} is not what the mutants were drawn from: remove ${folder} or draw by another seed`,
    );
  if (learn(folder, until)) ask(state, { folder, kept, until, budget: named('--budget', 45) });
  tell(state);
}

async function draw(count, seed, folder, kept) {
  const all = await mutantsOf(CORE);
  const sample = drawn(all, count, seed);
  const { texts, ids } = await counted(sample);
  writeFileSync(`${folder}/counted.json`, JSON.stringify(texts));
  const mutants = sample.map((one, index) => ({ ...one, id: ids[index], was: original(one) }));
  writeFileSync(kept, JSON.stringify({ of: all.length, mutants, results: {} }));
}

function learned(folder) {
  const path = `${folder}/reach.jsonl`;
  if (!existsSync(path)) return [];
  return readFileSync(path, 'utf8')
    .trim()
    .split('\n')
    .filter(Boolean)
    .map(line => JSON.parse(line));
}

/** Learns which tests reach which mutants. @returns whether all is known. */
function learn(folder, until) {
  const listed = spawnSync('git', ['ls-files', ...ASKED], { encoding: 'utf8' }).stdout.split('\n');
  const slow = readFileSync('tests/slow.ts', 'utf8');
  const tests = listed.filter(name => name.endsWith('.test.ts') && !slow.includes(`'${name}'`));
  const known = new Set(learned(folder).map(({ file }) => relative(process.cwd(), file)));
  const left = tests.filter(name => !known.has(name));
  for (let i = 0; i < left.length; i += 20) {
    const wall = (until - Date.now()) / 1000;
    if (wall < 20) return false;
    const environment = { MUTATE_TEXTS: `${folder}/counted.json`, MUTATE_REACH: `${folder}/reach.jsonl` };
    runTests(left.slice(i, i + 20), { environment, seconds: 600, wall, folder, bail: 0 });
    console.log(`learnt what ${i + 20} of ${left.length} test files reach`);
  }
  return true;
}

function ask(state, { folder, kept, until, budget }) {
  const reach = learned(folder);
  for (const [index, mutant] of state.mutants.entries()) {
    if (state.results[index] !== undefined) continue;
    const result = fate(mutant, testsOf(mutant, index, reach), { folder, until, budget });
    if (result === undefined) return;
    state.results[index] = result;
    writeFileSync(kept, JSON.stringify(state));
    console.log(`${index} ${lineOf(mutant)} ${result.status} ${result.by ?? ''}`);
  }
}

/** What becomes of a mutant; undefined where the time was over before it was known. */
function fate(mutant, tests, { folder, until, budget }) {
  if (tests.length === 0) return { status: 'unreached' };
  const texts = `${folder}/mutant.json`;
  writeFileSync(texts, JSON.stringify({ [mutant.fileName]: mutated(mutant) }));
  let spent = 0;
  const [first, rest] = [[], []];
  for (const test of tests) {
    if (spent > 0 && spent + test.seconds > budget) continue;
    spent += test.seconds;
    (spent <= FIRST || first.length === 0 ? first : rest).push(test);
  }
  for (const some of [first, rest]) {
    if (some.length === 0) continue;
    const wall = (until - Date.now()) / 1000;
    if (wall < 15) return undefined;
    const usual = some.reduce((sum, { seconds }) => sum + seconds, 0);
    const files = some.map(({ file }) => relative(process.cwd(), file));
    const { status, signal, report } = runTests(files, {
      environment: { MUTATE_TEXTS: texts },
      seconds: 20 + 3 * usual,
      wall,
      folder,
    });
    if (signal === 'SIGKILL') return undefined;
    if (signal !== null) return { status: 'timeout', by: files[0] };
    if (status !== 0) return { status: 'died', by: firstFailed(report) };
  }
  return { status: 'lived', by: `${first.length + rest.length} of ${tests.length} test files` };
}

const lineOf = ({ fileName, location, mutatorName, was, replacement }) =>
  `${fileName}:${location.start.line + 1}:${location.start.column + 1} ${mutatorName}: ${was.slice(0, 70)} -> ${replacement.replace(/\s+/gu, ' ').slice(0, 70)}`;

function tell({ of, mutants, results }) {
  const folders = new Map();
  for (const [index, mutant] of mutants.entries()) {
    const result = results[index];
    if (result === undefined) continue;
    const dead = result.status === 'died' || result.status === 'timeout';
    if (!dead) console.log(`${result.status} ${lineOf(mutant)} ${result.by ?? ''}`);
    const [, top, next] = mutant.fileName.split('/');
    for (const name of [`src/${top}`, ...(next.endsWith('.ts') ? [] : [`src/${top}/${next}`])]) {
      const counts = folders.get(name) ?? { dead: 0, late: 0, all: 0 };
      folders.set(name, {
        dead: counts.dead + Number(dead),
        late: counts.late + Number(result.status === 'timeout'),
        all: counts.all + 1,
      });
    }
  }
  for (const [name, { dead, late, all }] of [...folders].toSorted(([a], [b]) => (a < b ? -1 : 1)))
    console.log(
      `${name}: ${dead} of ${all} died (${Math.round((100 * dead) / all)} %)${late > 0 ? `, ${late} by running too long` : ''}`,
    );
  console.log(`${Object.keys(results).length} of ${mutants.length} asked, drawn from ${of}`);
}
