/** Samples without an answer stand in the headline with their share and the reason: page, table and terminal, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`yaml ${head}\n${lines.join('\n')}\n\`\`\`\n\n`;

const car = (...more: string[]): string =>
  fence(
    'car van',
    'mass: 1180 kg',
    'tyres: { from: tyre_narrow, size: 165/80 R 14 }',
    'drive: { axle: rear, unit: unit_60kw, ratio: 9 }',
    ...more,
  );

const plain = (text: string): string => text.replaceAll(/[\u00a0\u202f]/gu, ' ').replaceAll(/\s+/gu, ' ');

describe('a charge in the cold that some samples can not begin', () => {
  const notebook =
    car(
      'pack: { cell: cell_nmc_60ah, series: 90, parallel: 2, charge_none_below: -5 degC .. 3 degC, cooling: 6 W/K }',
      'charger: { power: 3.7 kW }',
    ) +
    fence('charge night', 'car: van', 'from: 20 %', 'to: 80 %', 'temperature: 0 degC', 'pack_temperature: 0 degC') +
    fence('spread sure', 'of: night', 'samples: 64');
  const called = command({ 'a.md': notebook }, ['run', 'a.md', '--samples', '64']);
  const page = plain(called.read('out/a.html'));
  const terminal = plain(called.out);
  // 3 of the 8 degrees lie above the temperature of the pack: 24 of 64 draws, but for the unevenness of the sequence.
  const text = /No answer in (\d+) of 64 cases \(\d+(?:\.\d)? %\): the pack is too cold to be charged/u;

  it('says so in the answer on the page, beside the interval of the others', () => {
    const answer = page.slice(page.indexOf('id="answer"'), page.indexOf('id="workings"'));
    expect(answer).toMatch(
      /<b>\d+ h \d+ min<\/b> <span>from 20 % to 80 %<\/span><span>nine of ten within \[[^\]]+\]<\/span>/u,
    );
    const [, missing] = /No answer in (\d+) of 64 cases \(\d+(?:\.\d)? %\): see above</u.exec(answer) ?? [];
    expect(answer).toContain(`in ${missing} of 64 cases`);
    expect(answer).toMatch(/it does not come about: the pack is too cold to be charged/u);
    expect(Math.abs(Number(missing) - 24)).toBeLessThanOrEqual(4);
  });

  it('says so on the terminal', () => {
    expect(terminal).toMatch(text);
  });

  it('says so beside each value in the tables, and in the answer of a spread', () => {
    expect(page).toMatch(/<code>energy_wall<\/code><\/th><td>[^<]* kWh \(no answer in \d+ of 64 cases\)<\/td>/u);
    expect(page).toMatch(/time to charge[^<]*\[[^\]]+\][^<]*no answer in \d+ of 64 cases/u);
  });
});

describe('a launch that some samples do not finish', () => {
  const notebook =
    car('pack: { cell: cell_nmc_60ah, series: 90, parallel: 2 }').replace(
      'unit: unit_60kw, ratio: 9',
      'unit: { peak_torque: 150 N m, peak_power: 60 kW, max_speed: 7700 rpm .. 9700 rpm }, ratio: 9',
    ) + fence('launch hop', 'car: van');
  const called = command({ 'a.md': notebook }, ['run', 'a.md', '--samples', '64']);
  const text = /0 to 100 km\/h: No answer in \d+ of 64 cases \(\d+(?:\.\d)? %\): above its top speed/u;

  it('says so in its card, in its table and on the terminal', () => {
    const page = plain(called.read('out/a.html'));
    const card = page.slice(page.indexOf('<article class="card"'), page.indexOf('</article>'));
    // The box above says why.
    expect(card).toMatch(/No answer in \d+ of 64 cases \(\d+(?:\.\d)? %\): see above</u);
    expect(page.slice(0, page.indexOf('<article class="card"'))).toMatch(
      /in \d+ of 64 cases \(\d+(?:\.\d)? %\) it does not come about: above its top speed/u,
    );
    expect(page).toMatch(/<th scope="row">to 100 km\/h<\/th><td>[^<]*\] s \(no answer in \d+ of 64 cases\)/u);
    expect(plain(called.out)).toMatch(text);
  });
});

it('a run without an answer says how many samples have one', () => {
  const notebook =
    car(
      'pack: { cell: cell_nmc_60ah, series: 90, parallel: 2, charge_none_below: -3 degC .. 5 degC, cooling: 6 W/K }',
      'charger: { power: 3.7 kW }',
    ) + fence('charge night', 'car: van', 'from: 20 %', 'to: 80 %', 'temperature: 0 degC', 'pack_temperature: 0 degC');
  const called = command({ 'a.md': notebook }, ['run', 'a.md', '--samples', '64']);
  const text = /No charge: the pack is too cold[^.]*\. In \d+ of 64 cases there is an answer: \[\d+ h/u;
  expect(plain(called.read('out/a.html'))).toMatch(text);
  expect(plain(called.out)).toMatch(text);
});

it('a spread of a run without an answer says that there is nothing to spread', () => {
  const text = `\`\`\`yaml car c
mass: 1500 kg ± 20 kg
tyres: tyre_touring
drive: { axle: rear, unit: unit_60kw, ratio: 8 }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 1 }
\`\`\`
\`\`\`yaml steady fast
car: c
speed: 230 km/h
\`\`\`
\`\`\`yaml spread many
of: fast
samples: 16
\`\`\`
`;
  const called = command({ 'a.md': text }, ['run', 'a.md', '--samples', '0']);
  const told = (called.out + called.err).replaceAll(/\s+/gu, ' ');
  expect(told).toContain('has no figure with a value, so nothing can be spread');
  expect(told).not.toContain('axlewatt itself');
  expect(called.code).toBe(1);
});

it('a ranking of a run without an answer says so on the terminal', () => {
  const notebook =
    car(
      'pack: { cell: cell_nmc_60ah, series: 90, parallel: 2, charge_none_below: -3 degC .. 5 degC, cooling: 6 W/K }',
      'charger: { power: 3.7 kW }',
    ) +
    fence('charge night', 'car: van', 'temperature: -9 degC') +
    fence('rank first', 'of: night');
  const { out } = command({ 'a.md': notebook }, ['run', 'a.md', '--samples', '0']);
  expect(plain(out)).toContain('The run has no answer: there is nothing to rank.');
});
