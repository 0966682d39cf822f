import { describe, expect, it } from 'vitest';
import { compareDots } from '../../src/plots/compare.ts';
import type { Picture } from '../../src/plots/kit/picture.ts';
import { seekTried } from '../../src/plots/seek.ts';
import { histogram, spreadHistograms } from '../../src/plots/spread.ts';
import { sweepFront } from '../../src/plots/sweep-front.ts';
import { sweepLines } from '../../src/plots/sweep-lines.ts';
import { sweepMap } from '../../src/plots/sweep-map.ts';
import { tornado } from '../../src/plots/tornado.ts';
import { chanceText, intervalText } from '../../src/plots/kit/interval.ts';
import { draw } from '../../src/report/page/render.ts';
import type { Result } from '../../src/runs/result.ts';
import * as studies from '../studies-results.ts';

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const seconds = { unit: 's', display: { metric: 's', imperial: 's' } };

describe('a value with its interval', () => {
  it('has one unit, and as many decimals as the value', () => {
    expect(plain(intervalText(6.789, { low: 6.4739, high: 7.248 }, seconds, 'metric'))).toBe('6.79 [6.47, 7.25] s');
    const metres = { unit: 'm', display: { metric: 'km', imperial: 'mi' } };
    expect(plain(intervalText(273_040, { low: 218_216, high: 318_323 }, metres, 'metric'))).toBe('273 [218, 318] km');
    expect(plain(intervalText(273_040, { low: 218_216, high: 318_323 }, metres, 'imperial'))).toBe('170 [136, 198] mi');
  });

  it('shifts both ends of a temperature with its scale', () => {
    const kelvin = { unit: 'K', display: { metric: 'degC', imperial: 'degF' } };
    expect(plain(intervalText(273.15, { low: 263.15, high: 283.15 }, kelvin, 'metric'))).toBe('0 [−10, 10] °C');
  });

  it('is bare where the interval does not show', () => {
    expect(plain(intervalText(6.789, { low: 6.7891, high: 6.7893 }, seconds, 'metric'))).toBe('6.79 s');
  });

  it('says a chance in words where there are some', () => {
    expect([0.9, 0.95, 0.87].map(chanceText).map(plain)).toEqual(['nine of ten', '19 of 20', '87 %']);
  });
});

describe('a histogram', () => {
  it('holds every value once, its bars side by side', () => {
    const sorted = Float64Array.from({ length: 500 }, (_, k) => Math.sqrt(k));
    const bins = histogram(sorted);
    expect(bins.reduce((sum, { count }) => sum + count, 0)).toBe(500);
    bins.slice(1).forEach((bin, k) => expect(bin.from).toBeCloseTo(bins[k]!.to, 9));
    expect(bins.length).toBeGreaterThanOrEqual(5);
    expect(bins.length).toBeLessThanOrEqual(40);
  });

  it('is one bar for values that are all alike', () => {
    expect(histogram(Float64Array.of(3, 3, 3))).toEqual([{ from: 3, to: 3, count: 3 }]);
  });
});

describe('the words and tables of the pictures', () => {
  it('name the best car of each row', () => {
    const { caption, table } = compareDots(studies.compared, 'metric');
    expect(caption).toContain('quick for to 100 km/h (dash)');
    expect(table.columns).toEqual(['figure', 'base', 'quick', 'heavy']);
  });

  it('say how many values and lines a sweep has, and draw a line for each', () => {
    const { caption, table } = sweepLines(studies.sweptTwo, 'metric');
    expect(caption).toContain('7 values of drive.ratio, a line for each value of mass');
    expect(table.rows).toHaveLength(12);
    const drawn = JSON.stringify(sweepLines(studies.sweptTwo, 'metric').spec(720));
    expect(plain(drawn)).toContain('1250 kg');
  });

  it('shade what the interval holds, and only that', () => {
    const [view] = (
      spreadHistograms(studies.spread, 'metric').spec(720) as {
        vconcat: { layer: { data: { values: { from: number; to: number; inside: boolean }[] } }[] }[];
      }
    ).vconcat;
    const dark = view!.layer[0]!.data.values.filter(({ inside }) => inside);
    const { low, high } = studies.spread.intervals!.of['dash_time']!;
    expect(Math.min(...dark.map(({ from }) => from))).toBeCloseTo(low, 9);
    expect(Math.max(...dark.map(({ to }) => to))).toBeCloseTo(high, 9);
  });

  it('mark what a search found, or what comes closest', () => {
    expect(seekTried(studies.found, 'metric').caption).toContain('the diamond is what was found');
    expect(seekTried(studies.none, 'metric').caption).toContain('the diamond is what was closest');
    expect(seekTried(studies.found, 'metric').table.rows.filter(row => row.at(-1) === 'found')).toHaveLength(1);
  });

  it('begin with the input that moves a result most', () => {
    const { caption, table } = tornado(studies.ranked, 'metric');
    expect(caption).toContain(`${table.rows[0]![0]} moves it most`);
  });
});

describe('all pictures of the studies', () => {
  const pictures: readonly (readonly [string, (result: Result) => Picture, Result])[] = [
    ['a comparison', result => compareDots(result, 'metric'), studies.compared],
    ['a sweep over one parameter', result => sweepLines(result, 'metric'), studies.sweptOne],
    ['a sweep over two', result => sweepLines(result, 'imperial'), studies.sweptTwo],
    ['a sweep over cars', result => sweepLines(result, 'metric'), studies.sweptCars],
    ['a map', result => sweepMap(result, 'metric'), studies.sweptTwo],
    ['a front', result => sweepFront(result, 'metric'), studies.sweptCars],
    ['a scatter', result => sweepFront(result, 'imperial'), studies.sweptThree],
    ['a spread', result => spreadHistograms(result, 'imperial'), studies.spread],
    ['a tornado', result => tornado(result, 'metric'), studies.ranked],
    ['a search over whole numbers', result => seekTried(result, 'metric'), studies.found],
    ['a search that finds nothing', result => seekTried(result, 'metric'), studies.none],
  ];
  it.each(pictures.flatMap(each => [340, 720].map(width => [each[0], width, each[1], each[2]] as const)))(
    'can be drawn: %s, %i px wide',
    async (_, width, picture, result) => {
      const drawn = picture(result);
      const { title, caption } = drawn;
      expect(title).not.toBe('');
      expect(caption).toMatch(/^[A-Z0-9].*\.$/);
      const { svg, warnings } = await draw(drawn.spec(width), 'p');
      expect(svg).not.toMatch(/NaN|undefined/);
      expect(warnings).toEqual([]);
      expect(svg.length).toBeLessThan(90_000);
      const [, wide = '0'] = /<svg[^>]* width="(\d+)/.exec(svg) ?? [];
      expect(Number(wide)).toBeLessThanOrEqual(width + 30);
    },
  );

  it('stay small for big sweeps', async () => {
    const side = 60;
    const count = side * side;
    const column = (values: Float64Array): Result['series'][string][string] => ({
      label: 'a.b',
      unit: '1',
      display: { metric: '1', imperial: '1' },
      values,
    });
    const rows = {
      at_1: column(Float64Array.from({ length: count }, (_, k) => Math.floor(k / side))),
      at_2: column(Float64Array.from({ length: count }, (_, k) => k % side)),
      a_time: column(Float64Array.from({ length: count }, (_, k) => Math.sin(k))),
      b_time: column(Float64Array.from({ length: count }, (_, k) => Math.cos(k))),
    };
    const big: Result = { ...studies.sweptTwo, series: { rows } };
    for (const picture of [sweepMap, sweepFront, sweepLines]) {
      const { svg } = await draw(picture(big, 'metric').spec(720), 'p');
      expect(svg.length).toBeLessThan(200_000);
    }
    expect(sweepMap(big, 'metric').caption).toContain('24 by 24 of the 60 by 60 points');
  });
});
