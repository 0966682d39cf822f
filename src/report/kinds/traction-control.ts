/** What traction control is worth: the wheels free to spin, the car as it is, and the slip held at its best. */
import { figure } from '../../units/rounding.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Html, html } from '../page/html.ts';
import { controlGoal, isShort } from './launch.ts';

/** The three side by side; nothing where one of them does not get there. */
export function controlTable(result: Result, system: System): Html | null {
  const spun = summaryNumber(result, 'time_without_control');
  const worth = summaryNumber(result, 'control_worth');
  const own = summaryNumber(result, isShort(result) ? 'time' : 'time_to_100_km_h');
  const goal = controlGoal(result, system);
  if (spun === null || worth === null || own === null) return null;
  const row = (key: string, values: readonly (number | null)[]): Html =>
    html`${values.map(value => {
      const output = result.outputs[key];
      return html`<td>${value === null || output === undefined ? '–' : figure(value, output, system)}</td>`;
    })}`;
  const slip = ['slip_energy_with_control', 'slip_energy', 'slip_energy_without_control'];
  return html`<table class="figures control">
<caption>What traction control is worth</caption>
<thead><tr><td></td><th scope="col">slip held at its best</th><th scope="col">the car as it is</th><th scope="col">no traction control</th></tr></thead>
<tbody>
<tr><th scope="row">to ${goal}</th>${row('time_to_100_km_h', [spun - worth, own, spun])}</tr>
<tr><th scope="row">heat in the tyres</th>${row(
    'slip_energy',
    slip.map(key => summaryNumber(result, key)),
  )}</tr>
</tbody></table>
<p class="note">Up to ${goal}, the same foot on the pedal. What is lost in slip heats the tread and the road, and wears the tread.</p>
`;
}
