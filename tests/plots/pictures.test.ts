import { compile, type TopLevelSpec } from 'vega-lite';
import { describe, expect, it } from 'vitest';
import { comparison, type Named } from '../../src/plots/comparison.ts';
import { closes, energy, entries, sum } from '../../src/plots/energy.ts';
import { packTrace } from '../../src/plots/pack-trace.ts';
import { COLOUR, SIGN } from '../../src/plots/kit/palette.ts';
import type { Picture } from '../../src/plots/kit/picture.ts';
import { span, thin } from '../../src/plots/kit/series.ts';
import { speedTrace } from '../../src/plots/speed-trace.ts';
import { traction } from '../../src/plots/traction.ts';
import { launchOutputs } from '../../src/runs/launch/outputs.ts';
import { noAnswer } from '../../src/runs/no-answer.ts';
import type { Result } from '../../src/runs/result.ts';
import { launch } from '../report/fixture.ts';

const narrow = launch({ mu: 0.7, power: 118_000 });
const track = launch({ mu: 1.45, power: 118_000 });

/** All objects inside a spec that have `key`. */
function having(spec: unknown, key: string): Record<string, unknown>[] {
  if (Array.isArray(spec)) return spec.flatMap(part => having(part, key));
  if (typeof spec !== 'object' || spec === null) return [];
  const own = key in spec ? [spec as Record<string, unknown>] : [];
  return [...own, ...Object.values(spec).flatMap(part => having(part, key))];
}

/** Fill and word of each segment of the strip. */
function words(width: number): unknown[] {
  return having(speedTrace(narrow, 'metric').spec(width), 'fill')
    .filter(part => typeof part['word'] === 'string')
    .map(part => [part['fill'], part['word']]);
}

function sideBySide(named: readonly Named[]): Picture {
  const picture = comparison(named, 'metric');
  if (picture === null) throw new Error('no picture');
  return picture;
}

const pictures: readonly [string, Picture][] = [
  ['speed', speedTrace(narrow, 'metric')],
  ['traction', traction(narrow, 'metric')],
  ['pack', packTrace(narrow, 'metric')],
  ['energy', energy(narrow, 'metric')],
  [
    'comparison',
    sideBySide([
      { name: 'a', result: narrow },
      { name: 'b', result: track },
    ]),
  ],
];

describe.each(pictures)('the picture of %s', (_, picture) => {
  it('has a title, words and a table with as many cells as columns', () => {
    expect(picture.title).not.toBe('');
    expect(picture.caption).toMatch(/\.$/);
    expect(picture.caption).not.toMatch(/NaN|undefined|Infinity/);
    expect(picture.table.rows.length).toBeGreaterThan(3);
    for (const row of picture.table.rows) expect(row).toHaveLength(picture.table.columns.length);
  });

  it('is plain data that loads nothing, and the same each time', () => {
    const text = JSON.stringify(picture.spec(720));
    expect(text).toBe(JSON.stringify(picture.spec(720)));
    expect(text).not.toMatch(/"url"|"href"|https?:|null,"y":null|NaN/);
  });

  it('fits the width it is asked for', () => {
    for (const width of [340, 720]) {
      for (const view of having(picture.spec(width), 'width')) expect(view['width']).toBeLessThanOrEqual(width);
    }
  });
});

describe('speed trace', () => {
  it('has one coloured segment per band, with the word where there is room and the letter where there is less', () => {
    const wide = words(720);
    expect(wide).toContainEqual([COLOUR.grip, 'grip']);
    expect(wide).toContainEqual([COLOUR['motor speed'], 'motor speed']);
    expect(words(340)).toContainEqual([COLOUR['motor speed'], SIGN['motor speed']]);
  });

  it('segments join and cover the span', () => {
    const segments = having(speedTrace(narrow, 'metric').spec(720), 'word').map(s => [s['from'], s['to']]);
    expect(segments[0]?.[0]).toBe(0);
    segments.slice(1).forEach((segment, i) => expect(segment[0]).toBe(segments[i]?.[1]));
    expect(segments.at(-1)?.[1]).toBe(span(narrow));
  });

  it('explains each letter in the caption', () => {
    expect(speedTrace(narrow, 'metric').caption).toContain('G, grip, ');
  });
});

describe('traction diagram', () => {
  it('shades exactly where the drive could push more than the tyres take', () => {
    const area = having(traction(narrow, 'metric').spec(720), 'top') as { x: number; y: number; top: number }[];
    expect(area.length).toBeGreaterThan(2);
    for (const point of area) expect(point.top).toBeGreaterThanOrEqual(point.y);
    const last = area.at(-1);
    expect(last?.top).toBeCloseTo(last?.y ?? Number.NaN, 9);
  });

  it('shades nothing on tyres that take everything, and says so', () => {
    const picture = traction(track, 'metric');
    expect(having(picture.spec(720), 'top')).toHaveLength(0);
    expect(picture.caption).toContain('grip takes nothing away');
  });

  it('is the same diagram in pounds and miles per hour', () => {
    const metric = traction(narrow, 'metric').table.rows.at(-1)?.[0];
    const imperial = traction(narrow, 'imperial').table.rows.at(-1)?.[0];
    // 1 mile = 1609.344 m (NIST SP 811).
    expect(Number(imperial)).toBeCloseTo(Number(metric) / 1.609344, 0);
  });
});

describe('energy', () => {
  it('adds up: each bar begins where the one above ends, the last ends with the first', () => {
    const bars = (having(energy(narrow, 'metric').spec(720), 'from') as { from: number; to: number }[]).filter(
      bar => typeof bar.from === 'number',
    );
    const [all, ...parts] = bars;
    if (all === undefined) throw new Error('no bars');
    expect(parts[0]?.from).toBe(0);
    parts.slice(1).forEach((bar, i) => expect(bar.from).toBe(parts[i]?.to));
    expect(parts.at(-1)?.to).toBeCloseTo(all.to, 6);
  });

  it('lists shares that sum to one', () => {
    const shares = entries(narrow.ledger).filter(entry => entry.side !== 'in');
    expect(shares.reduce((total, entry) => total + entry.share, 0)).toBeCloseTo(1, 9);
    expect(sum({})).toBe(0);
  });

  it.each([
    [2.5e-9, '1 part in 400\u202f000\u202f000'],
    [-1e-6, '1 part in 1\u202f000\u202f000'],
    [0.03, '1 part in 30'],
    [1e-5, '1 part in 100\u202f000'],
    [0, 'the last digit of the computer'],
    [1e-16, 'the last digit of the computer'],
  ])('says how well %s closes', (gap, text) => {
    expect(closes(gap)).toBe(text);
  });
});

describe('comparison', () => {
  it('says which is first, and who does not arrive', () => {
    const stuck: Result = { ...narrow, summary: { ...narrow.summary, time_to_100_km_h: null } };
    const { caption } = sideBySide([
      { name: 'slow', result: stuck },
      { name: 'quick', result: track },
    ]);
    expect(caption).toMatch(/reached by quick after [^;]*; not by slow\./);
  });

  it('has one key, by colour and dash together, with the bars of the intervals too', () => {
    const ends = { low: 7, high: 9, standard: 0.6, error: 0.1, known: true, below: 0.5, missing: 0 };
    const of = { time_to_100_km_h: { ...ends, promised: { atLeast: 7, atMost: 9 } } };
    const named = [narrow, track].map((result, i) => ({
      name: `car ${i}`,
      result: { ...result, intervals: { probability: 0.9, samples: 64, seed: 1, inputs: 3, holes: {}, of } },
    }));
    const { legends } = compile(sideBySide(named).spec(720) as TopLevelSpec).spec;
    expect(legends?.map(({ stroke, strokeDash }) => [stroke, strokeDash])).toEqual([['color', 'strokeDash']]);
  });

  it('leaves out what does not move off, and says so; of one launch alone there is no picture', () => {
    const still = noAnswer('launch', launchOutputs, 'the car does not move off: grip leaves too little');
    const named = [
      { name: 'still', result: still },
      { name: 'slow', result: narrow },
      { name: 'quick', result: track },
    ];
    const { caption, table } = sideBySide(named);
    expect(caption).toMatch(/ still does not move off\.$/);
    expect(table.columns).toHaveLength(3);
    expect(comparison(named.slice(0, 2), 'metric')).toBeNull();
  });
});

describe('thin', () => {
  it('keeps the first and the last', () => {
    expect(thin(3, 10)).toEqual([0, 1, 2]);
    expect(thin(1000, 4)).toEqual([0, 333, 666, 999]);
    expect(thin(0, 4)).toEqual([]);
  });
});
