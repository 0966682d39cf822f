/** Cars of a study share the parts that do not change: what was made for one must never answer for another. */
import { expect, it } from 'vitest';
import { asked, base, dash } from './study-cells.ts';

const changes = [
  [{ path: 'base.mass', value: 1200 }],
  [{ path: 'base.tyres.dry_peak', value: 0.8 }],
  [{ path: 'base.pack.charge', value: 0.5 }],
  [{ path: 'base.drive.ratio', value: 7 }],
  [{ path: 'base.pack.series', value: 80 }],
  [{ path: 'base.pack.cell.max_current', value: 200 }],
  [{ path: 'base.drive.unit.peak_power', value: 60_000 }],
  [{ path: 'dash.altitude', value: 2000 }],
  [],
];

it('answers with other values as an asker does that was never asked before', () => {
  const ask = asked(base + dash, 'dash');
  for (const change of [...changes, ...changes.toReversed()])
    expect(ask(change)).toEqual(asked(base + dash, 'dash')(change));
});
