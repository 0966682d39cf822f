/** Lines of a duty that pass by their value, and not by their interval, through the built command. */
import { expect, it } from 'vitest';
import { command } from '../command.ts';

const NOTEBOOK = `\`\`\`yaml car coupe
mass: 1180 kg
front_share: 49 %
wheelbase: 2.43 m
cg_height: 0.52 m
drag_coefficient: 0.40
width: 1.64 m
height: 1.30 m
tyres: tyre_touring
drive: { axle: rear, unit: unit_150kw, ratio: 8.5 }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 2 }
\`\`\`

\`\`\`yaml launch dash
car: coupe
\`\`\`

\`\`\`yaml duty parts
of: dash
fuse: { rated: 300 A, voltage: 500 V, breaking_capacity: 10 kA }
\`\`\`
`;

it('what passes, and could be beyond its sheet within its interval, is to be looked at', () => {
  // The short circuit of the pack is 7 kA, by an internal resistance that is known to a third or so.
  const plain = command({ 'a.md': NOTEBOOK }, ['run', 'a.md', '--samples', '0']);
  const { looks, passes } = plain.values('parts');
  expect(plain.values('parts')).toMatchObject({ fails: 0, short_circuit_current: expect.closeTo(7000, -3) as number });
  const sampled = command({ 'a.md': NOTEBOOK }, ['run', 'a.md', '--samples', '64']);
  expect(sampled.code).toBe(0);
  expect(sampled.values('parts')).toMatchObject({ fails: 0, looks: Number(looks) + 1, passes: Number(passes) - 1 });
  const report = sampled.read('out/a.html');
  expect(report).toContain('its interval goes beyond what the sheet says');
});
