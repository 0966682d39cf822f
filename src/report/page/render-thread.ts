/**
 * A second pair of hands for the drawings: a worker thread that draws the slim half of every picture while this thread draws
 * the wide one, and both halves of pictures that are told ahead. Where there is none, or it fails to start, this thread draws all; the
 * pictures are the same.
 */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { type DrawPair, drawWith, isKept } from './draw-pair.ts';
import { type Drawing, DrawingError } from './drawing.ts';

/** What the worker is asked, and what it answers. */
export interface DrawingOrder {
  readonly id: number;
  readonly spec: object;
  readonly prefix: string;
}
export type DrawingAnswer = { readonly id: number } & (
  | { readonly drawing: Drawing }
  | { readonly failed: string; readonly byDrawing: boolean }
);

interface Waiting {
  readonly order: DrawingOrder;
  readonly answer: Promise<Drawing>;
  /** Whether somebody waits for it: else it was told ahead. */
  asked: boolean;
  readonly resolve: (drawing: Drawing | Promise<Drawing>) => void;
  readonly reject: (error: Error) => void;
}

/** Orders that the worker has: while it works on one, the next one lies there. */
const GIVEN = 2;

let worker: Worker | null = null;
/** Those that the worker has, and those that it has not, by what is to be drawn. */
const given = new Map<number, Waiting>();
const waiting = new Map<string, Waiting>();
/** Drawn or being drawn ahead, and not asked for yet. */
const ahead = new Map<string, Waiting>();
let orders = 0;

/** Starts the worker from the bundled file of `render-worker.ts`; nothing happens where that file is not there. */
export function startRenderThread(file: URL): void {
  if (worker !== null || !existsSync(fileURLToPath(file))) return;
  worker = new Worker(file);
  worker.unref();
  drawWith(drawTwo);
  worker.on('message', (answer: DrawingAnswer) => {
    const order = given.get(answer.id);
    given.delete(answer.id);
    if ('drawing' in answer) order?.resolve(answer.drawing);
    else order?.reject(answer.byDrawing ? new DrawingError(answer.failed) : new Error(answer.failed));
    giveNext();
    if (given.size === 0) worker?.unref();
  });
  worker.on('error', stopRenderThread);
}

/** Whether the worker is there. */
export function drawsApart(): boolean {
  return worker !== null;
}

/** Lets the worker draw a pair that is likely to be asked for. */
export function drawAhead(...pair: Parameters<DrawPair>): void {
  if (worker === null || isKept(...pair)) return;
  for (const order of pair) ordered(order, false);
}

/** Gives up what was told ahead and nobody asked for. */
export function dropAhead(): void {
  for (const key of ahead.keys()) waiting.delete(key);
  ahead.clear();
}

/** Ends the worker; whatever it had not done yet and is waited for is done here. */
export function stopRenderThread(): void {
  void worker?.terminate();
  worker = null;
  drawWith(null);
  for (const { asked, order, resolve } of [...given.values(), ...waiting.values()])
    if (asked) resolve(drawnHere([order.spec, order.prefix]));
  for (const orders of [given, waiting, ahead]) orders.clear();
}

async function drawTwo(...[wide, slim]: Parameters<DrawPair>): ReturnType<DrawPair> {
  const other = ordered(slim, true);
  const own = ahead.has(keyOf(wide)) ? ordered(wide, true) : null;
  // Both are waited for before the first failure is told: no promise is left behind.
  const [first] = await Promise.allSettled([own === null ? drawnHere(wide) : drawnBy(own)]);
  const [second] = await Promise.allSettled([drawnBy(other)]);
  if (first.status === 'rejected') throw first.reason;
  if (second.status === 'rejected') throw second.reason;
  return [first.value, second.value];
}

/** By the worker, or here where it has not come to it. */
async function drawnBy({ order, answer, resolve }: Waiting): Promise<Drawing> {
  if (waiting.delete(keyOf([order.spec, order.prefix]))) resolve(drawnHere([order.spec, order.prefix]));
  return answer;
}

async function drawnHere([spec, prefix]: Parameters<DrawPair>[0]): Promise<Drawing> {
  const { draw } = await import('./render.ts');
  // What the worker has done is heard, and it gets its next order.
  await new Promise(resolve => setImmediate(resolve));
  return draw(spec, prefix);
}

function ordered([spec, prefix]: Parameters<DrawPair>[0], asked: boolean): Waiting {
  const key = keyOf([spec, prefix]);
  const before = ahead.get(key) ?? waiting.get(key);
  if (before !== undefined) {
    before.asked ||= asked;
    if (asked) ahead.delete(key);
    return before;
  }
  const order = { id: ++orders, spec, prefix };
  let resolve: Waiting['resolve'] = () => {};
  let reject: Waiting['reject'] = () => {};
  const answer = new Promise<Drawing>((done, fail) => {
    resolve = done;
    reject = fail;
  });
  // Told to whoever asks for it, and to nobody where none does.
  answer.catch(() => {});
  const entry: Waiting = { order, answer, asked, resolve, reject };
  waiting.set(key, entry);
  if (!asked) ahead.set(key, entry);
  giveNext();
  return entry;
}

/** What is asked for goes before what is told ahead. */
function giveNext(): void {
  const hands = worker;
  if (hands === null) return;
  while (given.size < GIVEN && waiting.size > 0) {
    const all = [...waiting];
    const [key, next] = all.find(([, { asked }]) => asked) ?? all[0] ?? ['', null];
    if (next === null) return;
    waiting.delete(key);
    given.set(next.order.id, next);
    hands.ref();
    hands.postMessage(next.order);
  }
}

function keyOf([spec, prefix]: Parameters<DrawPair>[0]): string {
  return `${prefix} ${JSON.stringify(spec)}`;
}
