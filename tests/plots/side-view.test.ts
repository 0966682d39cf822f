import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { completeLedger } from '../../src/model/body/complete-ledger.ts';
import type { WeighSpec } from '../../src/model/body/ledger-fields.ts';
import { placeNotes } from '../../src/plots/side-view-layout.ts';
import { sideView } from '../../src/plots/side-view.ts';
import { weigh } from '../../src/runs/weigh/weigh.ts';
import { draw } from '../../src/report/page/render.ts';

const spec: WeighSpec = {
  scales: { front: 600, rear: 400 },
  wheelbase: 2.5,
  cgHeight: 0.5,
  out: [{ name: 'engine', mass: 100, x: 0, height: 0.7 }],
  in: [{ name: 'box', count: 2, mass: 50, x: 2, height: 0.4 }],
  driver: { mass: 75, x: 1.25, height: 0.6 },
  permitted: { front: 700, rear: 500 },
  tyres: { size: '155/80 R 13' },
};
const picture = (changed: WeighSpec = {}) => sideView(weigh(completeLedger({ ...spec, ...changed })), 'metric');

interface Layer {
  readonly mark: { readonly type: string; readonly strokeDash?: readonly number[]; readonly fill?: string };
  readonly data: { readonly values: readonly { readonly [key: string]: number | string }[] };
}
const layers = (width: number, changed: WeighSpec = {}): readonly Layer[] =>
  (picture(changed).spec(width) as { layer: readonly Layer[] }).layer;
const words = (width: number, changed: WeighSpec = {}): readonly string[] =>
  layers(width, changed).flatMap(layer =>
    layer.data.values.flatMap(({ text }) => (text === undefined ? [] : [String(text)])),
  );
const rects = (width: number) => layers(width).filter(layer => layer.mark.type === 'rect');

describe.each([340, 720])('the side view, %i px wide', width => {
  const wheels = layers(width).find(layer => layer.data.values.some(value => 'size' in value))?.data.values ?? [];
  const [front, rear] = wheels.map(({ x }) => Number(x));
  const metre = (Number(rear) - Number(front)) / 2.5;

  it('is to scale: wheels, places and areas alike', () => {
    // (13 in + 2 * 0.8 * 155 mm) / 2; a circle of this size has the diameter sqrt(size).
    expect(Math.sqrt(Number(wheels[0]?.['size'])) / 2 / metre).toBeCloseTo((13 * 0.0254 + 0.248) / 2, 9);
    const [filled, dashed] = rects(width);
    const [box] = filled?.data.values ?? [];
    const [engine] = dashed?.data.values ?? [];
    const side = (r: typeof box) => (Number(r?.['x2']) - Number(r?.['x'])) / metre;
    const middle = (r: typeof box) => ((Number(r?.['x2']) + Number(r?.['x'])) / 2 - Number(front)) / metre;
    // Both are 100 kg: 0.4 m, as the caption says.
    expect(side(box)).toBeCloseTo(0.4, 9);
    expect(side(engine)).toBeCloseTo(0.4, 9);
    expect(middle(box)).toBeCloseTo(2, 9);
    expect(middle(engine)).toBeCloseTo(0, 9);
    const road = Number(wheels[0]?.['y']) + Math.sqrt(Number(wheels[0]?.['size'])) / 2;
    expect((road - (Number(box?.['y']) + Number(box?.['y2'])) / 2) / metre).toBeCloseTo(0.4, 9);
  });

  it('tells what went in from what came out without colour', () => {
    const [filled, dashed] = rects(width);
    expect(filled?.mark.strokeDash).toBeUndefined();
    expect(dashed?.mark.strokeDash).toBeDefined();
    expect(words(width).map(text => text.replace(/\s/g, ' '))).toEqual(
      expect.arrayContaining([
        '+ 2 × box 100 kg',
        '− engine 100 kg',
        'centre of gravity now',
        'centre of gravity before',
      ]),
    );
  });

  it('marks an axle that carries too much in words', () => {
    // 1000 - 100 + 100 + 75 kg: 557.5 kg on the front, 517.5 kg on the rear.
    const text = words(width).map(word => word.replaceAll('\u00a0', ' '));
    expect(text).toContain('143 kg left');
    expect(text).toContain('OVER by 18 kg');
    expect(words(width, { permitted: {} })).toContain('permitted load not given');
  });

  it('keeps all it draws inside', () => {
    for (const layer of layers(width)) {
      for (const { x, x2 } of layer.data.values) {
        for (const at of [x, x2]) {
          if (at === undefined) continue;
          expect(Number(at)).toBeGreaterThanOrEqual(-1e-9);
          expect(Number(at)).toBeLessThanOrEqual(width);
        }
      }
    }
  });

  it('draws without complaint, also a car with nothing changed', async () => {
    for (const changed of [{}, { in: [], out: [] }]) {
      const { svg, warnings } = await draw(picture(changed).spec(width), 'a');
      expect(warnings).toEqual([]);
      expect(svg).not.toMatch(/NaN|undefined/);
    }
  });
});

describe('its words', () => {
  it('are worked out from the numbers', () => {
    const caption = picture().caption.replaceAll('\u00a0', ' ');
    // Centre from 1 m to (400 + 80) / 1000 * 2.5 = 1.2 m; height (500 - 70 + 40) / 1000.
    expect(caption).toContain('0.20 m further back, 30 mm lower');
    expect(caption).toContain('carries 52.0 % of it, before 60.0 %');
    expect(caption).toContain('the front axle has 143 kg left and the rear axle is over its permitted load by 18 kg');
    expect(picture({ in: [], out: [] }).caption).toContain('stays');
  });

  it('stand beside a table of everything, people included', () => {
    const { columns, rows } = picture().table;
    expect(rows.map(row => row[0])).toEqual(['engine', 'box', 'driver']);
    for (const row of rows) expect(row).toHaveLength(columns.length);
  });
});

describe('names over a picture', () => {
  it('stand in one row where there is room', () => {
    const notes = placeNotes(
      [20, 200, 400].map(x => ({ text: 'a', x, length: 50 })),
      500,
    );
    expect(notes.map(({ row }) => row)).toEqual([0, 0, 0]);
  });

  it('reach to the left at the right edge', () => {
    expect(placeNotes([{ text: 'a', x: 480, length: 50 }], 500)[0]?.side).toBe('left');
  });

  it('neither cover each other nor are crossed by a line, wherever few short ones stand', () => {
    const some = fc.array(
      fc.record({
        text: fc.constant('a'),
        x: fc.double({ min: 0, max: 500, noNaN: true }),
        length: fc.integer({ min: 20, max: 90 }),
      }),
      { maxLength: 9 },
    );
    fc.assert(
      fc.property(some, wanted => {
        const notes = placeNotes(wanted, 700);
        const spans = notes.map(({ x, side, row }, i) => {
          const length = wanted[i]?.length ?? 0;
          return { x, row, from: side === 'right' ? x : x - length, to: side === 'right' ? x + length : x };
        });
        for (const a of spans) {
          for (const b of spans) {
            if (a === b) continue;
            if (a.row === b.row) expect(a.from >= b.to || b.from >= a.to).toBe(true);
            // Row 0 is the uppermost: the line of a passes all rows below its own.
            if (a.row < b.row) expect(a.x > b.from + 1 && a.x < b.to - 1).toBe(false);
          }
        }
      }),
    );
  });
});
