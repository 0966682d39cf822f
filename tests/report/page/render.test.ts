import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { speedTrace } from '../../../src/plots/speed-trace.ts';
import { DrawingError } from '../../../src/report/page/drawing.ts';
import { draw, outside } from '../../../src/report/page/render.ts';
import { launch } from '../fixture.ts';
import { faults } from '../well-formed.ts';

const bars = {
  data: {
    values: [
      { a: 'x', b: 1 },
      { a: 'y', b: 2 },
    ],
  },
  mark: 'bar',
  encoding: { x: { field: 'b', type: 'quantitative' }, y: { field: 'a', type: 'nominal' } },
};

describe('drawing', () => {
  it('gives the same well-formed SVG each time, without a warning', async () => {
    const spec = speedTrace(launch({ mu: 0.8, power: 100_000 }), 'metric').spec(340);
    const [one, two] = [await draw(spec, 'a'), await draw(spec, 'a')];
    expect(one.svg).toBe(two.svg);
    expect(one.warnings).toEqual([]);
    expect(faults(one.svg)).toEqual([]);
    expect(outside(one.svg)).toBeNull();
  });

  it('keeps two drawings in one page apart by their prefix', async () => {
    const clipped = { ...bars, mark: { type: 'bar', clip: true } };
    const [one, two] = [await draw(clipped, 'one'), await draw(clipped, 'two')];
    expect(one.svg).toMatch(/id="one-/);
    expect(one.svg).toMatch(/url\(#one-/);
    expect(faults(one.svg + two.svg)).toEqual([]);
  });

  it('escapes what stands in the data', async () => {
    const { svg } = await draw({ ...bars, data: { values: [{ a: '<script>alert(1)</script>', b: 1 }] } }, 'a');
    expect(svg).not.toContain('<script');
    expect(faults(svg)).toEqual([]);
  });

  it('draws data that stand in the spec', async () => {
    const { svg } = await draw({ ...bars, data: { values: [{ a: 'zanzibar', b: 3 }] } }, 'a');
    expect(svg).toContain('zanzibar');
  });

  it.each(['', 'file://'])('reads no file (%spath)', async scheme => {
    const folder = mkdtempSync(join(tmpdir(), 'axlewatt-'));
    try {
      writeFileSync(join(folder, 'secret.csv'), 'a,b\nzanzibar,3\n');
      const { svg, warnings } = await draw({ ...bars, data: { url: `${scheme}${join(folder, 'secret.csv')}` } }, 'a');
      expect(svg).not.toContain('zanzibar');
      expect(warnings.join(' ')).toContain('external data is off');
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('reaches no address', async () => {
    const { warnings } = await draw({ ...bars, data: { url: 'http://127.0.0.1:9/x.csv' } }, 'a');
    expect(warnings.join(' ')).toContain('external data is off: http://127.0.0.1:9/x.csv');
  });

  it('refuses a picture from outside', async () => {
    const image = {
      data: { values: [{ u: 'http://127.0.0.1:9/a.png' }] },
      mark: 'image',
      encoding: { url: { field: 'u', type: 'nominal' } },
    };
    await expect(draw(image, 'a')).rejects.toThrow(DrawingError);
  });

  it('leaves no link to anywhere', async () => {
    const linked = { ...bars, encoding: { ...bars.encoding, href: { value: 'javascript:alert(1)' } } };
    const { svg } = await draw(linked, 'a');
    expect(svg).not.toContain('javascript:');
  });

  it('says why a spec that makes no sense can not be drawn', async () => {
    await expect(draw({ mark: 'nonsense', data: { values: [] } }, 'a')).rejects.toThrow(DrawingError);
    await expect(draw({}, 'a')).rejects.toThrow(DrawingError);
  });

  it('collects what the drawing library complains about', async () => {
    const { warnings } = await draw({ ...bars, encoding: { x: { field: 'missing', type: 'quantitative' } } }, 'a');
    expect(warnings.length).toBeGreaterThan(0);
  });
});

describe('the search for things outside', () => {
  it.each([
    '<svg><image xlink:href="http://x/y.png"/></svg>',
    '<svg><script>1</script></svg>',
    '<svg><foreignObject></foreignObject></svg>',
    '<svg><g onload="x()"></g></svg>',
    '<svg><a href="https://x">t</a></svg>',
    '<svg><path fill="url(http://x#y)"/></svg>',
  ])('finds %s', svg => {
    expect(outside(svg)).not.toBeNull();
  });

  it('lets inner references pass', () => {
    expect(
      outside('<svg xmlns="http://www.w3.org/2000/svg"><g clip-path="url(#c)"><a href="#x">t</a></g></svg>'),
    ).toBeNull();
  });
});
