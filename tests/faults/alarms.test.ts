/** What fails comes first, and overrules the author's answer: on the sheet and in the answer of the page. Through the built command. */
import { describe, expect, it } from 'vitest';
import { command } from '../command.ts';
import { faults } from '../report/well-formed.ts';
import { sheetsOf } from './printed.ts';

const car = (front: string): string => `\`\`\`yaml car van
mass: 1200 kg
front_share: 50 %
wheelbase: 2.5 m
tyres: { size: 185/65 R 15 }
drive: { axle: rear, ratio: 8, unit: unit_100kw }
pack: { cell: cell_nmc_60ah, series: 96, parallel: 1, charge_none_below: ${front} }
charger: { power: 3.7 kW }
\`\`\``;

const notebook = `---
title: The van
answer: What we say
---

# The van

## What we say

All is well.

## Work

${car('0 degC')}

\`\`\`yaml launch dash
car: van
to: 80 km/h
\`\`\`

\`\`\`yaml car light
from: van
mass: 1000 kg
\`\`\`

\`\`\`yaml launch sprint
car: light
to: 80 km/h
\`\`\`

\`\`\`yaml duty parts
of: [dash]
contactor:
  continuous: 20 A
fuse:
  rated: 63 A
\`\`\`

\`\`\`yaml weigh scales
scales: { front: 600 kg, rear: 480 kg }
wheelbase: 2.5 m
cg_height: 0.53 m
driver: { mass: 75 kg, x: 1.30 m, height: 0.62 m }
permitted: { rear: 500 kg }
load:
  - { name: tools, mass: 100 kg, x: 2.6 m, height: 0.6 m }
\`\`\`

\`\`\`yaml charge night
car: van
temperature: 0 degC ± 3 K
supply: { voltage: 230 V, current: 10 A }
pack_temperature: 1 degC ± 3 K
\`\`\`

\`\`\`yaml check
- dash.time < 1 s
\`\`\`
`;

describe('what fails', () => {
  const called = command({ 'a.md': notebook }, ['run', 'a.md', '--samples', '48', '--brief'], 120);
  const [page, sheet] = [called.read('out/a.html'), called.read('out/a.brief.html')];
  const box = (text: string): string => /<div class="alarms"[\s\S]*?<\/ul><\/div>/u.exec(text)?.[0] ?? '';

  it('stands on the sheet before what the author says, each with its figures', () => {
    expect(sheet.indexOf('class="alarms"')).toBeGreaterThan(0);
    expect(sheet.indexOf('class="alarms"')).toBeLessThan(sheet.indexOf('All is well'));
    // A contactor that is entered with 20 A, and a start of a 100 kW unit.
    expect(box(sheet)).toMatch(/parts<\/a>: contactor: \d+.* its data sheet says ≤\s20\.0\sA.*stronger part/u);
    expect(box(sheet)).toMatch(/scales<\/a>: .*the rear axle carries \d+\skg, \d+\skg over the 500\skg/u);
    expect(box(sheet)).toMatch(/night<\/a>: in \d+ of 48 cases \(\d+\s%\) it does not come about: .*too cold/u);
    expect(box(sheet)).toMatch(/promised, and not kept<\/b>: .* &lt; 1 s\)/u);
    expect(faults(sheet)).toEqual([]);
    expect(sheetsOf(sheet)).toBe(1);
  });

  it('marks its cards, is told once, and lists the lines that decide', () => {
    expect([...sheet.matchAll(/class="card" data-name="(\w+)" data-fails/gu)].map(found => found[1])).toEqual([
      'parts',
      'scales',
      'night',
    ]);
    expect(sheet.match(/over the 500\skg it is permitted/gu)).toHaveLength(1);
    expect(sheet).toMatch(/<table class="lines"[\s\S]*<tr class="over"><th scope="row">contactor/u);
  });

  it('says on sheet and page which car it is about, of another one what differs, and what is signed', () => {
    for (const text of [page, sheet]) {
      expect(text).toMatch(
        /<b>van<\/b>: 1200\skg, 1275\skg with driver; 50 % on the front axle; rear-wheel drive, 100\skW and 260\sN\sm at most/u,
      );
      // 96 cells of 60 Ah at 3.7 V or so: 21 kWh.
      expect(text).toMatch(
        /pack of 96 cells in series, 1 in parallel; 3\d\d V on average, 403 V when full; 2[01]\.\d\skWh/u,
      );
      expect(text).toMatch(/<b>light<\/b>: as van, but 1000\skg, 1075\skg with driver\./u);
    }
    expect(sheet).toMatch(/Bars, .*T motor torque/u);
    expect(sheet).toMatch(/Signed is what is promised above, on this sheet \(a\.md, [0-9a-f]{12}\)/u);
  });

  it('stands in the answer of the page too', () => {
    expect(page.indexOf('class="alarms"')).toBeGreaterThan(page.indexOf('id="answer"'));
    expect(page.indexOf('class="alarms"')).toBeLessThan(page.indexOf('All is well'));
    expect(box(page)).toContain('contactor');
    expect(page).toContain('data-fails');
  });
});
