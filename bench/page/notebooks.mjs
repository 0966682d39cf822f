// Notebooks of one question each: what a control costs is told by question.
import { statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { secondsOf } from '../seconds-of.mjs';

const CAR = `\`\`\`yaml car roadster
mass: 790 kg ± 15 kg
front_share: 47 %
wheelbase: 2.28 m
drag_coefficient: 0.40 .. 0.46
width: 1.48 m
height: 1.22 m
tyres: { from: tyre_touring, size: 175/65 R 14 }
drive: { axle: rear, ratio: 7.8, unit: unit_100kw }
pack: { cell: cell_pouch_27ah, series: 96, parallel: 3 }
\`\`\`
`;

const KNOBS = `\`\`\`yaml knobs
over:
  - { path: roadster.mass, from: 700 kg, to: 1000 kg, step: 10 kg, label: Mass of the car }
\`\`\`
`;

const LAUNCH = `\`\`\`yaml launch dash
car: roadster
\`\`\`
`;

/** @param {number} degrees */
const wltc = degrees => `\`\`\`yaml range tour
car: roadster
schedule: wltc
temperature: ${degrees} degC
\`\`\`
`;

/**
 * @typedef {object} Turned
 * @property {string} name
 * @property {string} file of the page
 * @property {string} knob id of the control that is moved
 * @property {string} cell id of the cell that is looked at
 * @property {string} asked of the median
 * @property {number} bytes
 */

/** Runs them into pages; the first is the one whose heap is weighed. @returns {Turned[]} */
export function writeNotebooks(/** @type {string} */ root, /** @type {string} */ temp) {
  const program = join(root, 'dist/cli/axlewatt.js');
  const own = [
    ['launch', LAUNCH, '33 ms'],
    ['WLTC at 20 degC', wltc(20), '100 ms'],
    ['WLTC at -10 degC', wltc(-10), '100 ms'],
  ].map(([name = '', cell = '', asked = ''], k) => {
    const notebook = join(temp, `${k}.md`);
    writeFileSync(notebook, `---\ntitle: ${name}\n---\n\n${CAR}\n${cell}\n${KNOBS}`);
    return { name, notebook, knob: 'knob-1', cell: 'cell-2', asked };
  });
  const shipped = {
    name: 'scenarios/at-the-counter.md',
    notebook: join(root, 'scenarios/at-the-counter.md'),
    knob: 'knob-2',
    cell: 'cell-2',
    asked: '100 ms',
  };
  return [...own, shipped].map(({ notebook, ...rest }) => {
    secondsOf([program, 'run', notebook, '--quiet', '--out', temp]);
    const file = join(temp, `${notebook.replace(/^.*\//u, '').replace(/\.md$/u, '')}.html`);
    return { ...rest, file, bytes: statSync(file).size };
  });
}
