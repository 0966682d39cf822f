/** The worker thread of `render-thread.ts`. */
import { parentPort } from 'node:worker_threads';
import { DrawingError } from './drawing.ts';
import type { DrawingAnswer, DrawingOrder } from './render-thread.ts';
import { draw } from './render.ts';

parentPort?.on('message', ({ id, spec, prefix }: DrawingOrder) => {
  void answer(id, spec, prefix).then(found => parentPort?.postMessage(found));
});

async function answer(id: number, spec: object, prefix: string): Promise<DrawingAnswer> {
  try {
    return { id, drawing: await draw(spec, prefix) };
  } catch (error) {
    const failed = error instanceof Error ? error.message : String(error);
    return { id, failed, byDrawing: error instanceof DrawingError };
  }
}
