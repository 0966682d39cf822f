/** `axlewatt open`: shows a notebook, or those of a folder, in the browser, and follows them while they are edited. */
import { spawn } from 'node:child_process';
import { basename } from 'node:path';
import { BatchProblem, reasonOf } from '../../batch/problem.ts';
import { keepDrawings } from '../../report/page/draw-pair.ts';
import { startRenderThread, stopRenderThread } from '../../report/page/render-thread.ts';
import { FINE, type Terminal, USAGE } from '../exit.ts';
import { isFolder } from '../folder-notebooks.ts';
import { openFolder } from '../out-folder.ts';
import { openRowSource, type RowSource } from '../rows.ts';
import { createKnown } from './known.ts';
import { createNotebookPage } from './notebook-page.ts';
import type { ServedPage } from './page.ts';
import { createIndexPage } from './plain-pages.ts';
import { type PageServer, servePages } from './server.ts';
import { createWatch } from './watch.ts';

export interface OpenArguments {
  /** A notebook, or a folder of notebooks. */
  readonly path: string;
  readonly out: string;
  /** Left out: `PORT`, or any other that is free. */
  readonly port?: number | undefined;
  readonly browser: boolean;
  readonly samples?: number | undefined;
  readonly workers?: number | undefined;
}

/** Where it is found from day to day; common practice, no source: nothing is registered for it. */
const PORT = 4680;

/** Ends when somebody ends it. */
export async function openNotebooks(args: OpenArguments, terminal: Terminal, version: string): Promise<number> {
  let source: RowSource;
  try {
    openFolder(args.out);
    source = openRowSource(
      { out: args.out, version, quiet: true, ...(args.workers !== undefined && { workers: args.workers }) },
      terminal,
    );
  } catch (error) {
    if (!(error instanceof BatchProblem)) throw error;
    terminal.err(`axlewatt: ${error.message}`);
    return USAGE;
  }
  const pages = createPages(args, source, terminal);
  let server: PageServer;
  try {
    server = await listening(path => pages.at(path), args.port);
  } catch (error) {
    terminal.err(
      `axlewatt: cannot listen on port ${args.port ?? PORT}: ${reasonOf(error)}; choose another with --port`,
    );
    pages.close();
    await source.close();
    return USAGE;
  }
  startRenderThread(new URL('../render-worker.mjs', import.meta.url));
  terminal.out(`Open: ${server.address}, for this machine only. Ctrl-C ends it.`);
  if (args.browser) showInBrowser(server.address);
  await ended();
  pages.close();
  server.close();
  stopRenderThread();
  await source.close();
  return FINE;
}

function listening(pageAt: (path: string) => ServedPage | null, port: number | undefined): Promise<PageServer> {
  if (port !== undefined) return servePages(pageAt, port);
  // Another one may be open.
  return servePages(pageAt, PORT).catch(() => servePages(pageAt, 0));
}

interface Pages {
  at(path: string): ServedPage | null;
  close(): void;
}

function createPages(args: OpenArguments, source: RowSource, terminal: Terminal): Pages {
  const byPath = new Map<string, ServedPage>();
  const known = createKnown(source);
  keepDrawings(known.pictures);
  const watch = createWatch(paths => {
    for (const page of byPath.values()) if (page.sources().some(each => paths.includes(each))) page.changed();
  });
  const made = (): void => watch.look(new Set([...byPath.values()].flatMap(page => page.sources())));
  const notebookPage = (file: string): ServedPage =>
    createNotebookPage({ file, samples: args.samples ?? 'enough', source, known, terminal, made });
  if (isFolder(args.path)) {
    const index = createIndexPage(args.path, notebooks => {
      const wanted = new Map(notebooks.map(each => [`/${encodeURIComponent(each.name)}`, each.path]));
      for (const [path, file] of wanted) if (!byPath.has(path)) byPath.set(path, notebookPage(file));
      made();
    });
    byPath.set('/', index);
    void index.html();
  } else {
    const page = notebookPage(args.path);
    byPath.set('/', page);
    byPath.set(`/${encodeURIComponent(basename(args.path))}`, page);
    // The browser takes its time to start.
    void page.html();
  }
  made();
  return {
    at: path => byPath.get(path) ?? null,
    close() {
      watch.close();
      for (const page of byPath.values()) page.close();
    },
  };
}

/** Until somebody says so at the keyboard or by a signal. */
function ended(): Promise<void> {
  return new Promise(resolve => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
  });
}

/** Without a word where there is none. */
function showInBrowser(address: string): void {
  const [command, ...given] =
    process.platform === 'darwin' ? ['open'] : process.platform === 'win32' ? ['cmd', '/c', 'start', ''] : ['xdg-open'];
  if (command === undefined) return;
  spawn(command, [...given, address], { detached: true, stdio: 'ignore' })
    .on('error', () => {})
    .unref();
}
