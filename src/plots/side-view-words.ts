/** What a side view shows, in words and in numbers. */
import type { Result } from '../runs/result.ts';
import { lengthText, massText, shareText } from '../runs/weigh/text.ts';
import type { System } from '../units.ts';
import { columnHeading, scaleOf, written } from '../units/rounding.ts';
import type { PictureTable } from './kit/picture.ts';
import { summaryNumber } from './kit/series.ts';
import { numbers, texts } from '../runs/series.ts';
import { SQUARE } from './side-view-layout.ts';

/** What the side view shows, in sentences. */
export function caption(result: Result, system: System): string {
  const value = (key: string): number => summaryNumber(result, key) ?? 0;
  const [from, to] = [value('before_cg_x'), value('kerb_cg_x')];
  const [low, high] = [value('before_cg_height'), value('kerb_cg_height')];
  const moved = (change: number, plus: string, minus: string): string =>
    Math.abs(change) < 0.0005 ? 'stays' : `${lengthText(Math.abs(change), system)} ${change > 0 ? plus : minus}`;
  const square = `a square of ${lengthText(10 * SQUARE, system)} stands for ${massText(100, system)}`;
  return (
    `Boxes with a dashed outline (−) came out, filled ones (+) went in; the area of a box is in proportion to its mass (${square}), ` +
    `and its middle is the place given. The centre of gravity of the empty car: ${moved(to - from, 'further back', 'further forward')}, ` +
    `${moved(high - low, 'higher', 'lower')}. The front axle of the empty car carries ${shareText(value('kerb_front_share'))} of it, before ${shareText(value('before_front_share'))}. ` +
    axleWords(result, system)
  );
}

/** How much is left on each axle, as in the picture. */
function axleWords(result: Result, system: System): string {
  const told = (['front', 'rear'] as const).map(axle => {
    const margin = summaryNumber(result, `${axle}_margin`);
    if (margin === null) return `no permitted load is given for the ${axle} axle`;
    const size = massText(Math.abs(margin), system);
    return margin < 0 ? `the ${axle} axle is over its permitted load by ${size}` : `the ${axle} axle has ${size} left`;
  });
  return `Fully loaded ${told.join(' and ')}.`;
}

/** Everything with a mass and a place. */
export function table(result: Result, system: System): PictureTable {
  const items = result.series['items'] ?? {};
  const keys = ['mass_kg', 'x_m', 'height_m'] as const;
  const head = keys.map(key => {
    const described = items[key];
    return described === undefined ? '' : columnHeading(described.label, scaleOf(described, system).unit);
  });
  const names = texts(items, 'item');
  const what = texts(items, 'what');
  return {
    columns: ['thing', '', ...head],
    rows: names.map((name, i) => [
      name,
      what[i] ?? '',
      ...keys.map(key => {
        const described = items[key];
        if (described === undefined) return '';
        const { factor } = scaleOf(described, system);
        const decimals = key === 'mass_kg' ? 1 : system === 'metric' ? 2 : 1;
        return written((numbers(items, key)[i] ?? 0) * factor, '1', decimals);
      }),
    ]),
  };
}
