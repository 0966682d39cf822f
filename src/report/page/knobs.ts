/** What a reader may turn, as a table: it stands there with and without a script. */
import { type Knob, settingText } from '../../notebook/document/knob.ts';
import { formatNumber } from '../../units.ts';
import { type Html, html } from './html.ts';

export function knobsTable(knobs: readonly Knob[]): Html {
  return html`<div class="scroll" role="region" aria-label="What may be turned" tabindex="0"><table class="figures knobs">
<caption>What may be turned</caption>
<thead><tr><th scope="col">input</th><th scope="col">in the notebook</th><th scope="col">settings</th></tr></thead>
<tbody>
${knobs.map(
  knob => html`<tr><th scope="row">${knob.label}<br><code>${knob.path}</code></th><td>${ownText(knob)}</td><td>${settings(knob)}</td></tr>
`,
)}</tbody></table></div>
`;
}

/** What the notebook itself says. */
function ownText(knob: Knob): string {
  if (knob.kind === 'choice') return knob.own.replaceAll('_', ' ');
  const number = formatNumber(knob.own, 5);
  return knob.unit === '' ? number : `${number} ${knob.unit}`;
}

function settings(knob: Knob): string {
  if (knob.kind === 'choice') return knob.choices.map(choice => choice.replaceAll('_', ' ')).join(', ');
  return `${settingText(knob.from, knob)} to ${settingText(knob.to, knob)} in steps of ${settingText(knob.step, knob)}`;
}
