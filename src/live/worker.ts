/// <reference lib="dom" />
/** The worker of a page with knobs: runs the notebook again, and writes what of the page is put anew. */
import { openAgain } from '../notebook/again.ts';
import { UnreadableFile } from '../notebook/files/unreadable-file.ts';
import type { Again, Turned } from '../notebook/again.ts';
import type { Setting } from '../notebook/document/written-setting.ts';
import type { LiveData } from '../report/page/live-data.ts';
import type { FromWorker, Rehearsal, ToWorker } from './messages.ts';
import { createWriter, linesOf, type Writer } from './parts.ts';
import { answered, Overtaken } from './rows.ts';

type Turn = Extract<ToWorker, { kind: 'turn' }>;

let opened: { readonly again: Again; readonly writer: Writer } | null = null;
/** Number of the newest turn that was asked for. */
let newest = 0;

function say(message: FromWorker): void {
  postMessage(message);
}

function open(data: LiveData): void {
  const files = new Map(data.files);
  const readFile = (path: string): string => {
    const text = files.get(path);
    if (text === undefined) throw new UnreadableFile(`cannot read "${path}": it is not in this page`);
    return text;
  };
  const again = openAgain(data.text, { file: data.file, readFile, samples: data.samples }, new Map(data.kept));
  opened = { again, writer: createWriter(again, data) };
}

/** Lets messages in, and ends where a newer turn was asked for. */
async function breathe(turn: number): Promise<void> {
  await new Promise<void>(resolve => {
    channel.port1.addEventListener('message', () => resolve(), { once: true });
    channel.port2.postMessage(null);
  });
  if (turn !== newest) throw new Overtaken();
}

/** A message to oneself is heard after those of others, and sooner than a timer. */
const channel = new MessageChannel();
channel.port1.start();

async function turn(asked: Turn): Promise<void> {
  if (opened === null) return;
  const { again, writer } = opened;
  const { settings, slim, seen, rest } = asked;
  const heard = (): Promise<void> => breathe(asked.turn);
  const send = async (turned: Turned, all: boolean, working: string): Promise<void> => {
    const current = (): boolean => asked.turn === newest;
    const parts = await writer.write(turned, { slim, seen: all ? null : seen, settings, working, current });
    if (current()) say({ kind: 'turned', turn: asked.turn, ...parts });
  };
  if (!rest) {
    await send(await answered(again.turn(settings, 'core'), heard), false, '');
    return;
  }
  const turned = await answered(again.turn(settings, 'whole'), heard);
  await heard();
  await send(turned, true, 'intervals follow');
  await answered(again.spread(turned), heard);
  await heard();
  await send(turned, true, '');
}

async function figures(settings: readonly Setting[]): Promise<void> {
  if (opened === null) return;
  const { again } = opened;
  const { states, fresh } = await answered(again.turn(settings, 'whole'), () => Promise.resolve());
  const found = [...fresh].flatMap(name => {
    const product = states.get(name)?.given?.product;
    return product?.kind === 'result' ? [[name, product.result.summary] as const] : [];
  });
  say({ kind: 'figures', figures: found, lines: linesOf(again, settings) });
}

function told(error: unknown): void {
  if (error instanceof Overtaken) return;
  say({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
}

/** Writes everything once before anybody turns anything: the first turn finds its code warm. */
async function warmUp(): Promise<void> {
  if (opened === null) return;
  const current = (): boolean => newest === 0;
  await opened.writer.write(opened.again.own, { slim: false, seen: null, settings: [], working: '', current });
}

/** Turns after which nothing is cold any more. */
const WARM = 2;

async function rehearse({ turns, slim, seen }: Rehearsal): Promise<void> {
  for (const [k, settings] of turns.entries()) {
    if (opened === null || newest > 0) break;
    if (k === WARM) say({ kind: 'ready' });
    const current = (): boolean => newest === 0;
    const turned = await answered(opened.again.turn(settings, 'core'), () => breathe(0));
    await opened.writer.write(turned, { slim, seen, settings, working: '', current });
    await breathe(0);
  }
}

/** What fails in a rehearsal fails before the reader too: there it is told. */
async function begin(rehearsal: Rehearsal | null): Promise<void> {
  try {
    await (rehearsal === null ? warmUp() : rehearse(rehearsal));
  } catch (error) {
    if (rehearsal === null) return told(error);
  }
  say({ kind: 'ready' });
  say({ kind: 'rehearsed' });
}

addEventListener('message', ({ data: message }: MessageEvent<ToWorker>) => {
  if (message.kind === 'open') {
    try {
      open(message.data);
      void begin(message.rehearsal);
    } catch (error) {
      told(error);
    }
    return;
  }
  if (message.kind === 'figures') {
    void figures(message.settings).catch(told);
    return;
  }
  newest = message.turn;
  if (message.kind === 'turn') void turn(message).catch(told);
});
