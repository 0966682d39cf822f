// What stands already: a second run of each example against its first, and a notebook that is saved while `axlewatt open` shows it.
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { median } from '../contest.mjs';
import { secondsOf } from '../seconds-of.mjs';

export const title = 'Again: a second run with the same `--out`, and a save in `axlewatt open guesthouse.md`';
export const keys = ['second_run_ratio_worst', 'open_save_ms'];

const SECOND_RUNS = 3;
const SAVES = 11;

/** What is seen of the page: the pictures of its answer, and the first of its first launch. */
const LOOKS = '?looks=wide,side-by-side,cell-3-trace';

const middle = list => median(list.toSorted((a, b) => a - b));
const pause = ms => new Promise(resolve => setTimeout(resolve, ms));

/** @param {import('../bench.mjs').Setting} setting */
export async function measure({ root, temp }) {
  const program = join(root, 'dist/cli/axlewatt.js');
  if (!existsSync(program)) throw new Error('dist/ is not built: npm run build');
  const scenarios = join(root, 'scenarios');
  const runs = readdirSync(scenarios)
    .filter(name => name.endsWith('.md'))
    .map(name => {
      const args = [program, 'run', join(scenarios, name), '--quiet', '--out', join(temp, `again-${name}`)];
      const first = secondsOf(args);
      return { name, first, second: middle(Array.from({ length: SECOND_RUNS }, () => secondsOf(args))) };
    });
  const saves = await savesOf(program, join(temp, 'open'), readFileSync(join(scenarios, 'guesthouse.md'), 'utf8'));
  return {
    values: {
      second_run_ratio_worst: Math.max(...runs.map(({ first, second }) => second / first)),
      open_save_ms: middle(saves),
    },
    head: ['', 'first s', 'second s', 'ratio'],
    lines: [
      ...runs.map(({ name, first, second }) => [
        name,
        first.toFixed(2),
        second.toFixed(2),
        (second / first).toFixed(3),
      ]),
      ['save to new page with what is seen, ms', '', middle(saves).toFixed(0), ''],
    ],
  };
}

/** ms from each save of another mass to the news of the page with its figures. */
async function savesOf(program, folder, text) {
  mkdirSync(folder);
  const file = join(folder, 'guesthouse.md');
  writeFileSync(file, text);
  const child = spawn(process.execPath, [program, 'open', 'guesthouse.md', '--port', '0', '--no-browser'], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  try {
    let said = '';
    child.stdout.on('data', bytes => void (said += bytes));
    while (!/http:\S+\/,/u.test(said)) {
      if (child.exitCode !== null) throw new Error('axlewatt open has ended');
      await pause(20);
    }
    const [address] = /http:\S+\//u.exec(said) ?? [''];
    await (await fetch(address)).text();
    await fetch(address + LOOKS);
    const news = await listening(`${address}?news`);
    const times = [];
    for (let k = 0; k < SAVES; k++) {
      while (news.busy) await pause(20);
      const before = news.edition;
      const began = performance.now();
      writeFileSync(file, text.replace(/^mass: \d+ kg/mu, `mass: ${940 + 7 * k} kg`));
      while (news.edition === before) await pause(1);
      times.push(performance.now() - began);
    }
    // The first one warms up.
    return times.slice(1);
  } finally {
    child.kill();
  }
}

/** The news of a page, as they come. */
async function listening(address) {
  const news = { edition: '', busy: true };
  const { body } = await fetch(address);
  const text = new TextDecoder();
  let heard = '';
  const listen = async () => {
    for await (const bytes of body) {
      heard += text.decode(bytes, { stream: true });
      const all = heard.split('\n\n');
      heard = all.pop() ?? '';
      for (const each of all) if (each.startsWith('data: ')) Object.assign(news, JSON.parse(each.slice(6)));
    }
  };
  // It ends with the server.
  void listen().catch(() => {});
  return news;
}
