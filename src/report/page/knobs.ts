/** What a reader may turn, as a table: it stands there with and without a script. */
import { type Knob, settingText } from '../../notebook/document/knob.ts';
import type { Block } from '../../notebook/document/outcome.ts';
import { formatNumber } from '../../units.ts';
import { type Html, html } from './html.ts';
import { PANEL } from './live-data.ts';

export function knobsTable(knobs: readonly Knob[]): Html {
  return html`<div class="scroll" role="group" aria-label="What may be turned" tabindex="0"><table class="figures knobs">
<caption>What may be turned</caption>
<thead><tr><th scope="col">input</th><th scope="col">in the notebook</th><th scope="col">settings</th></tr></thead>
<tbody>
${knobs.map(
  knob => html`<tr><th scope="row">${knob.label}<br><code>${knob.path}</code></th><td>${ownText(knob)}</td><td>${settings(knob)}${weightless(knob)}</td></tr>
`,
)}</tbody></table></div>
`;
}

/** A setting stands for the line that the notebook would say, and that line says nothing of the mass. */
function weightless({ path }: Knob): Html | null {
  return /\.pack(?:\.(?:cell|series|parallel))?$/u.test(path)
    ? html` <small class="weightless">Other cells bring no mass along here: turn the mass of the car with them.</small>`
    : null;
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

/** All that may be turned in a page, each input once. */
export function knobsOf(blocks: readonly Block[]): readonly Knob[] {
  const byPath = new Map<string, Knob>();
  for (const block of blocks) {
    if (block.kind === 'cell')
      for (const knob of block.knobs ?? []) if (!byPath.has(knob.path)) byPath.set(knob.path, knob);
  }
  return [...byPath.values()];
}

/** The controls. They are hidden until a script can turn them; on paper stands what they were turned to. */
export function knobsPanel(knobs: readonly Knob[]): Html {
  return html`<aside id="${PANEL}" aria-labelledby="${PANEL}-h" hidden>
<details open><summary><span id="${PANEL}-h">Turn it</span> <span class="state" aria-hidden="true"></span></summary>
<form autocomplete="off">
${knobs.map(
  (knob, k) => html`<p class="knob" data-path="${knob.path}">${control(knob, `knob-${k + 1}`)}${weightless(knob)}</p>
`,
)}</form>
<p class="acts"><button type="button" class="reset" disabled>As in the notebook</button> <button type="button" class="copy" disabled>Copy as notebook lines</button></p>
<textarea class="lines" readonly hidden rows="8" aria-label="The changed cells, as the notebook would have them"></textarea>
</details>
<p class="unseen" role="status"></p>
</aside>
<p id="settings" hidden></p>
`;
}

function control(knob: Knob, id: string): Html {
  const label = html`<label for="${id}">${knob.label}</label>`;
  if (knob.kind === 'choice') {
    return html`${label} <select id="${id}" data-own="${knob.own}">${knob.choices.map(
      choice =>
        html`<option value="${choice}"${choice === knob.own ? html` selected` : null}>${choice.replaceAll('_', ' ')}</option>`,
    )}</select>`;
  }
  const { from, to, step, own, unit } = knob;
  return html`${label} <b class="now" aria-hidden="true">${ownText(knob)}</b><input type="range" id="${id}" min="${from}" max="${to}" step="${step}" value="${own}" data-own="${own}" data-unit="${unit}" data-text="${ownText(knob)}" aria-valuetext="${ownText(knob)}"><span class="ends" aria-hidden="true"><span>${settingText(from, knob)}</span><span>notebook ${ownText(knob)}</span><span>${settingText(to, knob)}</span></span>`;
}
