/** Two threads draw what one would. */
import { expect, it } from 'vitest';
import { drawPair } from '../../../src/report/page/draw-pair.ts';
import { startRenderThread, stopRenderThread } from '../../../src/report/page/render-thread.ts';

const spec = (width: number): object => ({
  data: { values: [{ x: 1, y: 2 }] },
  mark: 'point',
  width,
  encoding: { x: { field: 'x', type: 'quantitative' }, y: { field: 'y', type: 'quantitative' } },
});

it('draws both itself where there is no worker to start', async () => {
  startRenderThread(new URL('file:///no/such/render-worker.js'));
  const [wide, slim] = await drawPair([spec(300), 'w'], [spec(100), 's']);
  stopRenderThread();
  expect(wide.svg).toContain('<svg');
  expect(slim.svg).not.toBe(wide.svg);
});

it('tells what can not be drawn', async () => {
  await expect(drawPair([spec(300), 'w'], [{ mark: 17 }, 's'])).rejects.toThrow();
});
