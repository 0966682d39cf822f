/** What happens within a stride of the second method: levels and switches, each finished by integrating once more to its time. */
import { item, nth } from '../columns.ts';
import { findRoot } from './bracket.ts';
import { CHEBYSHEV, chebyshev } from './chebyshev.ts';
import { firstGuard } from './extrapolation-switches.ts';
import type { Find } from './extrapolation-switches.ts';
import { guardsAt, integrate, note, ratesAt, rowAt, SMALLEST, step } from './extrapolation-work.ts';
import type { Stretch, Work } from './extrapolation-work.ts';

/** The first thing that happens in a stretch: a switch, or a level that is passed. Levels that only record are noted. */
export function inspect(work: Work, stretch: Stretch): Find | null {
  const fired = work.system.guards > 0 ? firstGuard(work, stretch) : null;
  const passes = [...work.openLevels]
    .map(index => ({ index, time: levelTime(work, stretch, index) }))
    .filter(pass => !Number.isNaN(pass.time) && (fired === null || pass.time <= fired.time))
    .toSorted((a, b) => a.time - b.time || a.index - b.index);
  for (const pass of passes) {
    work.openLevels.delete(pass.index);
    const polished = polish(work, stretch, pass);
    if (item(work.settings.levels, pass.index).action === 'stop') {
      step(work, stretch, polished.time, polished.row);
      note(work, 'level', pass.index, work.time, work.row, work.mode);
      work.status = 'level';
      return { kind: 'level', index: pass.index, time: work.time };
    }
    note(work, 'level', pass.index, polished.time, polished.row, work.mode);
  }
  if (fired === null) return null;
  if (fired.kind === 'late') step(work, stretch, fired.time, null);
  else {
    const switching = polishSwitch(work, stretch, fired);
    step(work, stretch, switching.time, switching.row);
  }
  return fired;
}

/** When a level is first passed in a stretch, NaN if it is not. */
function levelTime(work: Work, stretch: Stretch, index: number): number {
  const { state, value, direction } = item(work.settings.levels, index);
  const wanted = (a: number, b: number): boolean =>
    (a < 0 && b >= 0 && direction !== 'falling') || (a > 0 && b <= 0 && direction !== 'rising');
  const above = (x: number): number => chebyshev(stretch.rows, state, x) - value;
  let before = nth(item(stretch.rows, 0), state) - value;
  if (before === 0) {
    ratesAt(work, stretch.from, item(stretch.rows, 0));
    const heading = work.out[state] !== 0 ? nth(work.out, state) : nth(item(stretch.rows, 1), state) - value;
    if (wanted(-heading, heading)) return stretch.from;
    before = heading;
  }
  for (let p = 1; p < CHEBYSHEV.length; p++) {
    const now = nth(item(stretch.rows, p), state) - value;
    if (wanted(before, now)) {
      const x = findRoot(above, nth(CHEBYSHEV, p - 1), before, nth(CHEBYSHEV, p), now, 1e-14);
      return stretch.from + x * (stretch.to - stretch.from);
    }
    if (now !== 0) before = now;
  }
  return Number.NaN;
}

/** Integrates to the time of a level again and corrects it by Newton's method, as odex knows its nodes better. */
function polish(
  work: Work,
  stretch: Stretch,
  pass: { index: number; time: number },
): { time: number; row: Float64Array } {
  const { state, value } = item(work.settings.levels, pass.index);
  let at = pass.time;
  for (let round = 0; round < 3; round++) {
    const reached = exactly(work, stretch, at);
    ratesAt(work, at, reached);
    const shift = work.out[state] === 0 ? 0 : (value - nth(reached, state)) / nth(work.out, state);
    const small = Math.abs(shift) < 1e-6 * (stretch.to - stretch.from);
    if (small || at + shift < stretch.from || at + shift > stretch.to) {
      return small
        ? { time: at + shift, row: reached.map((y, i) => y + shift * nth(work.out, i)) }
        : { time: at, row: reached };
    }
    at += shift;
  }
  return { time: at, row: exactly(work, stretch, at) };
}

/** The same for a guard, whose slope is taken from the stretch; it is aimed a little past zero. */
function polishSwitch(work: Work, stretch: Stretch, find: Find): { time: number; row: Float64Array } {
  const apart = 1e-4 * (stretch.to - stretch.from);
  const x = (find.time - stretch.from) / (stretch.to - stretch.from);
  guardsAt(work, find.time, rowAt(work, stretch, x));
  const onDense = nth(work.guards, find.index);
  guardsAt(work, find.time - apart, rowAt(work, stretch, x - 1e-4));
  const slope = (onDense - nth(work.guards, find.index)) / apart;
  const reached = exactly(work, stretch, find.time);
  guardsAt(work, find.time, reached);
  const shift = (nth(work.guards, find.index) - 1e-10 * slope * apart) / -slope;
  if (!(Math.abs(shift) < apart) || find.time + shift < stretch.from) return { time: find.time, row: reached };
  return { time: find.time + shift, row: reached.map((y, i) => y + shift * nth(work.out, i)) };
}

/** States and integrals at a time inside a stretch, by a run of odex from its start. */
function exactly(work: Work, stretch: Stretch, t: number): Float64Array {
  let reached = item(stretch.rows, 0);
  if (t - stretch.from <= SMALLEST * work.span) return reached;
  integrate(work, stretch.from, reached, t, part => {
    reached = item(part.rows, part.rows.length - 1);
    return true;
  });
  return reached;
}
