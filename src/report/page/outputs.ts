/** The outputs of a run as tables. */
import { figure } from '../../units/rounding.ts';
import { chanceText, samplesText, intervalText } from '../../plots/kit/interval.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Html, html } from './html.ts';
import { allHolesText, holesBrief, reason } from '../unanswered.ts';

/** An output as text in the unit of display, with its interval and the share of samples that lack it; a dash when it has no answer. */
export function valueOf(result: Result, key: string, system: System): string {
  const value = result.summary[key] ?? null;
  if (value === null) return '–';
  if (typeof value === 'string') return value;
  const output = result.outputs[key];
  if (output === undefined) return String(value);
  const ends = result.intervals?.of[key];
  const text = ends === undefined ? figure(value, output, system) : intervalText(value, ends, output, system);
  return text + holesBrief(result, key);
}

/** What the square brackets of a result mean, with how many samples had no answer; null where there are none. */
export function intervalNote(result: Result): string | null {
  const { intervals } = result;
  if (intervals === undefined || Object.keys(intervals.of).length === 0) return null;
  return `Square brackets: ${chanceText(intervals.probability)} lie between, rounded outwards to what the samples know; ${samplesText(intervals)}, seed ${intervals.seed}.${allHolesText(result)}`;
}

/** A time of the summary with the time after rollout and the speed that belong to it. */
interface Timed {
  readonly label: string;
  readonly key: string;
  readonly rollout: string | null;
  readonly speed: string | null;
}

/** The times of a launch, with what belongs to each in one row. */
function timed(result: Result): readonly Timed[] {
  const known = (key: string): string | null => (key in result.outputs ? key : null);
  return Object.entries(result.outputs)
    .filter(
      ([key, { unit }]) => unit === 's' && /^time_(to_\d|\d|eighth_|quarter_)/.test(key) && !key.endsWith('_rollout'),
    )
    .map(([key, { label }]) => ({
      label,
      key,
      rollout: known(`${key}_rollout`),
      speed: known(key.replace('time_', 'speed_')),
    }));
}

/** Times from rest, with and without rollout, and the speeds at the end of the distances. */
export function timesTable(result: Result, system: System): Html {
  const value = (key: string | null): string => (key === null ? '' : valueOf(result, key, system));
  return html`<div><div class="scroll" role="group" aria-label="Times" tabindex="0"><table class="figures times">
<caption>Times</caption>
<thead><tr><td></td><th scope="col">from the pedal</th><th scope="col">after one foot</th><th scope="col">speed there</th></tr></thead>
<tbody>
${timed(result).map(
  row => html`<tr><th scope="row">${row.label}</th><td>${value(row.key)}</td><td>${value(row.rollout)}</td><td>${value(row.speed)}</td></tr>
`,
)}</tbody></table></div>
${missingTimes(result)}</div>
`;
}

/** Why times are missing, each reason once. */
function missingTimes(result: Result): Html {
  const missing = timed(result).filter(({ key }) => (result.summary[key] ?? null) === null);
  const reasons = [...new Set(missing.map(({ key }) => reason(result, key)))];
  return html`${reasons.map(why => {
    const labels = missing.filter(({ key }) => reason(result, key) === why).map(({ label }) => label);
    return html`<p class="note">No time ${labels.join(', ')}: ${why}.</p>
`;
  })}`;
}

/** Peaks, top speed, the grip bill: all that is no time of the table of times. */
export function otherOutputs(result: Result, system: System): Html {
  const inTimes = new Set(timed(result).flatMap(({ key, rollout, speed }) => [key, rollout, speed]));
  const keys = Object.keys(result.outputs).filter(key => !inTimes.has(key) && (result.summary[key] ?? null) !== null);
  return html`<table class="figures others">
<caption>Peaks, top speed, grip</caption>
<tbody>
${keys.map(
  key => html`<tr><th scope="row">${result.outputs[key]?.label ?? key}</th><td>${valueOf(result, key, system)}</td></tr>
`,
)}</tbody></table>
`;
}

/** Every output with the name that formulas use and what it means; an empty one with the reason why. */
export function allOutputs(result: Result, system: System): Html {
  return html`<table class="figures outputs">
<caption class="unseen">All outputs</caption>
<thead><tr><th scope="col">output</th><th scope="col">value</th><th scope="col">what it is</th></tr></thead>
<tbody>
${Object.entries(result.outputs).map(([key, output]) => {
  const missing = (result.summary[key] ?? null) === null;
  return html`<tr><th scope="row">${output.label}<br><code>${key}</code></th><td>${valueOf(result, key, system)}</td><td>${missing ? `no answer: ${reason(result, key)}` : output.doc}</td></tr>
`;
})}</tbody></table>
`;
}
