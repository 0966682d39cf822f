/** Every question has its card in the answer, in the order of the notebook. */
import { expect, it } from 'vitest';
import { runNotebook } from '../../../src/notebook/run.ts';
import { writeReport } from '../../../src/report/report.ts';

const NOTEBOOK = `# All questions

\`\`\`yaml weigh scales
wheelbase: 2.4 m
scales: {front: 500 kg, rear: 430 kg}
in:
  - {name: pack, mass: 200 kg, x: 2.2 m}
permitted: {front: 650 kg, rear: 560 kg, gross: 1400 kg}
\`\`\`

\`\`\`yaml car van
mass: 1240 kg
tyres: {size: 165/80 R 13}
drive: {axle: rear, unit: unit_150kw, ratio: 9}
pack: {cell: cell_nmc_60ah, series: 96, parallel: 2}
\`\`\`

\`\`\`yaml car light
from: van
mass: 1100 kg
\`\`\`

\`\`\`yaml charge night
car: van
supply: {current: 16 A}
\`\`\`

\`\`\`yaml steady motorway
car: van
speed: 100 km/h
\`\`\`

\`\`\`yaml launch dash
car: van
\`\`\`

\`\`\`yaml sheet figures
car: van
\`\`\`

\`\`\`yaml compare which
of: [dash]
cars: [van, light]
\`\`\`

\`\`\`yaml seek ratio
of: [dash]
vary:
  - {path: van.drive.ratio, from: 5, to: 12}
find: lowest dash.time
\`\`\`
`;

it('has a card for each question in the order of the notebook', async () => {
  const outcome = runNotebook(NOTEBOOK, { file: 'all.md' });
  expect(outcome.problems).toEqual([]);
  const page = await writeReport(outcome);
  const answer = page.slice(page.indexOf('id="answer"'), page.indexOf('id="workings"'));
  const names = [...answer.matchAll(/<article class="card"[^>]*>\s*<h3><a href="#cell-\d+">([^<]*)</g)].map(
    ([, name]) => name,
  );
  expect(names).toEqual(['scales', 'night', 'motorway', 'dash', 'figures', 'which', 'ratio']);
  // What stands on each axle, and what is too much for it.
  expect(answer).toMatch(/✗ \d+\.?\d*.kg of 560.kg/u);
  expect(answer).toContain('is best for');
});
