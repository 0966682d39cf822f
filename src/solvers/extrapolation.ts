/**
 * The second opinion: odex 2.0.4, the extrapolation method of Hairer and Wanner (Solving Ordinary Differential Equations
 * I, section II.9), another method by other hands. States and quadratures are one system here and both steer the step.
 * It shares no code with the fast integrator but the options, the root finder and the search in a list of times. Slow and careful: every step
 * is looked at in many places, and every event is finished by integrating once more to its time.
 */
import { item } from '../columns.ts';
import { chebyshev } from './chebyshev.ts';
import { inspect } from './extrapolation-events.ts';
import { brokenGuard, restart } from './extrapolation-switches.ts';
import type { Find } from './extrapolation-switches.ts';
import {
  BadRate,
  fail,
  integrate,
  lastNode,
  note,
  ratesAt,
  SMALLEST,
  step,
  TooLong,
  Work,
} from './extrapolation-work.ts';
import { justBefore } from './settings.ts';
import type { Solution, Solve } from './system.ts';
import { nodeBefore } from './track.ts';

/** Integrates once with odex. The relative tolerance holds for integrals as well. */
export const solveExtrapolation: Solve = (system, options) => {
  const work = new Work(system, options);
  try {
    run(work);
  } catch (error) {
    if (!(error instanceof BadRate || error instanceof TooLong)) throw error;
    fail(work, error.message);
  }
  return finish(work);
};

function run(work: Work): void {
  ratesAt(work, work.time, work.row);
  if (work.row.some(value => !Number.isFinite(value))) return fail(work, `a state is not finite at t = ${work.time}`);
  if (work.system.guards > 0) restart(work, -1);
  const stops = Array.from(work.settings.breakpoints, (at, index) => ({ at, index }));
  for (const { at, index } of stops.filter(stop => stop.at > work.settings.start && stop.at < work.settings.end)) {
    segment(work, justBefore(at));
    if (work.status !== 'running') return;
    work.time = at;
    lastNode(work).time = at;
    note(work, 'break', index, at, work.row, work.mode);
    ratesAt(work, work.time, work.row);
    if (work.system.guards > 0) restart(work, brokenGuard(work));
    if (work.status !== 'running') return;
  }
  segment(work, work.settings.end);
  if (work.status === 'running') work.status = 'end';
}

/** Integrates to `target` through any number of switches. */
function segment(work: Work, target: number): void {
  while (work.status === 'running' && target - work.time > SMALLEST * Math.max(work.span, Math.abs(target))) {
    let find = null as Find | null;
    const from = work.time;
    try {
      integrate(work, work.time, work.row, target, stretch => {
        find = inspect(work, stretch);
        if (find !== null) return false;
        step(work, stretch, stretch.to, null);
        return true;
      });
    } catch (error) {
      if (!(error instanceof BadRate)) throw error;
      // The frozen mode may have been followed too far ahead: odex can not reject such a step, so try shorter ones.
      work.count.rejected++;
      if (work.time === from) work.longest = Math.min(work.longest, target - work.time) / 8;
      if (work.longest < SMALLEST * work.span)
        return fail(work, `the step became too small at t = ${work.time}: ${error.message}`);
      continue;
    }
    work.longest = Math.min(work.settings.maxStep, work.span);
    if (find !== null) settle(work, find);
  }
}

function settle(work: Work, find: Find): void {
  if (find.kind === 'level') return;
  if (find.kind === 'late') work.count.lateSwitches++;
  restart(work, find.index);
}

function finish(work: Work): Solution {
  const times = Float64Array.from(work.nodes, node => node.time);
  const states = new Float64Array(work.nodes.length * work.n);
  const integrals = new Float64Array(work.nodes.length * (work.all - work.n));
  work.nodes.forEach((node, k) => {
    states.set(node.row.subarray(0, work.n), k * work.n);
    integrals.set(node.row.subarray(work.n), k * (work.all - work.n));
  });
  const looks = looksOf(work);
  return {
    status: work.status === 'running' ? 'end' : work.status,
    reason: work.reason,
    nodes: work.nodes.length,
    times,
    states,
    integrals,
    looks,
    modes: Int32Array.from(work.nodes, node => node.mode),
    events: work.events,
    statistics: work.count,
    at(t, into) {
      const k = nodeBefore(times, t);
      const { stretch, row: values, time: from } = item(work.nodes, k);
      const wanted = Math.min(work.all, into.length);
      if (stretch === null || t <= from) into.set(values.subarray(0, wanted));
      else for (let i = 0; i < wanted; i++) into[i] = chebyshev(stretch.rows, i, (t - from) / (stretch.to - from));
      return k;
    },
  };
}

/** What the system keeps of each node. */
function looksOf({ system, nodes, n, point, out, count }: Work): Float64Array {
  const width = system.looks ?? 0;
  const looks = new Float64Array(nodes.length * width);
  if (system.look === undefined) return looks;
  for (const [k, node] of nodes.entries()) {
    point.set(node.row.subarray(0, n));
    point[n] = node.time;
    system.rates(node.mode, point, out);
    count.evaluations += 1;
    system.look(looks, k * width);
  }
  return looks;
}
