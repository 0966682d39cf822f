/** The page of a notebook that is edited: what a change reaches is worked out anew, first the figures, then what takes its time. */
import { dirname, resolve } from 'node:path';
import type { RowsAsk } from '../../notebook/rows-ask.ts';
import type { NotebookOutcome } from '../../notebook/document/outcome.ts';
import type { Samples } from '../../notebook/samples.ts';
import { drawOnly } from '../../report/page/draw-only.ts';
import { drawWith } from '../../report/page/draw-pair.ts';
import { writeReport } from '../../report/report.ts';
import { FINE, lastResort, type Terminal } from '../exit.ts';
import { type Ran, runFileWith } from '../notebooks.ts';
import { liveParts, picturesAble } from '../page-scripts.ts';
import type { RowSource } from '../rows.ts';
import type { Known } from './known.ts';
import { Editions, type Looks, type ServedPage } from './page.ts';
import { openAble, troublePage } from './plain-pages.ts';

export interface NotebookPageParts {
  readonly file: string;
  readonly samples: Samples;
  readonly source: RowSource;
  readonly known: Known;
  readonly terminal: Terminal;
  /** Told when it was made: the files it stands on may be others. */
  readonly made: () => void;
}

export function createNotebookPage({ file, samples, source, known, terminal, made }: NotebookPageParts): ServedPage {
  const editions = new Editions();
  let html: Promise<string> | null = null;
  let begun: (page: string) => void = () => {};
  /** Whether somebody waits for the first page. */
  let waiting = false;
  let asked: readonly string[] = [];
  /** Ends what is being worked out: something newer is wanted. */
  let newer = new AbortController();
  let working: Promise<void> | null = null;
  /** What its readers see of it; null before anybody has told. */
  let looks: Looks | null = null;

  async function work(): Promise<void> {
    for (;;) {
      newer = new AbortController();
      const { signal } = newer;
      const started = performance.now();
      editions.tell({ busy: true });
      try {
        const early = await run(true, signal);
        if (early !== null && !signal.aborted) {
          if (!early.whole) await run(false, signal);
          else if (!early.drawn) await early.again();
        }
      } catch (error) {
        if (!signal.aborted) fail(lastResort(error).trimEnd());
      }
      if (signal.aborted) continue;
      editions.tell({ busy: false });
      known.save();
      terminal.out(
        `${file}: ${editions.news.trouble === '' ? 'made' : 'not made'} in ${((performance.now() - started) / 1000).toFixed(2)} s`,
      );
      return;
    }
  }

  /** @param early without the rows that are not known yet. @returns null where there is no page of it. */
  async function run(early: boolean, signal: AbortSignal): Promise<Written | null> {
    let whole = true;
    const rows = async (path: string, ask: RowsAsk) => {
      const found = known.tableOf(ask);
      if (found !== null) return found;
      if (early) {
        whole = false;
        return null;
      }
      const table = await source.rows(path, ask, signal);
      if (table !== null) known.know(ask, table);
      return table;
    };
    const said: string[] = [];
    const ears: Terminal = { ...terminal, err: text => void said.push(text) };
    const ran = await runFileWith(
      file,
      samples,
      { rows, memory: known.answers, signal, pause, code: () => FINE },
      ears,
    );
    if (signal.aborted) return null;
    if (ran.asked !== undefined) asked = ran.asked;
    made();
    if (ran.outcome === null) {
      fail(said.join('\n'));
      return null;
    }
    return write(ran, ran.outcome, early, whole, signal);
  }

  /** @param early with the pictures that are seen only. @param whole whether its rows are all there. */
  async function write(
    ran: Ran,
    outcome: NotebookOutcome,
    early: boolean,
    whole: boolean,
    signal: AbortSignal,
  ): Promise<Written> {
    const { shown, late } = whole ? { shown: outcome, late: [] } : withoutLate(outcome);
    const edition = editions.next();
    const live = liveParts(ran, samples);
    let drawn = true;
    const skipped = (): void => void (drawn = false);
    const page = await inTurn(async () => {
      const before =
        early && looks !== null ? drawOnly({ ...looks, current: () => !signal.aborted, page: file, skipped }) : null;
      try {
        return await writeReport(shown, {
          able: [openAble({ edition, late }), picturesAble()],
          ...(live !== null && { live }),
        });
      } finally {
        if (before !== null) drawWith(before);
      }
    });
    if (!signal.aborted) {
      put(page);
      editions.tell({ edition, trouble: '' });
    }
    return { whole, drawn, again: () => write(ran, outcome, false, whole, signal) };
  }

  function put(page: string): void {
    begun(page);
    waiting = false;
    html = Promise.resolve(page);
  }

  function fail(trouble: string): void {
    terminal.err(trouble);
    if (waiting) {
      const edition = editions.next();
      put(troublePage(file, trouble, openAble({ edition, late: [] })));
      editions.tell({ edition });
    }
    editions.tell({ trouble });
  }

  const start = (): void => {
    working ??= work().finally(() => void (working = null));
  };
  return {
    html() {
      html ??= new Promise(resolve => {
        begun = resolve;
        waiting = true;
        start();
      });
      return html;
    },
    news: () => editions.news,
    listen: told => editions.listen(told),
    sources: () => [resolve(file), ...asked.map(path => resolve(dirname(file), path))],
    changed() {
      // Nobody has looked at it yet.
      if (html === null) return;
      newer.abort();
      start();
    },
    looked: at => void (looks = at),
    close: () => newer.abort(),
  };
}

/** A save is heard between two cells of whatever kind. */
const pause = (): Promise<void> => new Promise(resolve => void setImmediate(resolve));

/** What has been written of a notebook. */
interface Written {
  /** Whether all rows, and all drawings, are in it. */
  readonly whole: boolean;
  readonly drawn: boolean;
  /** The same with all drawings. */
  again(): Promise<unknown>;
}

/** Pages are written one after the other: who draws holds for all of them. */
let turns: Promise<unknown> = Promise.resolve();

function inTurn<T>(write: () => Promise<T>): Promise<T> {
  const done = turns.then(write);
  turns = done.catch(() => {});
  return done;
}

/** Cells that wait for rows, and what leans on them, have no problem: they are late. */
function withoutLate(outcome: NotebookOutcome): { readonly shown: NotebookOutcome; readonly late: readonly string[] } {
  const waits = (problem: { readonly cause?: string } | null): boolean =>
    problem?.cause === 'rows' || problem?.cause === 'need';
  let cell = 0;
  const late: string[] = [];
  const blocks = outcome.blocks.map(block => {
    if (block.kind !== 'cell') return block;
    cell += 1;
    if (!waits(block.problem)) return block;
    late.push(`cell-${cell}`);
    return { ...block, problem: null };
  });
  return { shown: { ...outcome, blocks, problems: outcome.problems.filter(problem => !waits(problem)) }, late };
}
