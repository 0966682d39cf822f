import { expect, it } from 'vitest';
import { CELL_KINDS } from '../../src/notebook/cells/registry.ts';
import { reportOf } from '../../src/report/kinds.ts';
import { noAnswer } from '../../src/runs/no-answer.ts';
import { CALIBRATIONS } from '../../src/notebook/cells/calibrate.ts';
import { RUN_KINDS } from '../../src/runs/kinds.ts';

/** Cells that give no result of their own. */
const WITHOUT = new Set(['car', 'part', 'calc', 'plot', 'check', 'knobs']);

it('has a report on every kind of run, and on the result of every cell', () => {
  // A calibration has a result of its own for each sort of log.
  const cells = CELL_KINDS.flatMap(({ kind }) => (kind === 'calibrate' ? [...CALIBRATIONS] : [kind])).filter(
    kind => !WITHOUT.has(kind),
  );
  for (const kind of [...RUN_KINDS.map(each => each.kind), ...cells]) {
    expect(reportOf(noAnswer(kind, {}, 'nothing was asked')).kind).toBe(kind);
  }
  expect(() => reportOf(noAnswer('stroll', {}, ''))).toThrow('no report on a stroll');
});
