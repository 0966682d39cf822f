/** A first notebook, with comments, from a few answers: what somebody begins with who has never written one. */

/** What is asked, in order. The values taken where nobody answers are invented. */
export const FIRST_QUESTIONS = [
  { key: 'title', ask: 'What is the car called?', usual: 'My conversion' },
  {
    key: 'mass',
    ask: 'Its mass when finished, without people, with what you are unsure of behind ±',
    usual: '1100 kg ± 40 kg',
  },
  { key: 'axle', ask: 'Which axle is driven: front, rear or both', usual: 'rear' },
  {
    key: 'unit',
    ask: 'Drive unit: one that ships (axlewatt cells parts), or { peak_torque: 250 N m, peak_power: 90 kW }',
    usual: 'unit_100kw',
  },
  { key: 'ratio', ask: 'Turns of the motor for one turn of the wheel', usual: '8.5' },
  { key: 'tyre', ask: 'Kind of tyre (axlewatt cells part.tyre)', usual: 'tyre_touring' },
  { key: 'size', ask: 'Size of the tyres', usual: '185/65 R 15' },
  { key: 'cell', ask: 'Battery cell (axlewatt cells part.cell)', usual: 'cell_nmc_60ah' },
  { key: 'series', ask: 'Cells in series', usual: '96' },
  { key: 'parallel', ask: 'Strings of cells in parallel', usual: '2' },
] as const;

export type FirstKey = (typeof FIRST_QUESTIONS)[number]['key'];
export type FirstAnswers = { readonly [key in FirstKey]: string };

/** The notebook as text. */
export function firstNotebook(answers: FirstAnswers): string {
  const { mass, axle, unit, ratio, tyre, size, cell, series, parallel } = answers;
  const title = answers.title.replaceAll(/[\r\n]+/gu, ' ');
  const strings = Number.isInteger(Number(parallel)) ? Number(parallel) : 2;
  return `---
title: ${JSON.stringify(title)}
units: metric # or imperial
answer: What we say # the heading that is lifted to the top of the report
---

# ${title}

## What we say

- It needs \`= dash.time_to_100_km_h\` to 100 km/h. The tyres hold back \`= dash.grip_withheld\` of what the drive could give.
- At 0 °C it goes \`= winter.range to km\` on one charge, and a night at the socket takes \`= night.time to h\`.

## The car

What is left out is assumed, and listed in the report with its source. Write \`±\` or a range such as \`0.36 .. 0.42\` for what
you only know roughly: the results get their intervals from that. \`axlewatt cells car\` lists everything that can be said.

\`\`\`yaml car mine
mass: ${mass} # on the scales, battery in, nobody inside
tyres: { from: ${tyre}, size: ${size} }
drive:
  axle: ${axle}
  unit: ${unit}
  ratio: ${ratio}
pack:
  cell: ${cell}
  series: ${series}
  parallel: ${parallel}
cabin: { heater: resistive } # or heat pump, or none
# front_share: 48 % ± 1 %          # of the weight on the front axle, driver included
# drag_coefficient: 0.36 .. 0.42
\`\`\`

## Does the tyre waste the power?

\`\`\`yaml launch dash
car: mine
\`\`\`

## How far in winter?

\`\`\`yaml range winter
car: mine
schedule: wltc # axlewatt cells schedules lists the others; log: FILE.csv drives your own
temperature: 0 degC
\`\`\`

## How long at the socket?

\`\`\`yaml charge night
car: mine
from: 20 %
to: 90 %
supply: { current: 16 A }
temperature: 5 degC
consumption: = winter.consumption_wall # for the range that an hour gives
\`\`\`

## Which battery is worth buying?

\`\`\`yaml sweep sizes
of: winter, dash
outputs: winter.range, dash.time, mine.mass
over:
  - { path: mine.pack.parallel, values: [${[strings, strings + 1, strings + 2].join(', ')}] }
\`\`\`

## What is promised

A line that does not hold makes the command end with 1.

\`\`\`yaml check promises
- dash.time_to_100_km_h < 60 s # your own figure
- winter.range > 20 km
\`\`\`
`;
}
