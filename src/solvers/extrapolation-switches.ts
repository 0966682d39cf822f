/** Switches of the second method: where guards pass zero, and what the modes make of it. */
import { item, nth } from '../columns.ts';
import { findRoot } from './bracket.ts';
import { CHEBYSHEV } from './chebyshev.ts';
import { fail, guardsAt, lastNode, note, ratesAt, rowAt, store } from './extrapolation-work.ts';
import type { Stretch, Work } from './extrapolation-work.ts';
import { CHATTER_COUNT, CHATTER_SPAN } from './settings.ts';

/** Where something happens in a stretch. */
export interface Find {
  readonly kind: 'level' | 'switch' | 'late';
  readonly index: number;
  readonly time: number;
}

/** The earliest armed guard to become zero in a stretch, or one that never was positive in it. */
export function firstGuard(work: Work, stretch: Stretch): Find | null {
  const at = (x: number): Float64Array => {
    guardsAt(work, stretch.from + x * (stretch.to - stretch.from), rowAt(work, stretch, x));
    return work.guards.slice();
  };
  let before = at(0);
  const begun = before;
  for (let p = 1; p < CHEBYSHEV.length; p++) {
    const now = at(nth(CHEBYSHEV, p));
    let best: Find | null = null;
    for (let g = 0; g < work.guards.length; g++) {
      if (work.armed[g] === 0 || nth(now, g) > 0) continue;
      const x = findRoot(x => at(x)[g]!, nth(CHEBYSHEV, p - 1), nth(before, g), nth(CHEBYSHEV, p), nth(now, g), 1e-13);
      const t = stretch.from + x * (stretch.to - stretch.from);
      if (best === null || t < best.time) best = { kind: 'switch', index: g, time: t };
    }
    if (best !== null) return best;
    now.forEach((value, g) => {
      if (value > 0) work.armed[g] = 1;
    });
    before = now;
  }
  const late = before.findIndex(
    (value, g) => work.armed[g] === 0 && value < 0 && (!work.fresh || value < nth(begun, g)),
  );
  return late < 0 ? null : { kind: 'late', index: late, time: stretch.to };
}

/** Switches for a guard that fired (-1: none), then for those that are not positive and falling at the same instant. */
export function restart(work: Work, fired: number): void {
  for (let chain = 0; work.status === 'running'; chain++) {
    if (fired >= 0) switchOver(work, fired);
    if (work.status !== 'running') return;
    guardsAt(work, work.time, work.row);
    const begun = work.guards.slice();
    begun.forEach((value, g) => {
      work.armed[g] = value > 0 ? 1 : 0;
    });
    work.fresh = true;
    if (chain > work.system.guards || begun.every(value => value > 0)) return;
    const probe = 1e-6 * (work.settings.end - work.time);
    ratesAt(work, work.time, work.row);
    const slope = work.out.slice();
    ratesAt(
      work,
      work.time + probe,
      work.row.map((y, i) => y + probe * nth(slope, i)),
    );
    guardsAt(
      work,
      work.time + probe,
      work.row.map((y, i) => y + (probe / 2) * (nth(slope, i) + nth(work.out, i))),
    );
    fired = begun.findIndex((value, g) => value <= 0 && nth(work.guards, g) < value);
    if (fired < 0) return;
  }
}

export function brokenGuard(work: Work): number {
  guardsAt(work, work.time, work.row);
  return work.guards.findIndex((value, g) => work.armed[g] === 1 && value <= 0);
}

function switchOver(work: Work, fired: number): void {
  const before = work.row.slice();
  for (let i = 0; i < work.n; i++) work.point[i] = nth(work.row, i);
  work.point[work.n] = work.time;
  const next = work.system.switched === undefined ? work.mode : work.system.switched(work.mode, fired, work.point);
  work.count.switches++;
  note(work, 'switch', fired, work.time, before, next);
  if (next >= 0) work.mode = next;
  else work.status = 'switched';
  work.row.set(work.point.subarray(0, work.n));
  if (work.row.some(value => !Number.isFinite(value)))
    fail(work, `guard ${fired} set a state that is not finite at t = ${work.time}`);
  if (before.some((value, i) => value !== work.row[i])) {
    store(work, null);
    jumpLevels(work, before);
  } else lastNode(work).mode = work.mode;
  if (++work.chatter.count < CHATTER_COUNT) return;
  const since = work.time - work.chatter.start;
  if (since < CHATTER_SPAN * work.span) {
    fail(work, `${CHATTER_COUNT} switches within ${since} of time up to t = ${work.time}, the last by guard ${fired}`);
  }
  work.chatter.count = 0;
  work.chatter.start = work.time;
}

function jumpLevels(work: Work, before: Float64Array): void {
  for (const index of work.openLevels) {
    const level = item(work.settings.levels, index);
    const [a, b] = [nth(before, level.state) - level.value, nth(work.row, level.state) - level.value];
    const rises = a < 0 && b >= 0 && level.direction !== 'falling';
    if (!rises && !(a > 0 && b <= 0 && level.direction !== 'rising')) continue;
    work.openLevels.delete(index);
    note(work, 'level', index, work.time, before, work.mode);
    if (level.action === 'stop') {
      work.status = 'level';
      return;
    }
  }
}
