// Draws mutants at random over the core and asks for each whether a quick test that reaches it fails:
//   npm run mutate -- --sample 200 --seed 1 [--minutes 4] [--budget 45]
// Goes on where it ended, until all are asked; tells the score of each folder and every mutant that lived. docs/MUTATION.md keeps the scores.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { relative, resolve } from 'node:path';
import { counted, drawn, mutantsOf, mutated, original } from './mutants.mjs';
import { builtWith } from './mutate-command.mjs';

const CORE = ['src/model', 'src/solvers', 'src/runs'];
/** Folders of tests that call the sources in their own process, or through the command by `tests/command.ts`. */
const ASKED = [
  'model',
  'solvers',
  'runs',
  'studies',
  'cycles',
  'fit',
  'notebook',
  'plots',
  'report',
  'published',
  'faults',
  'units',
  'batch',
].map(name => `tests/${name}`);
const throughCommand = name => readFileSync(name, 'utf8').includes("'../command.ts'");
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
  if (await learn(folder, until)) ask(state, { folder, kept, until, budget: named('--budget', 45) });
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
  const lines = readFileSync(path, 'utf8').trim().split('\n').filter(Boolean);
  const files = new Map();
  for (const line of lines) {
    const { seconds, reached, failed, ...told } = JSON.parse(line);
    const file = relative(process.cwd(), resolve(told.file));
    const before = files.get(file) ?? { seconds: 0, reached: [], failed: false };
    files.set(file, {
      file,
      seconds: before.seconds + seconds,
      reached: [...new Set([...before.reached, ...reached])],
      failed: before.failed || failed,
    });
  }
  return [...files.values()];
}

/** Learns which tests reach which mutants. @returns whether all is known. */
async function learn(folder, until) {
  const listed = spawnSync('git', ['ls-files', ...ASKED], { encoding: 'utf8' }).stdout.split('\n');
  const slow = readFileSync('tests/slow.ts', 'utf8');
  const tests = listed.filter(name => name.endsWith('.test.ts') && !slow.includes(`'${name}'`));
  const known = new Set(learned(folder).map(({ file }) => file));
  const left = tests.filter(name => !known.has(name));
  const own = left.filter(name => !throughCommand(name));
  // Of those through the command one at a time: the process that they call does not know for whom.
  const groups = [
    ...Array.from({ length: Math.ceil(own.length / 20) }, (_, i) => own.slice(20 * i, 20 * i + 20)),
    ...left.filter(throughCommand).map(name => [name]),
  ];
  const command = await builtWith(JSON.parse(readFileSync(`${folder}/counted.json`, 'utf8')), folder);
  const environment = {
    MUTATE_TEXTS: `${folder}/counted.json`,
    MUTATE_REACH: resolve(`${folder}/reach.jsonl`),
    AXLEWATT_COMMAND: command,
    NODE_OPTIONS: `--import=${resolve('build/mutate-host.mjs')}`,
  };
  for (const [k, group] of groups.entries()) {
    const wall = (until - Date.now()) / 1000;
    if (wall < 20) return false;
    runTests(group, { environment, seconds: 600, wall, folder, bail: 0 });
    console.log(`learnt what ${k + 1} of ${groups.length} groups of test files reach`);
  }
  return true;
}

function ask(state, { folder, kept, until, budget }) {
  const reach = learned(folder);
  for (const [index, mutant] of state.mutants.entries()) {
    // What outlived a part of its tests is asked again where there is more time for it.
    const before = state.results[index];
    if (before !== undefined && !(before.status === 'lived' && before.budget < budget)) continue;
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
  const rounds = roundsOf(tests, budget);
  for (const some of rounds) {
    if (some.length === 0) continue;
    const wall = (until - Date.now()) / 1000;
    if (wall < 15) return undefined;
    const usual = some.reduce((sum, { seconds }) => sum + seconds, 0);
    const { status, signal, report } = runTests(
      some.map(({ file }) => file),
      {
        environment: {
          MUTATE_TEXTS: texts,
          AXLEWATT_COMMAND: resolve(`${folder}/built/dist/cli/main.mjs`),
          __STRYKER_ACTIVE_MUTANT__: mutant.id ?? '',
        },
        seconds: 20 + 3 * usual,
        wall,
        folder,
      },
    );
    if (signal === 'SIGKILL') return undefined;
    if (signal !== null) return { status: 'timeout', by: some[0].file };
    if (status !== 0) return { status: 'died', by: firstFailed(report) };
  }
  return { status: 'lived', by: `${rounds.flat().length} of ${tests.length} test files`, budget };
}

/** Tests in the order in which they are asked: those nearest, as many of the others as the budget holds, and as many of those through the command. */
function roundsOf(tests, budget) {
  const [first, rest, through] = [[], [], []];
  let spent = 0;
  for (const test of tests.filter(({ file }) => !throughCommand(file))) {
    if (spent > 0 && spent + test.seconds > budget) continue;
    spent += test.seconds;
    (spent <= FIRST || first.length === 0 ? first : rest).push(test);
  }
  spent = 0;
  for (const test of tests.filter(({ file }) => throughCommand(file))) {
    if (spent > 0 && spent + test.seconds > budget / 2) continue;
    spent += test.seconds;
    through.push(test);
  }
  return [first, rest, through];
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
