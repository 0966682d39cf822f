import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { completeLedger } from '../../../src/model/body/complete-ledger.ts';
import type { WeighSpec } from '../../../src/model/body/ledger-fields.ts';
import { runNotebook } from '../../../src/notebook/run.ts';
import { runBody } from '../../../src/report/run.ts';
import { terminalSummary } from '../../../src/report/terminal.ts';
import { weighWords } from '../../../src/report/kinds/weigh.ts';
import { weigh } from '../../../src/runs/weigh/weigh.ts';
import { faults } from '../well-formed.ts';

const spec: WeighSpec = {
  scales: { front: 600, rear: 400 },
  wheelbase: 2.5,
  cgHeight: 0.5,
  in: [{ name: 'box', mass: 100, x: 2.5, height: 0.4 }],
  driver: { mass: 75, x: 1.25, height: 0.6 },
  permitted: { front: 700, rear: 525, gross: 1300 },
  tyres: { size: '155/80 R 13 79T' },
  move: 'box',
};
const result = (changed: WeighSpec = {}) => weigh(completeLedger({ ...spec, ...changed }));
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('a weighing in the report', () => {
  it('has the loads against their limits, what is over marked in words, and the caution', async () => {
    const { html } = await runBody(result(), 'metric', 'c');
    // The way to the cautions leads out of the cell.
    expect(faults(html)).toEqual(['no id cautions']);
    const text = plain(html);
    expect(text).toContain('<strong class="over">✗ over by 13 kg</strong>');
    expect(text).toContain('<td>63 kg left</td>');
    // Load index 79 carries 437 kg.
    expect(text).toContain('874 kg (2 × 79)');
    expect(text).toContain('A qualified person has to judge them');
    expect(text).toContain('With the driver alone the rear axle carries 538 kg, 13 kg over');
    expect(text).not.toContain('Energy ledger');
  });

  it('says what is not given', async () => {
    const bare: WeighSpec = { scales: { front: 600, rear: 400 }, wheelbase: 2.5 };
    const { html } = await runBody(weigh(completeLedger(bare)), 'metric', 'c');
    expect(html).toContain('not given');
    expect(html).not.toMatch(/NaN|undefined/);
  });

  it('answers in sentences', () => {
    expect(plain(weighWords(result(), 'metric'))).toBe(
      'Kerb mass 1100 kg, 100 kg more than before; 54.5 % of it on the front axle (before 60.0 %). ' +
        '200 kg are left for driver, passengers and luggage. ' +
        'To keep the front share, “box” would have to move 1.50 m forwards, to 1.00 m behind the front axle.',
    );
    const same = weigh(completeLedger({ scales: { front: 600, rear: 400 }, wheelbase: 2.5 }));
    expect(plain(weighWords(same, 'metric'))).toBe(
      'Kerb mass 1000 kg, as before; 60.0 % of it on the front axle (before 60.0 %).',
    );
  });
});

describe('the worked example', () => {
  const file = 'scenarios/weights.md';
  const outcome = runNotebook(readFileSync(new URL(`../../../${file}`, import.meta.url), 'utf8'), { file });

  it('runs without a problem and meets its promises', () => {
    expect(outcome.problems).toEqual([]);
    expect(outcome.failedChecks).toBe(0);
  });

  it('is over on the rear axle in the first plan only, as its prose says', () => {
    const margin = (name: string): unknown => {
      const block = outcome.blocks.find(each => each.kind === 'cell' && each.name === name);
      return block?.kind === 'cell' ? block.result?.summary['rear_margin'] : null;
    };
    expect(margin('first_plan')).toBeLessThan(0);
    expect(margin('second_plan')).toBeGreaterThan(0);
  });

  it('is told in the terminal', () => {
    const text = terminalSummary(outcome, { color: false, width: 100 });
    expect(text).toMatch(/weigh first plan\n {2}Kerb mass 992 kg/);
    expect(text).toContain('mind: Fully loaded the rear axle carries');
  });
});
