/**
 * A second pair of hands for the drawings: a worker thread that draws the slim half of every picture while this thread draws
 * the wide one. Where there is none, or it fails to start, this thread draws both; the pictures are the same.
 */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { type DrawPair, drawWith } from './draw-pair.ts';
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
  resolve(drawing: Drawing | Promise<Drawing>): void;
  reject(error: Error): void;
}

let worker: Worker | null = null;
const waiting = new Map<number, Waiting>();
let orders = 0;

/** Starts the worker from the bundled file of `render-worker.ts`; nothing happens where that file is not there. */
export function startRenderThread(file: URL): void {
  if (worker !== null || !existsSync(fileURLToPath(file))) return;
  const hands = new Worker(file);
  worker = hands;
  worker.unref();
  drawWith((...pair) => drawTwo(hands, ...pair));
  worker.on('message', (answer: DrawingAnswer) => {
    const order = waiting.get(answer.id);
    waiting.delete(answer.id);
    if ('drawing' in answer) order?.resolve(answer.drawing);
    else order?.reject(answer.byDrawing ? new DrawingError(answer.failed) : new Error(answer.failed));
  });
  worker.on('error', stopRenderThread);
}

/** Ends the worker; whatever it had not done yet is done here. */
export function stopRenderThread(): void {
  void worker?.terminate();
  worker = null;
  drawWith(null);
  for (const waiter of waiting.values()) waiter.resolve(drawnHere(waiter.order.spec, waiter.order.prefix));
  waiting.clear();
}

async function drawTwo(hands: Worker, ...[wide, slim]: Parameters<DrawPair>): ReturnType<DrawPair> {
  const other = ordered(hands, ...slim);
  // Both are waited for before the first failure is told: no promise is left behind.
  const [first, second] = await Promise.allSettled([drawnHere(...wide), other]);
  if (first.status === 'rejected') throw first.reason;
  if (second.status === 'rejected') throw second.reason;
  return [first.value, second.value];
}

async function drawnHere(spec: object, prefix: string): Promise<Drawing> {
  const { draw } = await import('./render.ts');
  return draw(spec, prefix);
}

function ordered(to: Worker, spec: object, prefix: string): Promise<Drawing> {
  const order = { id: ++orders, spec, prefix };
  return new Promise((resolve, reject) => {
    waiting.set(order.id, { order, resolve, reject });
    to.postMessage(order);
  });
}
