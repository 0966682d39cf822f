/** Limits that are met to the last digit are met: through the built command. */
import { expect, it } from 'vitest';
import { command } from '../command.ts';

it('passes a charger that draws just what its phase may give', () => {
  const text = `\`\`\`yaml car van
mass: 1350 kg
tyres: { size: 175/80 R 14 }
drive: { axle: rear, ratio: 9.1, unit: unit_60kw }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 1 }
charger: { power: 6.6 kW }
\`\`\`
\`\`\`yaml charge night
car: van
supply: { current: 16 A }
\`\`\`
\`\`\`yaml duty parts
of: [night]
charger: { phase_current: 16 A }
\`\`\`
`;
  const called = command({ 'a.md': text }, ['run', 'a.md', '--samples', '0']);
  expect(called.out).not.toContain('beyond what is entered');
  expect(called.read('out/a.html')).toMatch(/in a phase/u);
  expect(called.read('out/a.html')).not.toMatch(/in a phase[^]{0,300}fails/u);
});
