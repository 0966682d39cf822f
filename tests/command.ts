/**
 * The built command, as its user calls it: in a folder of its own. Needs `npm run build`. It is called in a process that stays
 * (`command-host.mjs`), which takes half of the time; tests of the process itself (`cli/`, files, `open`) start one for each call.
 */
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads';

/** What one call left behind. */
export interface Called {
  /** Exit code; null when it had to be stopped. */
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
  /** Values of a cell by the names of its outputs, SI, from the `--json` file; throws where the cell or the file is missing. */
  values(cell: string, notebook?: string): Readonly<Record<string, number | null>>;
  /** A file that was written, as text; throws where there is none. */
  read(name: string): string;
  has(name: string): boolean;
}

interface Exported {
  readonly blocks: readonly {
    readonly name?: string | null;
    readonly result?: { readonly summary: Record<string, number | null> } | null;
  }[];
}

interface Said {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

let relay: { readonly port: MessagePort; readonly done: Int32Array } | null = null;

/** Tests wait for a call, so that each can be read from top to bottom. */
function said(folder: string, args: readonly string[], seconds: number): Said {
  relay ??= opened();
  const { port, done } = relay;
  Atomics.store(done, 0, 0);
  port.postMessage({ folder, args, seconds });
  Atomics.wait(done, 0, 0);
  return receiveMessageOnPort(port)?.message as Said;
}

/** A missing command would be waited for in vain. */
const BUILT = new URL('../dist/cli/main.mjs', import.meta.url);

function opened(): { readonly port: MessagePort; readonly done: Int32Array } {
  if (!existsSync(process.env['AXLEWATT_COMMAND'] ?? BUILT))
    throw new Error('the command is not built yet: npm run build');
  const { port1, port2 } = new MessageChannel();
  const done = new Int32Array(new SharedArrayBuffer(4));
  const thread = new Worker(new URL('./command-relay.mjs', import.meta.url), {
    workerData: { port: port2, done },
    transferList: [port2],
    execArgv: [],
  });
  thread.unref();
  port1.unref();
  return { port: port1, done };
}

/**
 * Calls the command in a new folder that holds `files` (name to text), and takes the folder away afterwards.
 * @param args of the command; `run` gets `--json --quiet` on top.
 * @param seconds after which it is stopped.
 */
export function command(files: Readonly<Record<string, string>>, args: readonly string[], seconds = 60): Called {
  const folder = mkdtempSync(join(tmpdir(), 'axlewatt-'));
  try {
    for (const [name, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, name)), { recursive: true });
      writeFileSync(join(folder, name), text);
    }
    const more = args[0] === 'run' ? ['--json', '--quiet'] : [];
    const { code, out, err } = said(folder, [...args, ...more], seconds);
    const written = new Map<string, string>();
    const read = (name: string): string => {
      const text = written.get(name);
      if (text === undefined) throw new Error(`no ${name}; the command said: ${out}${err}`);
      return text;
    };
    for (const name of ['html', 'json', 'brief.html'].flatMap(ending =>
      Object.keys(files).map(file => file.replace(/md$/u, ending)),
    )) {
      const path = join(folder, 'out', name);
      if (existsSync(path)) written.set(`out/${name}`, readFileSync(path, 'utf8'));
    }
    if (args.includes('--csv')) {
      for (const name of readdirSync(join(folder, 'out')).filter(each => each.endsWith('.csv')))
        written.set(`out/${name}`, readFileSync(join(folder, 'out', name), 'utf8'));
    }
    return {
      code,
      out,
      err,
      read,
      has: name => written.has(name),
      values: (cell, notebook = Object.keys(files)[0] ?? '') => {
        const exported = JSON.parse(read(`out/${notebook.replace(/md$/u, 'json')}`)) as Exported;
        const found = exported.blocks.find(({ name }) => name === cell);
        if (found?.result === undefined || found.result === null) throw new Error(`cell ${cell} has no result`);
        return found.result.summary;
      },
    };
  } finally {
    rmSync(folder, { recursive: true });
  }
}
