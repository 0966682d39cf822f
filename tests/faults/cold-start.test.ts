/** A launch, a repeat and a sheet in the cold, through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';

const CAR = `
\`\`\`yaml car van
mass: 1050 kg
tyres:
  size: 165/80 R 13
drive:
  axle: front
  unit:
    peak_torque: 230 N m
    peak_power: 80 kW
  ratio: 8.2
pack:
  cell: cell_nmc_60ah
  series: 96
  parallel: 1
  charge: 30 %
  health: 80 %
  resistance_growth: 1.8
\`\`\`
`;

const NOTEBOOK = `# Cold
${CAR}
\`\`\`yaml launch cold
car: van
temperature: -10 degC
\`\`\`

\`\`\`yaml launch garage
car: van
temperature: -10 degC
soaked: 25 degC
\`\`\`

\`\`\`yaml repeat again
car: van
temperature: -10 degC
times: 1
\`\`\`

\`\`\`yaml sheet tests
car: van
temperature: -10 degC
\`\`\`
`;

describe('a car in the cold', () => {
  it('starts with a pack as cold as the day, in a launch, a repeat and a sheet alike', () => {
    const called = command({ 'cold.md': NOTEBOOK }, ['run', 'cold.md', '--samples', '0']);
    const cold = called.values('cold');
    const garage = called.values('garage');
    // At 25 degC the cells have the resistance of their data; at -10 degC exp(2400 (1/263.15 - 1/298.15)) = 2.9 of it.
    expect(cold['time']! / garage['time']!).toBeGreaterThan(1.5);
    expect(cold['pack_temperature']).toBeGreaterThan(263.15);
    expect(cold['pack_temperature']).toBeLessThan(270);
    expect(called.values('again')['time_first']).toBeCloseTo(cold['time']!, 9);
    expect(called.values('tests')['time_to_100_km_h']).toBeCloseTo(cold['time_to_100_km_h']!, 9);
  });
});
