/** Cells of which a first RC pair is quicker than the steps of a schedule, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const cell = (ohmic: string, ...pairs: readonly string[]): string =>
  `{ capacity: 60 Ah, ocv_charge: [0, 20 %, 50 %, 80 %, 100 %], ocv_voltage: [3 V, 3.5 V, 3.65 V, 3.95 V, 4.18 V], resistance_charge: [0, 100 %], resistance_ohm: [${ohmic}, ${ohmic}], ${pairs.join(', ')}, max_current: 300 A, min_voltage: 2.8 V, max_voltage: 4.2 V, mass: 1 kg }`;

const ways = (name: string, cells: string): string => `
\`\`\`yaml car ${name}
mass: 1240 kg
tyres: { size: 165/80 R 13 }
drive: { axle: rear, unit: unit_150kw, ratio: 8.6 }
pack: { cell: ${cells}, series: 96, parallel: 2 }
\`\`\`

\`\`\`yaml drive town_${name}
car: ${name}
schedule: nycc
\`\`\`

\`\`\`yaml range far_${name}
car: ${name}
schedule: udds
temperatures: 20 degC
\`\`\`

\`\`\`yaml charge night_${name}
car: ${name}
supply: { voltage: 230 V, current: 6 A }
\`\`\`
`;

const pairs = (seconds: number): string =>
  cell('1.2 mohm', 'pair_resistance: [0.4 mohm, 0.6 mohm]', `pair_time_constant: [${seconds} s, 120 s]`);

describe('a cell with a quick pair', { timeout: 120_000 }, () => {
  const called = command(
    {
      'quick.md':
        ways('half', pairs(0.5)) +
        ways('least', pairs(0.1)) +
        // Where it is quick enough a pair is a resistance: that is its limit.
        ways('none', cell('1.6 mohm', 'pair_resistance: 0.6 mohm', 'pair_time_constant: 120 s')),
    },
    ['run', 'quick.md', '--samples', '0'],
    120,
  );

  it('is driven and charged like any other', () => {
    expect(called.out).not.toMatch(/ledger|rely|not enough|No range/u);
    expect(called.code).toBe(0);
  });

  it('comes to one that has a resistance in place of that pair, the quicker it is the nearer', () => {
    const off = (run: string, key: string): readonly number[] =>
      ['half', 'least'].map(name =>
        Math.abs(called.values(`${run}_${name}`)[key]! / called.values(`${run}_none`)[key]! - 1),
      );
    for (const [run, key] of [
      ['town', 'charge_end'],
      ['far', 'range'],
    ] as const) {
      const [half, least] = off(run, key);
      expect(least, run).toBeLessThan(0.5 * half!);
      expect(half, run).toBeLessThan(1e-4);
    }
    for (const each of off('night', 'time')) expect(each).toBeLessThan(1e-7);
  });
});
