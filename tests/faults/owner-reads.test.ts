/** What the owner of a workshop reads in a report: sentences that are true, worth their place and well made. Through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const fence = (head: string, ...lines: string[]): string => `\`\`\`${head}\n${lines.join('\n')}\n\`\`\`\n\n`;
const car = (tyres = 'size: 195/75 R 16 C, pressure: 4.2 bar', charger = '7.4 kW'): string =>
  fence(
    'yaml car van',
    'mass: 1950 kg',
    'drag_area: 1.75 m^2',
    `tyres: { ${tyres} }`,
    'drive: { axle: front, unit: unit_100kw, ratio: 9 }',
    'pack: { cell: cell_lfp_100ah, series: 104, parallel: 2 }',
    `charger: { power: ${charger} }`,
  );
interface Read {
  readonly out: string;
  readonly page: string;
}
const plain = (text: string): string =>
  text
    .replaceAll(/<(style|script)[^]*?<\/\1>/gu, '')
    .replaceAll(/<[^>]*>/gu, '')
    .replaceAll(/[\s\u00a0]+/gu, ' ');
const read = (text: string): Read => {
  const called = command({ 'a.md': text }, ['run', 'a.md', '--samples', '0']);
  return { out: plain(`${called.out}${called.err}`), page: plain(called.read('out/a.html')) };
};

describe('two launches', () => {
  const launch = (name: string, ...lines: string[]): string =>
    fence(`yaml launch ${name}`, 'car: van', 'to: 40 km/h', ...lines);

  it('of which none gets to 100 km/h say so', () => {
    const { page } = read(car() + launch('hill', 'slope: 20 %') + launch('hillwet', 'slope: 20 %', 'surface: wet'));
    expect(page).toContain('None of them reaches 100 km/h in its run.');
    expect(page).not.toContain('does not reach it');
  });
});

describe('a drive', () => {
  it('that never brakes says nothing of the brakes', () => {
    const { out } = read(car() + fence('yaml drive flat', 'car: van', 'speed: 50 km/h', 'distance: 3 km'));
    expect(out).toContain('flat');
    expect(out).not.toContain('brakes');
  });

  it('that does tells what they take', () => {
    const { out } = read(car() + fence('yaml drive town', 'car: van', 'schedule: udds'));
    expect(out).toMatch(/Slowing down brings .* the brakes take \d+(\.\d+)? k?Wh/u);
  });
});

describe('a pressure', () => {
  const dash = fence('yaml launch dash', 'car: van', 'to: 40 km/h');

  it.each(['size: 195/75 R 16 C, pressure: 4.2 bar', 'size: 195/75 R16C 107/105 R, pressure: 5 bar'])(
    'of a light commercial tyre is usual: %s',
    tyres => {
      expect(read(car(tyres) + dash).page).not.toContain('is unusual');
    },
  );

  it.each([
    ['size: 195/75 R 16 C, pressure: 5.5 bar', '550 kPa is unusual, 200 kPa to 500 kPa is what such tyres have'],
    ['size: 195/75 R 16, pressure: 4.2 bar', '420 kPa is unusual, 140 kPa to 350 kPa is what cars have'],
  ])('is questioned where it is not: %s', (tyres, words) => {
    const { page } = read(car(tyres) + dash);
    expect(page).toContain(`${words}: is a digit or the unit wrong?`);
    expect(page).not.toContain('?.');
  });
});

describe('a charge', () => {
  const night = fence('yaml charge night', 'car: van', 'supply: { current: 32 A }');

  it('at a supply that is as strong as the charger promises nothing of a stronger one', () => {
    // 32 A at 230 V are 7.36 kW, half a percent below 7.4 kW.
    const { out } = read(car() + night);
    expect(out).toContain('Supply and charger set the pace alike');
    expect(out).not.toContain('a stronger one would shorten it');
  });

  it('at a supply that is weaker, or by a charger that is, names it', () => {
    // 1.03 of 7.36 kW, and 0.97 of it.
    expect(read(car(undefined, '7.6 kW') + night).out).toContain(
      'The supply sets the pace for most of the time: a stronger',
    );
    expect(read(car(undefined, '7.1 kW') + night).out).toContain(
      'The charger sets the pace for most of the time: a stronger',
    );
  });
});

describe('a duty', () => {
  it('names a part once, whichever way its currents go', () => {
    const { page } = read(
      car() +
        fence('yaml drive town', 'car: van', 'schedule: udds') +
        fence('yaml duty parts', 'of: town', 'fuse: { rated: 300 A }'),
    );
    expect(page).toContain(
      'What to look for in the data sheets of the others: pack (also charged), string (also charged), inverter (also braking)',
    );
  });
});

describe('a drive up a hill', () => {
  const hot = car().replace(
    'unit: unit_100kw',
    'unit: { peak_torque: 250 N m, peak_power: 90 kW, continuous_power: 45 kW }',
  );
  const climb = (...lines: string[]): string => fence('yaml drive climb', 'car: van', ...lines);

  it('that does not get there says so first, where and why, and no time at which it arrives', () => {
    const { out, page } = read(
      hot.replace('mass: 1950 kg', 'mass: 3800 kg') + climb('speed: 50 km/h', 'distance: 6 km', 'slope: 12 %'),
    );
    for (const text of [out, page]) {
      expect(text).toMatch(
        /It does not get there: from \d\.\d+ km on it falls behind, and after \d\.\d+ km and 3 min it can not go on, with \d\.\d+ km still to go/u,
      );
      expect(text).toContain('the drive unit or the pack is too warm and is derated');
      expect(text).not.toMatch(/arrives .* late/u);
    }
    expect(page).toMatch(/\d\.\d+ km short of steady 50 km\/h/u);
    expect(out.indexOf('It does not get there')).toBeLessThan(out.indexOf('at the pack'));
  });

  it('that crawls when its time is over says how far it still has to go', () => {
    const geared = hot.replace('ratio: 9', 'ratio: 3.7, gearbox: { gears: [2.9, 1.5] }');
    const { out } = read(
      geared.replace('1950 kg', '3000 kg') + climb('speed: 50 km/h', 'distance: 6 km', 'slope: 15 %'),
    );
    expect(out).toMatch(
      /and after 7 min, when all of the way should be done, \d\.\d+ km are still to go and it does \d+ km\/h where 50 km\/h are asked: the drive unit or the pack is too warm/u,
    );
    expect(out).not.toMatch(/arrives .* late/u);
  });

  it('that gets there late says by how much', () => {
    const { out } = read(hot + climb('schedule: us06', 'slope: 4 %'));
    expect(out).toMatch(/and arrives \d+ s late/u);
    expect(out).not.toContain('does not get there');
  });
});

describe('a main fuse and a main cable', () => {
  const duty = (fuse: string, cable: string): Read =>
    read(
      car().replace('parallel: 2', 'parallel: 1') +
        fence('yaml launch dash', 'car: van', 'to: 100 km/h') +
        fence('yaml duty parts', 'of: dash', `fuse: { ${fuse} }`, `cable: { ${cable} }`),
    );
  const cable = 'current: 250 A, rise: 50 K, time: 5 min, section: 50 mm^2';

  it('without what judges them say what is missing, and for how long the fuse is beyond its rating', () => {
    const { out, page } = duty('rated: 150 A', cable);
    expect(page).toMatch(
      /no melting curve is given, and it decides: dash draws \d+ A, \d\.\d\d times the rated 150 A, for \d+ s ?none ?look at it/u,
    );
    expect(page).toMatch(/dash lasts \d+ s and not 30 min: once, with nothing before and after it/u);
    expect(out).toContain(
      'mind: main cable, temperature of the conductor: not judged: “greatest”, the temperature that its insulation bears, is not entered',
    );
  });

  it('with it are judged, and a fuse that bears the current for ever is not questioned', () => {
    const { out, page } = duty('rated: 600 A', `${cable}, greatest: 90 degC`);
    expect(page).not.toContain('and it decides');
    expect(`${out}${page}`).not.toContain('not judged');
  });
});

describe('a capacity written on a cell that ships', () => {
  const minded = (cell: string): string =>
    read(
      car().replace('cell: cell_lfp_100ah', `cell: { from: cell_lfp_100ah, ${cell} }`) +
        fence('yaml launch dash', 'car: van', 'to: 40 km/h'),
    ).out;

  it('of another size is told, for its current and its resistance stay', () => {
    expect(minded('capacity: 150 Ah')).toContain(
      'mind: van.pack.cell.capacity: 150 Ah on cell_lfp_100ah, which has 100 Ah: max_current, and resistance and mass where none is written, are still those of that cell',
    );
  });

  it.each(['capacity: 95 Ah', 'capacity: 150 Ah, max_current: 450 A'])(
    'is not where it is like it, or says its own current: %s',
    cell => {
      expect(minded(cell)).not.toContain('still those of that cell');
    },
  );
});
