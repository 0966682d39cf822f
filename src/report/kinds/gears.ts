/** A kept gearbox gear by gear: which gear to leave it in, and what that costs against changing gears. */
import { capital, columnHeading, scaleOf, written } from '../../units/rounding.ts';
import { numbers, texts } from '../../runs/series.ts';
import { SHIFTING } from '../../runs/launch/gears.ts';
import type { Result, Series } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import { type Html, html } from '../page/html.ts';

/** The table of the gears with its sentence; nothing for a car without a choice of gears. */
export function gearsTable(result: Result, system: System): Html | null {
  const gears = result.series['gears'];
  if (gears === undefined) return null;
  const keys = Object.keys(gears);
  return html`<div class="scroll" role="group" aria-label="Gear by gear" tabindex="0"><table class="figures">
<caption>Gear by gear</caption>
<thead><tr>${keys.map(key => html`<th scope="col">${heading(gears, key, system)}</th>`)}</tr></thead>
<tbody>
${texts(gears, 'gear').map(
  (gear, row) => html`<tr><th scope="row">${gear}</th>${keys
    .slice(1)
    .map(key => html`<td>${cellText(gears, key, row, system)}</td>`)}</tr>
`,
)}</tbody></table></div>
<p class="note">${gearWords(result, system)}</p>
`;
}

function heading(series: Series, key: string, system: System): string {
  const column = series[key];
  return column === undefined ? '' : capital(columnHeading(column.label, scaleOf(column, system).unit));
}

function cellText(series: Series, key: string, row: number, system: System): string {
  const column = series[key];
  if (column === undefined) return '';
  if (!(column.values instanceof Float64Array)) return column.values[row] ?? '';
  const value = column.values[row] ?? Number.NaN;
  if (Number.isNaN(value)) return 'not reached';
  const scale = scaleOf(column, system);
  return written(value * scale.factor + scale.offset, '1', scale.unit === 's' ? 2 : 0);
}

/** Which gear is the quickest to 100 km/h, and what changing gears would bring; '' for a car without a choice. */
export function gearWords(result: Result, system: System): string {
  const gears = result.series['gears'];
  if (gears === undefined) return '';
  const goal = system === 'metric' ? '100\u00a0km/h' : '100\u00a0km/h (62\u00a0mph)';
  const names = texts(gears, 'gear');
  const times = numbers(gears, 'time_to_100_km_h_s');
  const shifting = times[names.indexOf(SHIFTING)] ?? Number.NaN;
  let best = -1;
  names.forEach((name, i) => {
    const time = times[i] ?? Number.NaN;
    if (name !== SHIFTING && !Number.isNaN(time) && !(best >= 0 && time >= (times[best] ?? 0))) best = i;
  });
  if (best < 0) return `In no gear alone does it reach ${goal}.`;
  const time = times[best] ?? 0;
  const left = `Left in gear ${names[best] ?? ''} it is quickest to ${goal}: ${written(time, 's')}`;
  if (Number.isNaN(shifting)) return `${left}.`;
  const cost = time - shifting;
  if (Math.abs(cost) < 0.005) return `${left}, as quick as with changing gears.`;
  return cost > 0
    ? `${left}, ${written(cost, 's')} more than with changing gears.`
    : `${left}, ${written(-cost, 's')} less than with changing gears, which costs time at every shift.`;
}
