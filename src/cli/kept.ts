/**
 * Rows, answers and pictures of earlier runs, kept by content in a folder beside the reports: what has not changed is not worked out again. The
 * name of a file is the hash of its job and of the build that made it, so that nothing of another build is ever taken for one of ours.
 */
import { createHash } from 'node:crypto';
import { closeSync, lstatSync, mkdirSync, readFileSync, readdirSync, rmSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import { replaceFile } from '../batch/atomic-write.ts';
import { type Job, stampOf, toolName } from '../batch/job.ts';
import { openRegular } from '../batch/regular-file.ts';
import { WHOLE } from '../batch/shard.ts';
import type { Memory } from '../notebook/memory.ts';

export interface Kept {
  /** Answers of runs. */
  readonly answers: Memory;
  /** What was drawn of them. */
  readonly pictures: Memory;
  /** What the rows are made by, down to the build. */
  readonly tool: string;
  /** Where the rows of a job are kept; undefined for rows that are done again sooner than looked for. */
  fileOf(job: Job): string | undefined;
  /** Takes away a file that is of no use. */
  drop(path: string): void;
  /** Takes away what has not been used for longest, beyond the bounds of the folder. */
  tidy(): void;
}

/** In the folder of the reports. */
const FOLDER = '.axlewatt';

const NAME = /^[0-9a-f]{64}\.(?:rows|answer|picture)$/u;

/** Fewer rows are not worth a file. */
const FEWEST = 16;

/** Files, and bytes, that are kept at most: some dozens of notebooks. */
const MOST_FILES = 4000;
const MOST_BYTES = 2 ** 28;

/** @returns null where nothing can be kept: that is no reason to fail. */
export function openKept(out: string, version: string): Kept | null {
  const folder = join(out, FOLDER);
  const build = buildId();
  if (build === null) return null;
  let found: boolean | undefined;
  // Made only when there is something to keep.
  const ready = (): boolean => (found ??= isOurs(folder));
  const tool = `${toolName(version)}, build ${build}`;
  const memoryOf = (ending: 'answer' | 'picture'): Memory => ({
    recall(question) {
      if (!ready()) return null;
      const path = fileOf(folder, tool, question, ending);
      const text = attempt(() => {
        const fd = openRegular(path);
        try {
          return readFileSync(fd, 'utf8');
        } finally {
          closeSync(fd);
        }
      });
      if (text === undefined) return null;
      touch(path);
      const end = text.indexOf('\n');
      const answer = text.slice(end + 1);
      return hashOf(answer) === text.slice(0, end) ? answer : null;
    },
    keep(question, answer) {
      if (!ready()) return;
      const path = fileOf(folder, tool, question, ending);
      // Its hash tells whether it is whole: nobody waits for the disk.
      attempt(() => replaceFile(path, put => put(Buffer.from(`${hashOf(answer)}\n${answer}`)), 'soon'));
    },
  });
  return {
    tool,
    answers: memoryOf('answer'),
    pictures: memoryOf('picture'),
    fileOf(job) {
      if (job.rows < FEWEST || !ready()) return undefined;
      const path = join(folder, `${stampOf(job, tool, WHOLE).hash}.rows`);
      touch(path);
      return path;
    },
    drop(path) {
      // Of the disk nothing more is asked than that it does no harm.
      attempt(() => rmSync(path, { force: true }));
    },
    tidy() {
      if (found === true) attempt(() => tidy(folder));
    },
  };
}

function fileOf(folder: string, tool: string, question: string, ending: string): string {
  return join(folder, `${hashOf(`${tool}\n${question}`)}.${ending}`);
}

function hashOf(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}

/** Of what was built; null where it runs from its sources, which may change under it. */
function buildId(): string | null {
  return attempt(() => readFileSync(new URL('../build-id', import.meta.url), 'utf8').trim()) ?? null;
}

/** Whether there is a folder, no link, and no file in its place; made where there is nothing. */
function isOurs(folder: string): boolean {
  return (
    attempt(() => {
      if (lstatSync(folder, { throwIfNoEntry: false }) === undefined) mkdirSync(folder, { recursive: true });
      return lstatSync(folder).isDirectory();
    }) ?? false
  );
}

function touch(path: string): void {
  const now = new Date();
  attempt(() => utimesSync(path, now, now));
}

function tidy(folder: string): void {
  const files = readdirSync(folder)
    .filter(name => NAME.test(name))
    .map(name => ({ path: join(folder, name), at: lstatSync(join(folder, name)) }))
    .filter(({ at }) => at.isFile())
    .toSorted((a, b) => b.at.mtimeMs - a.at.mtimeMs);
  let bytes = 0;
  for (const [k, { path, at }] of files.entries()) {
    bytes += at.size;
    if (k >= MOST_FILES || bytes > MOST_BYTES) rmSync(path, { force: true });
  }
}

function attempt<T>(action: () => T): T | undefined {
  try {
    return action();
  } catch {
    return undefined;
  }
}
