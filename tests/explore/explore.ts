/** Looks for notebooks that axlewatt fails on: `npm run explore -- --minutes 5`. See `usage`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { type Finding, KINDS } from './findings.ts';
import { type Hands, openHands } from './hands.ts';
import { orderOf } from './order.ts';
import { type Page, written } from './page.ts';
import { Random } from './random.ts';
import { type Question, QUESTIONS, sanePage } from './sane-page.ts';
import { shrunk } from './shrink.ts';
import { sillyPage } from './silly-page.ts';

const usage = `npm run explore -- [options]
  --minutes N    how long; default 5
  --count N      how many notebooks, in place of a time
  --seed N       default: a new one, which is told
  --sane         one car that a workshop might build and one question, in place of whole silly notebooks
  --question Q   for --sane: ${QUESTIONS.join(', ')}
  --limit N      s after which a notebook hangs; default 25
  --out FOLDER   where what was found goes, as small as it gets; default explored
  --tries N      pages looked at to make one smaller; default 150, 0 leaves it as it is
  --continuity N every N-th notebook is asked again with a mass that differs by a thousand-millionth; default 1: all
  --show KINDS   of findings to keep: ${KINDS.join(', ')}; default: all but refused`;

const { values } = parseArgs({
  options: {
    minutes: { type: 'string', default: '5' },
    count: { type: 'string' },
    seed: { type: 'string' },
    sane: { type: 'boolean', default: false },
    question: { type: 'string' },
    limit: { type: 'string', default: '25' },
    out: { type: 'string', default: 'explored' },
    continuity: { type: 'string', default: '1' },
    tries: { type: 'string', default: '150' },
    show: { type: 'string' },
    help: { type: 'boolean', default: false },
  },
});

/** How many of a sort are made smaller and written down; the others are counted. */
const EACH = 2;

async function explore(): Promise<void> {
  const seed = Number(values.seed ?? Date.now() % 2 ** 31);
  const question = QUESTIONS.find(each => each === values.question);
  const shown = new Set<string>(values.show?.split(',') ?? KINDS.filter(kind => kind !== 'refused'));
  const end = values.count === undefined ? Date.now() + Number(values.minutes) * 60_000 : Infinity;
  const most = Number(values.count ?? Infinity);
  console.log(`seed ${seed}; a notebook is found again with --seed SEED+NUMBER --count 1`);
  const hands = openHands(fileURLToPath(new URL('./worker.js', import.meta.url)), Number(values.limit));
  const sorts = new Map<string, number>();
  const tally = new Map<string, number>(KINDS.map(kind => [kind, 0]));
  let count = 0;
  try {
    for (; count < most && Date.now() < end; count += 1) {
      const page = pageOf(seed + count, question);
      const order = orderOf(page, !values.sane || count % 10 === 0);
      const once = count % Number(values.continuity) !== 0;
      const findings = await hands.examine(once ? { ...order, moved: '' } : order);
      for (const kind of new Set(findings.map(each => each.kind))) tally.set(kind, (tally.get(kind) ?? 0) + 1);
      for (const found of findings.filter(({ kind }) => shown.has(kind))) {
        const before = sorts.get(found.sort) ?? 0;
        sorts.set(found.sort, before + 1);
        if (before < EACH) await keep(page, found, seed + count, hands);
      }
      if ((count + 1) % 50 === 0) console.log(`${count + 1}: ${told(tally)}`);
    }
  } finally {
    hands.stop();
  }
  console.log(`${count} notebooks: ${told(tally)}`);
  for (const [sort, times] of [...sorts].toSorted((a, b) => b[1] - a[1]))
    console.log(`${times} x ${sort.slice(0, 200)}`);
}

function pageOf(seed: number, question: Question | undefined): Page {
  const random = new Random(seed);
  return values.sane ? sanePage(random, question) : sillyPage(random);
}

function told(tally: ReadonlyMap<string, number>): string {
  return [...tally].map(([kind, times]) => `${kind} ${times}`).join(', ');
}

async function keep(page: Page, found: Finding, seed: number, hands: Hands): Promise<void> {
  const same = (other: Finding): boolean =>
    found.kind === 'fault' || found.kind === 'implausible'
      ? other.sort === found.sort
      : other.kind === found.kind && other.of === found.of;
  const tries = found.kind === 'hang' ? Math.min(20, Number(values.tries)) : Number(values.tries);
  const small = await shrunk(page, async other => (await hands.examine(orderOf(other, true))).some(same), tries);
  const text = `<!-- ${found.kind} in ${found.of}: ${found.text.replaceAll('--', '')} (seed ${seed}) -->\n\n`;
  mkdirSync(values.out, { recursive: true });
  const name = `${found.kind}-${found.of}-${seed}.md`;
  writeFileSync(
    join(values.out, name),
    small.front.length > 0 ? written(small).replace(/^(---\n[^]*?---\n\n)/, `$1${text}`) : text + written(small),
  );
  console.log(`${name}: ${found.cell} ${found.text}`);
}

if (values.help) console.log(usage);
else await explore();
