/** Where a run stops and goes on: breakpoints, switches, and the modes that follow one another at one instant. */
import { item, nth } from '../columns.ts';
import { beginGuards, brokenGuard, fallingGuard } from './guards.ts';
import { fail, failGuard, finite, firstBad, guardsOf, lookAtNode, note } from './integration.ts';
import type { Run } from './integration.ts';
import { jumpedLevels } from './levels.ts';
import { forgetStep } from './quintic.ts';
import { CHATTER_COUNT, CHATTER_SPAN } from './settings.ts';
import { pushNode } from './track.ts';

/** Sets the next time to stop at: the next breakpoint inside the run, or its end. */
export function aim(run: Run): void {
  const { breakpoints } = run.settings;
  let next = run.breakpoint < 0 ? 0 : run.breakpoint + 1;
  while (next < breakpoints.length && nth(breakpoints, next) <= nth(run.start, run.n)) next++;
  const inside = next < breakpoints.length && nth(breakpoints, next) < run.settings.end;
  run.breakpoint = inside ? next : -1;
  run.target = inside ? nth(breakpoints, next) : run.settings.end;
}

/** At a target: the end, or a breakpoint, whose time is copied and whose rates are evaluated afresh. */
export function land(run: Run): void {
  const k = run.track.nodes - 1;
  run.start[run.n] = run.track.times[k] = run.target;
  if (run.breakpoint < 0) {
    run.status = 'end';
    return;
  }
  run.values.fill(0);
  run.values.set(run.start.subarray(0, run.n));
  note(run, 'break', run.breakpoint, run.target, k);
  aim(run);
  forgetStep(run.quintic);
  run.step.begin(run.mode);
  lookAtNode(run);
  if (!finite(run.startRates)) return fail(run, `${firstBad(run)} at the breakpoint t = ${run.start[run.n]}`);
  if (run.guards !== null) restart(run, brokenGuard(run.guards, run.mode));
}

/**
 * Calls `switched` for a guard that fired at `start` (-1: none, only begin the mode) and begins the next mode; then
 * for any guard that is not positive there and falling, up to one for each guard, so that a chain of switches at one
 * instant is resolved there but two modes that pass the state to and fro do not hang the run. Where they end in the mode that was left its
 * guard starts so close to zero that a long step finds a zero there, and not the one to come: the next goes only as far as was looked.
 */
export function restart(run: Run, fired: number): void {
  const watch = guardsOf(run);
  const { mode } = run;
  for (let chain = 0; ; chain++) {
    if (fired >= 0) {
      switchOver(run, fired);
      if (run.status !== 'running') return;
      forgetStep(run.quintic);
      run.step.begin(run.mode);
      lookAtNode(run);
      if (!finite(run.startRates))
        return fail(run, `${firstBad(run)} after guard ${fired} fired at t = ${run.start[run.n]}`);
    }
    beginGuards(watch, run.mode);
    if (watch.invalid >= 0) return failGuard(run, nth(run.start, run.n));
    const ahead = 1e-4 * Math.min(run.proposed, run.settings.maxStep, run.target - nth(run.start, run.n));
    fired = chain > run.system.guards ? -1 : fallingGuard(watch, run.mode, ahead);
    if (fired >= 0) continue;
    if (chain > 0 && run.mode === mode) run.proposed = ahead;
    return;
  }
}

function switchOver(run: Run, fired: number): void {
  const k = run.track.nodes - 1;
  const t = nth(run.start, run.n);
  run.values.fill(0);
  run.values.set(run.start.subarray(0, run.n));
  run.end.set(run.start);
  const next = run.system.switched === undefined ? run.mode : run.system.switched(run.mode, fired, run.start);
  run.start[run.n] = t;
  run.switches++;
  note(run, 'switch', fired, t, k, next);
  if (next >= 0) run.mode = next;
  else run.status = 'switched';
  if (jumps(run)) {
    pushNode(run.track, run.start, run.mode);
    for (const pass of jumpedLevels(run.levels, run.end, run.start)) {
      note(run, 'level', pass.level, t, k);
      if (item(run.settings.levels, pass.level).action === 'stop') run.status = 'level';
    }
  } else run.track.modes[k] = run.mode;
  if (!finite(run.start)) fail(run, `guard ${fired} set a state to a value that is not finite at t = ${t}`);
  countChatter(run, fired, t);
}

/** Whether a switch has changed the states, which stand at the end as they were before it. */
function jumps({ start, end, n }: Run): boolean {
  for (let i = 0; i < n; i++) if (start[i] !== end[i]) return true;
  return false;
}

function countChatter(run: Run, fired: number, t: number): void {
  const { settings } = run;
  if (++run.chatterCount < CHATTER_COUNT) return;
  if (t - run.chatterStart < CHATTER_SPAN * (settings.end - settings.start)) {
    fail(
      run,
      `${CHATTER_COUNT} switches within ${t - run.chatterStart} of time up to t = ${t}, the last by guard ${fired}`,
    );
  }
  run.chatterCount = 0;
  run.chatterStart = t;
}
