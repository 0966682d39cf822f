/** A question without an answer, and a promise that is not kept, as they stand before every other answer; through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;
const plain = (text: string): string =>
  text
    .replaceAll(/<[^>]+>/gu, ' ')
    .replaceAll(/[\u00a0\u202f]/gu, ' ')
    .replaceAll(/\s+/gu, ' ');

const van = fence(
  'car van',
  'mass: 1240 kg',
  'tyres: { size: 165/80 R 13 }',
  'drive: { axle: rear, unit: unit_60kw, ratio: 8.6 }',
  'pack: { cell: cell_nmc_60ah, series: 96, parallel: 1 }',
);

const text =
  van +
  fence('charge frost', 'car: van', 'temperature: -20 degC') +
  fence('steady too_fast', 'car: van', 'speed: 250 km/h') +
  fence('coast downhill', 'car: van', 'from: 60 km/h', 'to: 20 km/h', 'slope: -20 %') +
  fence('range empty', 'car: van', 'schedule: wltc', 'charge: 3 %') +
  fence('launch wall', 'car: van', 'slope: 50 %', 'surface: ice') +
  fence('launch dash', 'car: van', 'to: 80 km/h') +
  fence('check', '- Quick enough for the slip road: dash.time_to_80_km_h < 2 s');

describe('a page of questions without an answer', () => {
  const called = command({ 'a.md': text }, ['run', 'a.md', '--samples', '0']);
  const page = called.read('out/a.html');
  const out = plain(called.out);
  const alarms = plain(/<div class="alarms"[\s\S]*?<\/div>/u.exec(page)?.[0] ?? '');
  const cards = page.match(/<article class="card[\s\S]*?<\/article>/gu) ?? [];

  it.each([
    ['frost', 'too cold to be charged'],
    ['too fast', 'the car does not hold 250 km/h'],
    ['downhill', 'the car does not slow down'],
    ['empty', 'the pack is empty at the start'],
    ['wall', 'the car does not move off'],
  ])('says of %s before all else that it %s, and once in its card', (name, reason) => {
    expect(alarms).toContain(reason);
    const card = plain(cards.find(each => plain(each).includes(` ${name} `)) ?? '');
    expect(card.split(reason)).toHaveLength(2);
    expect(card).not.toMatch(/– (?:at|to coast)/u);
  });

  it('says each reason once at the terminal', () => {
    expect(out.split('too cold to be charged')).toHaveLength(2);
    expect(out.split('the car does not move off')).toHaveLength(2);
  });

  it('calls a promise that is not kept by its words, at the terminal and at the top of the page', () => {
    expect(out).toMatch(
      /fails: Quick enough for the slip road: [\d.]+ s < 2 s \(line \d+, dash\.time_to_80_km_h < 2 s\)/u,
    );
    const top = plain(/<section class="troubles"[\s\S]*?<\/section>/u.exec(page)?.[0] ?? '');
    expect(top).toContain('fails: Quick enough for the slip road');
  });
});

it('the speed that a launch was asked for stands first: at the terminal, in its words and at the dot of its picture', () => {
  const called = command({ 'a.md': van + fence('launch merge', 'car: van', 'to: 80 km/h') }, [
    'run',
    'a.md',
    '--samples',
    '0',
  ]);
  const time = `${called.values('merge')['time']?.toFixed(2)} s`;
  expect(plain(called.out)).toContain(`launch merge to 80 km/h ${time}, to 100 km/h`);
  const page = plain(called.read('out/a.html'));
  expect(page).toContain(`To 80 km/h in ${time}.`);
  expect(page).toContain(`80 km/h at ${time}`);
  expect(page).not.toContain('100 km/h at');
});

it('a sweep is told its steps where it says a count or points', () => {
  const sweep =
    fence('launch dash', 'car: van') +
    fence('sweep gears', 'of: dash', 'over:', '  - { path: van.drive.ratio, from: 5, to: 9, count: 5 }');
  const { out } = command({ 'a.md': van + sweep }, ['run', 'a.md', '--samples', '0']);
  expect(plain(out)).toMatch(/unknown key "count"; .*did you mean "steps"\?/u);
});
