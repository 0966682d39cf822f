/** What the owner of a workshop reads of goals of his own, of two ends, of a live axle, and of what is best; through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;
const plain = (text: string): string =>
  text
    .replaceAll(/<[^>]+>/gu, ' ')
    .replaceAll(/[\u00a0\u202f]/gu, ' ')
    .replaceAll(/\s+/gu, ' ');

const van = (drive = '', ...more: string[]): string =>
  fence(
    'car van',
    'mass: 1240 kg ± 20 kg',
    'tyres: { size: 165/80 R 13 }',
    `drive: { axle: rear, unit: unit_150kw, ratio: 8.6${drive} }`,
    'pack: { cell: cell_nmc_60ah, series: 96, parallel: 2 }',
    ...more,
  );

function run(text: string, ...args: readonly string[]) {
  const called = command({ 'a.md': text }, ['run', 'a.md', ...(args.length === 0 ? ['--samples', '0'] : args)]);
  const page = called.read('out/a.html');
  const cards = page.match(/<article class="card"[\s\S]*?<\/article>/gu) ?? [];
  return { out: plain(called.out), page, cards: cards.map(plain) };
}

describe('a launch to a speed of its own', () => {
  const { out, cards, page } = run(
    van() +
      fence('launch wall', 'car: van', 'slope: 60 %', 'surface: wet', 'to: 50 km/h') +
      fence('launch hill', 'car: van', 'slope: 18 %', 'to: 50 km/h'),
  );

  it('is named by it where the car does not move off', () => {
    expect(out).toContain('to 50 km/h: the car does not move off');
    expect(cards[0]).not.toContain('100 km/h');
  });

  it('is told to be above the top speed of the car where it is', () => {
    expect(run(van() + fence('launch sky', 'car: van', 'to: 400 km/h')).out).toContain(
      'to 400 km/h: above its top speed',
    );
  });

  it('is told as far as it goes: what grip takes, and what traction control is worth', () => {
    expect(out).toMatch(/Without traction control 50 km\/h would take \d/u);
    expect(out).toMatch(
      /Up to 50 km\/h these tyres can not put down \d+ % of what the drive unit could give; above \d+ km\/h/u,
    );
    expect(cards[1]).not.toMatch(/100 km\/h (?:would|no sooner)/u);
    // The car holds its slip: its own heat up to the target is that of the slip held at its best, which goes as far.
    const [, held, own] =
      /to 50 km\/h [\d.]+ s [\d.]+ s [\d.]+ s heat in the tyres ([\d.]+ Wh) ([\d.]+ Wh)/u.exec(plain(page)) ?? [];
    expect(held).toBeDefined();
    expect(own).toBe(held);
  });
});

it('two ends of a charge in one line are told as two lines, and as no spread', () => {
  const { out } = run(van() + fence('charge night', 'car: van', 'from: 10 to 80 %', 'supply: { current: 16 A }'));
  expect(out).toContain('expected a line for each: from: 10 % and to: 80 %');
  expect(out).not.toContain('..');
});

it('the lower end of a long time keeps clear of the upper one in the card of a charge', () => {
  const { page } = run(van() + fence('charge night', 'car: van', 'supply: { current: 16 A }'), '--samples', '16');
  const [, room = '', low = '', high = ''] =
    /<div class="ends"[^>]*><span style="right:max\([\d.]+%,(\d+)ch\)">([^<]+)<\/span><span style="right:0">([^<]+)</u.exec(
      page,
    ) ?? [];
  expect(low).toMatch(/\d\s*h/u);
  expect(Number(room)).toBeGreaterThan(high.length);
});

describe('what a first notebook calls otherwise', () => {
  it.each([
    ['the power of a wall', fence('charge night', 'car: van', 'supply: 3.6 kW'), 'did you mean "{ current: 15.7 A }"?'],
    [
      'three phases',
      fence('charge night', 'car: van', 'supply: 11 kW'),
      'did you mean "{ current: 15.9 A, phases: 3 }"?',
    ],
    ['a station', fence('charge night', 'car: van', 'supply: 50 kW'), 'did you mean "{ dc_power: 50 kW }"?'],
    [
      'heating of a day',
      fence('range way', 'car: van', 'speed: 90 km/h', 'heating: yes'),
      'cabin: { heater: resistive }',
    ],
    [
      'a cold pack',
      fence('range way', 'car: van', 'speed: 90 km/h', 'pack_temperature: 2 degC'),
      'did you mean "soaked"?',
    ],
    ['half shafts', fence('duty parts', 'of: dash', 'half_shafts: 800 Nm'), 'did you mean "shafts"?'],
    [
      'a parameter in a line',
      fence('seek few', 'of: dash', 'vary: van.pack.parallel from 1 to 4', 'find: smallest'),
      'did you mean "- { path: van.pack.parallel, from: 1, to: 4 }"?',
    ],
  ])('%s is told with what to write', (_, cell, cure) => {
    expect(run(van() + fence('launch dash', 'car: van') + cell).out).toContain(cure);
  });
});

it('a pack that is too cold to be charged is told with what would help', () => {
  const { out } = run(van() + fence('charge night', 'car: van', 'temperature: -15 degC', 'supply: { current: 16 A }'));
  expect(out).toMatch(/too cold to be charged: .* heater_power of the pack warms it/u);
});

describe('a live axle whose ratio nobody counted', () => {
  const told = (drive: string): string => run(van(drive) + fence('launch dash', 'car: van')).out;

  it('is taken as the kindest case, and that is said', () => {
    expect(told(', suspension: live')).toContain('axle_ratio is not given');
  });

  it.each([', suspension: live, axle_ratio: 4.1', ', suspension: live, differential: locking', ''])(
    'not so:%s',
    drive => {
      expect(told(drive)).not.toContain('axle_ratio');
    },
  );
});

describe('a drag coefficient without ±', () => {
  const told = (coefficient: string, ...args: readonly string[]) =>
    run(van('', `drag_coefficient: ${coefficient}`) + fence('launch dash', 'car: van'), ...args);
  const WORDS = 'Given without ± and so taken as exact: drag coefficient;';

  it('is taken as exact, which is said where the spread is told', () => {
    const { out, page } = told('0.42', '--samples', '16');
    expect(out.split(WORDS)).toHaveLength(2);
    expect(plain(page).split(WORDS)).toHaveLength(2);
  });

  it.each([
    ['0.42 ± 0.03', '16'],
    ['0.42', '0'],
  ])('not so: %s with %s samples', (coefficient, samples) => {
    const { out, page } = told(coefficient, '--samples', samples);
    expect(out + page).not.toContain('taken as exact');
  });
});

describe('the card of a comparison', () => {
  const card = (...outputs: readonly string[]): string =>
    run(
      van() +
        fence('car big', 'from: van', 'mass: 1440 kg', 'pack: { cell: cell_nmc_60ah, series: 96, parallel: 3 }') +
        fence('launch dash', 'car: van') +
        fence('steady way', 'car: van', 'speeds: 90 km/h') +
        fence('compare which', 'of: dash, way', 'cars: van, big', `outputs: ${outputs.join(', ')}`),
    ).cards.find(text => text.includes('which')) ?? '';

  it('names who is best at what, not only the first figure', () => {
    expect(card('dash.time', 'way.range')).toMatch(/van is best for [^;]*100 km\/h[^;]*; big for [^;]*range/iu);
  });

  it('says so where one is best at all', () => {
    expect(card('dash.time', 'dash.time_quarter_mile')).toMatch(/van is best for all 2: /u);
  });
});

describe('a comparison whose best car hangs on what is uncertain', () => {
  const short =
    fence(
      'car van',
      'mass: 1300 kg ± 40 kg',
      'drag_coefficient: 0.30 .. 0.45',
      'frontal_area: 1.7 m^2 .. 2.3 m^2',
      'tyres: { size: 185/65 R 15 }',
      'drive: { axle: rear, ratio: 9, unit: unit_100kw }',
      'pack: { cell: cell_nmc_60ah, series: 96, parallel: 2 }',
    ) +
    fence('car short', 'from: van', 'mass: 1330 kg', 'drive: { axle: rear, ratio: 10.1, unit: unit_100kw }') +
    fence('car heavy', 'from: van', 'mass: 1440 kg') +
    fence('launch dash', 'car: van') +
    fence(
      'compare close',
      'of: dash',
      'cars: van, short',
      'outputs: dash.time',
      'samples: 128',
      'gross_mass: 1900 kg',
    ) +
    fence('compare clear', 'of: dash', 'cars: van, heavy', 'outputs: dash.time', 'samples: 128') +
    fence('compare over', 'of: dash', 'cars: van, heavy', 'outputs: dash.time', 'rear_limit: 760 kg');
  const { out, page, cards } = run(short, '--samples', '16');

  it('crowns no car, and says in how many samples it is the best', () => {
    const [, share = ''] =
      /best is van with [^.]*\.[^;]*; not sure: it is the best in (\d+) of 100 samples/u.exec(out) ?? [];
    expect(Number(share)).toBeGreaterThan(50);
    expect(Number(share)).toBeLessThan(90);
    const card = cards.find(text => text.includes(' close ')) ?? '';
    expect(card).not.toMatch(/is best for|★/u);
    expect(card).toContain('not sure');
    expect(plain(page)).toMatch(/☆ not for sure/u);
  });

  it('crowns the one that is best in nearly all of them', () => {
    expect(cards.find(text => text.includes(' clear '))).toMatch(/van is best for/u);
  });

  it('says so where all cars keep what is permitted, and only there', () => {
    expect(out).toContain('All cars keep the permitted mass, with driver and load alone');
    expect(out.match(/All cars keep/gu)).toHaveLength(1);
  });
});
