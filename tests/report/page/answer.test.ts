/** What must not be missed stands with the answer. */
import { expect, it } from 'vitest';
import { runNotebook } from '../../../src/notebook/run.ts';
import { writeReport } from '../../../src/report/report.ts';

const CAR = (extra: string): string => `# Shafts

\`\`\`yaml car van
mass: 1240 kg
tyres: {size: 165/80 R 13}
drive: {axle: rear, unit: unit_150kw, ratio: 9${extra}}
pack: {cell: cell_nmc_60ah, series: 96, parallel: 2}
\`\`\`

\`\`\`yaml launch dash
car: van
to: 80 km/h
\`\`\`
`;

it('warns that only the inverter keeps weak half shafts whole, beside the answer', async () => {
  const outcome = runNotebook(CAR(', shaft_torque: 900 N m'), { file: 'van.md' });
  const page = await writeReport(outcome);
  const answer = page.slice(page.indexOf('id="answer"'), page.indexOf('id="workings"'));
  expect(answer).toContain('The half shafts bear 900 N m together, 450 N m each; the drive unit could put');
  expect((await writeReport(runNotebook(CAR(''), { file: 'van.md' }))).includes('The half shafts bear')).toBe(false);
});

it('puts a target speed of its own into the headline, and the names of the outputs into the table', async () => {
  const page = await writeReport(runNotebook(CAR(''), { file: 'van.md' }));
  expect(page).toMatch(/<span>to 80.km\/h<\/span>/u);
  expect(page).toContain('<code>peak_shaft_torque</code>');
});
