/** Slips of somebody who writes his first notebook: each is told with its line, its field and its cure, by the built command, and nothing else is lost. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const REST = `tyres: {size: 165/80 R 13}
drive: {axle: rear, unit: unit_150kw, ratio: 8.6}
pack: {cell: cell_nmc_60ah, series: 96, parallel: 2}`;
const fence = (head: string, text: string): string => `\`\`\`${head}\n${text}\n\`\`\`\n`;
const car = (name: string, text: string): string => fence(`yaml car ${name}`, text);
const check = (files: Record<string, string>): { said: string; code: number | null } => {
  const { err, out, code } = command(files, ['check', 'a.md']);
  return { said: `${out}${err}`.replaceAll(/\s+/gu, ' '), code };
};

describe('a slip in a car', () => {
  const slips: readonly (readonly [name: string, text: string, told: string])[] = [
    [
      'thousands',
      `mass: 1.240 kg\n${REST}`,
      'thousands.mass: 1.240 kg is too small; expected 50 kg to 20000 kg; did you mean "1240 kg"?',
    ],
    [
      'blank',
      `mass: 1240 kg\n ${REST}`,
      'this line begins in no column of the lines above; expected the same blanks before each line of a group',
    ],
    [
      'comma',
      `mass: 1240 kg,\n${REST}`,
      'comma.mass: "1240 kg," is no number; expected a mass such as "1010 kg"; did you mean "1240 kg"?',
    ],
    [
      'quotes',
      `mass: “1240 kg”\n${REST}`,
      'quotes.mass: "“1240 kg”" is no number; expected a mass such as "1010 kg"; did you mean "1240 kg"?',
    ],
    [
      'about',
      `mass: about 1240 kg\n${REST}`,
      'about.mass: "about 1240 kg" is no number; expected a mass such as "1010 kg"; did you mean "1240 kg"?',
    ],
    [
      'noted',
      `mass: 1240 kg (weighed)\n${REST}`,
      'noted.mass: a note in brackets; expected a note behind " #"; did you mean "1240 kg # weighed"?',
    ],
    [
      'colon',
      `mass: 1240 kg\n${REST.replace('8.6', '8.6:1')}`,
      'colon.drive.ratio: a colon divides nothing here; expected the number alone; did you mean "8.6"?',
    ],
    [
      'bar',
      `mass: 1240 kg\n${REST.replace('R 13', 'R 13, pressure: 2,4 bar')}`,
      'a comma parts two entries here; expected a decimal point in a number; did you mean "pressure: 2.4 bar"?',
    ],
    [
      'layout',
      `mass: 1240 kg\n${REST.replace('series: 96, parallel: 2', 'layout: 96s2p')}`,
      'layout.pack.layout: unknown key "layout"; did you mean "series"?',
    ],
    [
      'spoken',
      `mass: 1240 kg\n${REST.replace('unit_150kw', '{peak_torque: 250 Nm, peak_power: 100 kW, max_speed: 12000 U/min}')}`,
      'spoken.drive.unit.max_speed: unknown unit "U/min"; expected a rotational speed such as "9000 rpm"; did you mean "rpm"?',
    ],
  ];

  it('is told with its cure, each in its own cell, and the cell that is right still runs', () => {
    const sound = car('van', `mass: 1240 kg\n${REST}`) + fence('yaml launch dash', 'car: van');
    const { said, code } = check({ 'a.md': slips.map(([name, text]) => car(name, text)).join('') + sound });
    for (const [, , told] of slips) expect(said).toContain(told);
    expect(said).not.toContain('dash');
    expect(code).toBe(1);
  });
});

describe('a fence that is none', () => {
  const cell = car('van', `mass: 1240 kg\n${REST}`);

  it.each([
    ['two backticks', cell.replaceAll('```', '``'), 'a.md:1:1: `` begins no car cell; expected three backticks'],
    ['apostrophes', cell.replaceAll('```', "'''"), "a.md:1:1: ''' begins no car cell; expected three backticks"],
    [
      'four blanks',
      cell.replaceAll(/^(?=.)/gmu, '    '),
      'a.md:1:5: blanks in front of this fence make it a piece of text, no car cell; expected fences at the left margin',
    ],
    [
      'words behind the end',
      cell.replace(/```\n$/u, '``` end of car\n'),
      'a.md:6:5: text behind the ``` that ends a cell; expected ``` alone in its line',
    ],
  ])('by %s is told where it stands', (_, text, told) => {
    const { said, code } = check({ 'a.md': `${text}\n${fence('yaml launch dash', 'car: van')}` });
    expect(said).toContain(told);
    expect(code).toBe(1);
  });

  it('is no problem where prose only speaks of one', () => {
    const { said, code } = check({
      'a.md': `Write \`yaml car van\` behind three backticks.\n\n${fence('text', '``yaml car van')}\n${cell}`,
    });
    expect(said.trim()).toBe('');
    expect(code).toBe(0);
  });
});

describe('slips beside the car', () => {
  it('are told in the list of a trip, in a condition, in a log and in a file that is none', () => {
    const { said, code } = check({
      'a.md': [
        car('van', `mass: 1240 kg\n${REST}`),
        fence('yaml launch dash', 'car: van'),
        fence('yaml drive trip', 'car: van\ntrip:\n- speed: 50 km/h\n distance: 3 km\n- stop: 1 h'),
        fence(
          'yaml seek ratio',
          'of: dash\nvary:\n  - {path: van.drive.ratio, from: 6, to: 12}\nfind: smallest\nwhere:\n  - dash.time < 8',
        ),
        fence('yaml check soon', '- dash.time <= 8'),
        fence('yaml drive words', 'car: van\nlog: words.csv'),
        fence('yaml drive sheet', 'car: van\nlog: sheet.csv'),
      ].join('\n'),
      'words.csv': 'time_s,speed_km_h\n0,0\n10,thirty\n20,0\n',
      'sheet.csv': 'PK\u0003\u0004\u0014\u0000',
    });
    expect(said).toContain('a.md:16:2: this line begins in no column of the lines above');
    expect(said).toContain('ratio.where[1]: 8 has no unit; expected a time such as "8 s"');
    expect(said).toContain('a time cannot be compared with a pure number: a unit is missing on one side');
    expect(said).toContain('words.csv:3:4: "thirty" is not a number; expected a number in the column "speed_km_h"');
    expect(said).toContain(
      'cannot read "sheet.csv": it is a spreadsheet or another binary file; save it as CSV in UTF-8',
    );
    expect(code).toBe(1);
  });
});
