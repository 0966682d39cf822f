/** One pack whoever asks it, and one answer for cars that are one car to the last digits. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const car = (mass: string, more = ''): string => `
\`\`\`yaml car c
mass: ${mass} kg
tyres: tyre_touring
drive: { axle: rear, unit: unit_100kw, ratio: 8 }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 2, cooling: 5 W/K, charge: 60 % }
${more}
\`\`\`
`;
const cell = (kind: string, name: string, lines: string): string =>
  `\n\`\`\`yaml ${kind} ${name}\ncar: c\n${lines}\n\`\`\`\n`;
const asked = (text: string): ReturnType<typeof command> =>
  command({ 'a.md': `---\nsamples: 0\n---\n${text}` }, ['run', 'a.md', '--json']);

describe('a pack', () => {
  it('takes when the car brakes what it takes from a charger: nothing in the frost and in the heat, and less in the cold', () => {
    const days = { cold: -8, cool: 4, mild: 25, warm: 52, hot: 60 };
    const called = asked(
      car('1200') +
        Object.entries(days)
          .map(
            ([name, day]) =>
              cell('drive', name, `schedule: udds\ntemperature: ${day} degC`) +
              cell(
                'charge',
                `at_${name}`,
                `supply: {voltage: 230 V, current: 16 A, phases: 1}\ntemperature: ${day} degC`,
              ),
          )
          .join(''),
    );
    expect(called.code).toBe(0);
    const back = (name: keyof typeof days): number | null => called.values(name)['returned'] ?? null;
    const plugged = (name: keyof typeof days): number | null => called.values(`at_${name}`)['time'] ?? null;
    // Joules, of round-off.
    expect(back('cold')).toBeLessThan(1e-3);
    expect(plugged('cold')).toBeNull();
    // Too hot to give anything either: there is no drive at all.
    expect([back('hot'), plugged('hot')]).toEqual([null, null]);
    expect(back('cool')).toBeLessThan(0.99 * (back('mild') ?? 0));
    for (const name of ['cool', 'mild', 'warm'] as const) expect(plugged(name)).toBeGreaterThan(0);
  });
});

describe('a launch', () => {
  it('is checked up to where it ends, wherever it is told to', () => {
    const called = asked(
      car('1200') + ['30 km/h', '50 km/h', '140 km/h'].map((to, i) => cell('launch', `to_${i}`, `to: ${to}`)).join(''),
    );
    expect(called.code).toBe(0);
    expect(called.out + called.err).not.toMatch(/second time|found late/u);
  });
});

it('a drive falls behind at an instant, not in a millisecond', () => {
  const text = readFileSync(new URL('../explore/kept/a-time-at-a-limit.md', import.meta.url), 'utf8');
  const times = ['1951.3', '1951.3000019513'].map(mass => {
    const called = command({ 'a.md': text.replace('mass: 1951.3 kg', `mass: ${mass} kg`) }, ['run', 'a.md', '--json']);
    expect(called.code).toBe(0);
    return called.values('l')['limited_time'] ?? Number.NaN;
  });
  expect(Math.abs((times[1] ?? 0) - (times[0] ?? 0))).toBeLessThan(1e-4);
});

describe('two cars that are one to a ten-thousand-millionth', () => {
  const weak = 'cabin: { heater: resistive }\nauxiliaries: { power: 2 kW }';
  const text = (mass: string): string =>
    car(mass, weak).replace('parallel: 2', 'parallel: 1, max_current: 60 A') +
    cell('range', 'frost', 'schedule: us06\ntemperature: -12 degC') +
    cell('range', 'week', 'trip:\n  - {schedule: udds}\n  - {stop: 2 h}\n  - {speed: 80 km/h, distance: 9 km}') +
    cell('drive', 'late', 'schedule: us06') +
    cell('launch', 'up', '');
  const [one, other] = ['1200', '1200.0000001'].map(mass => asked(text(mass)));

  it.each(['frost', 'week', 'late', 'up'])('have one answer: %s', name => {
    expect(one?.code).toBe(0);
    const [mine, theirs] = [one?.values(name) ?? {}, other?.values(name) ?? {}];
    expect(Object.keys(mine).length).toBeGreaterThan(10);
    for (const [key, value] of Object.entries(mine)) {
      const moved = theirs[key] ?? null;
      if (typeof value !== 'number' || typeof moved !== 'number') expect(moved, key).toBe(value);
      else expect(Math.abs(moved - value), key).toBeLessThan(1e-6 * Math.max(1, Math.abs(value)));
    }
  });
});
