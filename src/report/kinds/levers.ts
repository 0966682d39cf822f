/** What would make a launch quicker, in a sentence and in a table: what brings most first. */
import { capital, digits, figure, written } from '../../units/rounding.ts';
import type { Lever, LeverKind, Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Html, html } from '../page/html.ts';

/** s that are worth a word. */
const WORTH = 0.02;

/** What brings most, in a sentence. */
const TOLD = 2;

/** Each as what it is called, and from what to what. */
const WORDS: { readonly [what in LeverKind]: (lever: Lever, system: System) => string } = {
  friction: ({ from, to }) => `tyres with a friction of ${digits(to, 2)} in place of ${digits(from, 2)}`,
  'weight on the driven axle': ({ from, to }) =>
    `${written(100 * Math.abs(to - from), '%', 0)} more of the weight on the driven axle, if that axle may carry it`,
  mass: ({ from, to }, system) => `${figure(from - to, KG, system, 0)} less`,
  parallel: ({ from, to, heavier }, system) =>
    `${to} cells in parallel in place of ${from}${weighing(heavier, system)}`,
  series: ({ from, to, heavier }, system) =>
    `${to} cells in series in place of ${from}${weighing(heavier, system)}, if inverter and charger stand ${written(100 * (to / from - 1), '%', 0)} more voltage`,
  charge: ({ from, to }) =>
    `a pack at ${written(100 * to, '%', 0)} of charge in place of ${written(100 * from, '%', 0)}`,
  warmth: ({ from, to }, system) =>
    `pack and drive unit at ${figure(to, KELVIN, system, 0)} in place of ${figure(from, KELVIN, system, 0)}`,
  pedal: ({ from }) => `a pedal all the way down in place of ${written(100 * from, '%', 0)}`,
  ratio: ({ from, to }) => `a ratio of ${digits(to, 2)} in place of ${digits(from, 2)}`,
  torque: ({ from, to }, system) =>
    `a drive unit of ${figure(to, TORQUE, system, 0)} in place of ${figure(from, TORQUE, system, 0)}`,
  power: ({ from, to }, system) =>
    `a drive unit of ${figure(to, POWER, system, 0)} in place of ${figure(from, POWER, system, 0)}`,
  'half shafts': ({ from, to }, system) =>
    `half shafts that together bear ${figure(to, TORQUE, system, 0)} in place of ${figure(from, TORQUE, system, 0)}`,
};

const KG = { unit: 'kg', display: { metric: 'kg', imperial: 'lb' } };
const KELVIN = { unit: 'K', display: { metric: 'degC', imperial: 'degF' } };
const TORQUE = { unit: 'N m', display: { metric: 'N m', imperial: 'lbf ft' } };
const POWER = { unit: 'W', display: { metric: 'kW', imperial: 'hp' } };

function weighing(kilograms: number, system: System): string {
  return Math.abs(kilograms) < 0.5 ? '' : ` (${figure(kilograms, KG, system, 0)} more)`;
}

/** What brings most to the goal, one thing at a time; '' where nobody looked. */
export function leverWords({ levers }: Result, goal: string, system: System): string {
  if (levers === undefined) return '';
  const best = inOrder(levers).filter(({ gain }) => gain !== null && gain >= WORTH);
  if (best.length === 0) return `No single step of a usual size saves ${written(WORTH, 's')} to ${goal}.`;
  const told = best
    .slice(0, TOLD)
    .map(lever => `${written(lever.gain ?? 0, 's')} by ${WORDS[lever.what](lever, system)}`);
  return `To ${goal}, one thing at a time, this would save: ${told.join('; ')}.`;
}

/** All of them; nothing where nobody looked. */
export function leversTable({ levers }: Result, goal: string, system: System): Html | null {
  if (levers === undefined) return null;
  return html`<div class="scroll" role="group" aria-label="What one change brings" tabindex="0"><table class="figures">
<caption>What one change brings</caption>
<thead><tr><th scope="col">One thing at a time</th><th scope="col">To ${goal} (s)</th><th scope="col">Saved (s)</th></tr></thead>
<tbody>
${inOrder(levers).map(
  lever => html`<tr><th scope="row">${capital(WORDS[lever.what](lever, system))}</th>${
    lever.time === null
      ? html`<td colspan="2">${lever.reason}</td>`
      : html`<td>${digits(lever.time, 2)}</td><td>${digits(lever.gain ?? 0, 2)}</td>`
  }</tr>
`,
)}</tbody></table></div>
<p class="note">Each is a run of its own with that alone changed; steps are of a size that can be bought or done, not advice to do it. A pack of other
cells weighs more or less with its boxes, half way between the axles. Shafts, tyres, fuses and cables must stand what is changed.</p>
`;
}

/** What saves most first; what has no answer last. */
function inOrder(levers: readonly Lever[]): readonly Lever[] {
  return levers.toSorted((a, b) => (b.gain ?? -Infinity) - (a.gain ?? -Infinity));
}
