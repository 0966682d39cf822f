/** Two threads draw what one would. */
import { afterEach, describe, expect, it } from 'vitest';
import { drawPair } from '../../../src/report/page/draw-pair.ts';
import { DrawingError } from '../../../src/report/page/drawing.ts';
import {
  drawAhead,
  drawsApart,
  dropAhead,
  startRenderThread,
  stopRenderThread,
} from '../../../src/report/page/render-thread.ts';

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

describe('with a worker', () => {
  /** That of the built command. */
  const start = (): void => startRenderThread(new URL('../../../dist/cli/render-worker.mjs', import.meta.url));
  const pair = (width: number): Parameters<typeof drawPair> => [
    [spec(width), `p${width}-w`],
    [spec(width / 2), `p${width}-s`],
  ];

  afterEach(stopRenderThread);

  it('draws the same whether a pair was told ahead, in whatever order it is asked for, or never', async () => {
    const widths = [300, 320, 340, 360];
    const here = await Promise.all(widths.map(width => drawPair(...pair(width))));
    start();
    expect(drawsApart()).toBe(true);
    for (const width of [360, 300, 340]) drawAhead(...pair(width));
    drawAhead(...pair(999));
    expect(await Promise.all(widths.map(width => drawPair(...pair(width))))).toEqual(here);
    dropAhead();
    expect(await drawPair(...pair(300))).toEqual(here[0]);
  });

  it('tells of what can not be drawn only whoever asks for it', async () => {
    start();
    const wrong: Parameters<typeof drawPair> = [
      [{ mark: 17 }, 'w'],
      [{ mark: 17 }, 's'],
    ];
    drawAhead(...wrong);
    drawAhead(...pair(300));
    expect((await drawPair(...pair(300)))[0].svg).toContain('<svg');
    await expect(drawPair(...wrong)).rejects.toThrow(DrawingError);
  });

  it('that ends before it has drawn what is waited for leaves that to this thread', async () => {
    start();
    drawAhead(...pair(340));
    const waited = [drawPair(...pair(300)), drawPair(...pair(340))];
    stopRenderThread();
    for (const [wide, slim] of await Promise.all(waited)) expect([wide.svg, slim.svg].join('')).toMatch(/<svg.*<svg/su);
  });
});
