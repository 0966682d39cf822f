/** Exit codes where axlewatt itself fails, or a result is not to be relied on: the other notebooks are whole. */
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it, vi } from 'vitest';
import { main } from '../../src/cli/main.ts';
import type { NotebookOutcome } from '../../src/notebook/document/outcome.ts';
import type { ProblemData } from '../../src/notebook/document/problem.ts';

vi.mock('../../src/notebook/run.ts', () => {
  const run = (text: string, { file }: { readonly file: string }): NotebookOutcome => {
    if (text.includes('broken')) throw new TypeError('nobody thought of this');
    const cause = text.includes('shaky') ? undefined : text.includes('fault') ? 'axlewatt' : 'files';
    const place = { file, line: 1, column: 1, length: 1, source: '' };
    const problem: ProblemData = {
      ...place,
      path: 'dash',
      expected: '',
      nearest: '',
      message: `told of ${text}`,
      ...(cause !== undefined && { cause }),
    };
    const problems = text.includes('good') ? [] : [problem];
    const blocks = [{ kind: 'prose', html: '<output>1</output>', text: '1' }] as const;
    return { file, title: text, system: 'metric', blocks, inputs: [], problems, failedChecks: 0 };
  };
  return { runNotebook: run, runNotebookWith: async (...args: Parameters<typeof run>) => run(...args) };
});

// What the build makes for pages is beside the built command, and not here.
vi.mock('../../src/cli/page-scripts.ts', () => ({
  builtText: () => '',
  liveParts: () => null,
  picturesAble: () => ({ script: 'void 0' }),
}));

const folder = mkdtempSync(join(tmpdir(), 'axlewatt-faults-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function axlewatt(command: 'run' | 'check', texts: readonly string[]) {
  const said: string[] = [];
  const files = texts.map(text => {
    writeFileSync(join(folder, `${text}.md`), text);
    return join(folder, `${text}.md`);
  });
  const out = join(folder, `out-${texts.join('-')}`);
  const terminal = { out: (text: string) => void said.push(text), err: (text: string) => void said.push(text) };
  const args = [command, ...files, ...(command === 'run' ? ['--out', out] : [])];
  const code = await main(args, { ...terminal, color: false, width: 80 });
  return { code, said: said.join('\n'), reports: command === 'run' ? readdirSync(out) : [] };
}

it.each<[readonly string[], number]>([
  [['good'], 0],
  [['shaky', 'good'], 1],
  [['full disk', 'shaky'], 2],
  [['fault', 'full disk'], 3],
  [['broken', 'shaky', 'good'], 3],
])('%j: run and check agree on the exit code, and tell all', async (texts, code) => {
  const [ran, checked] = [await axlewatt('run', texts), await axlewatt('check', texts)];
  expect([ran.code, checked.code]).toEqual([code, code]);
  for (const text of texts) {
    if (text === 'good') continue;
    const told = text === 'broken' ? 'a fault of axlewatt itself' : `told of ${text}`;
    for (const { said } of [ran, checked]) expect(said.replace(/\s+/gu, ' ')).toContain(told);
  }
  expect(ran.reports).toEqual(
    texts
      .filter(text => text !== 'broken')
      .map(text => `${text}.html`)
      .toSorted(),
  );
});
