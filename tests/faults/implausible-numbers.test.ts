import { describe, expect, it } from 'vitest';
import { isPlausible } from '../../src/runs/plausible.ts';
import { command } from '../command.ts';

const car = (more: string) => `# A car and its questions

\`\`\`yaml car c
mass: 1108 kg
tyres:
  radius: 0.3 m
drive:
  axle: rear
  unit:
    peak_torque: 220 N m
    peak_power: 90 kW
    max_speed: 9000 rpm
${more}
pack:
  cell: cell_nmc_60ah
  series: 90
  parallel: 2
\`\`\`
`;

const questions = `
\`\`\`yaml steady fast
car: c
speed: 120 km/h
\`\`\`

\`\`\`yaml drive way
car: c
speed: 140 km/h
distance: 5 km
\`\`\`

\`\`\`yaml launch up
car: c
slope: 60 %
pedal: 2 %
\`\`\`
`;

interface Told {
  readonly blocks: readonly {
    readonly name?: string;
    readonly result?: {
      readonly summary: Readonly<Record<string, number | string | null>>;
      readonly reasons: Readonly<Record<string, string>>;
      readonly outputs: Readonly<Record<string, { readonly unit: string }>>;
    } | null;
  }[];
}

describe('numbers that nobody can have never leave the command', () => {
  it.each([
    ['a speed above what the gears allow', '  ratio: 18'],
    ['no share of the braking for the drive', '  ratio: 9\n  regeneration:\n    share: 0 %'],
  ])('%s', (_, more) => {
    const called = command({ 'odd.md': car(more) + questions }, ['run', 'odd.md', '--samples', '0']);
    expect(called.code).not.toBe(3);
    const { blocks } = JSON.parse(called.read('out/odd.json')) as Told;
    const results = blocks.flatMap(({ result }) => (result === undefined || result === null ? [] : [result]));
    expect(results.length).toBeGreaterThan(0);
    for (const { summary, reasons, outputs } of results) {
      for (const [key, value] of Object.entries(summary)) {
        if (typeof value === 'number')
          expect(isPlausible(outputs[key]?.unit ?? '1', value), `${key}: ${value}`).toBe(true);
        expect(reasons[key] === undefined, `reason of ${key}`).toBe(value !== null);
        if (value === null) expect(reasons[key]).not.toBe('');
      }
    }
    expect(called.read('out/odd.html')).not.toMatch(/\de[+]?[3-9]\d\b/);
  });
});
