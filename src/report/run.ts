/** One run in full: pictures, tables, the ledger, the second opinion. */
import { closes, energyUnit, entries, SIDES, sum, turned } from '../plots/energy.ts';
import { scaleOf, unitText, written } from '../units/rounding.ts';
import type { Ledger, Result, SecondOpinion } from '../runs/result.ts';
import { NOTHING_COMPARED } from '../runs/second-opinion.ts';
import type { System } from '../units.ts';
import { type Html, html } from './page/html.ts';
import { reportOf } from './kinds.ts';
import { intervalNote } from './page/outputs.ts';
import { unsaidWarnings } from './alarms.ts';

/** The body of a run cell. Ids inside begin with `id`. */
export async function runBody(result: Result, system: System, id: string): Promise<Html> {
  const kind = reportOf(result);
  const warnings = html`${unsaidWarnings(result, system).map(
    warning => html`<p class="warning"><strong>Mind:</strong> ${warning.replace(/(?<![.?!])$/u, '.')}</p>
`,
  )}`;
  const brackets = bracketsLine(result);
  const table = ledgerTable(result.ledger, system);
  const ledger =
    kind.ledger === 'folded'
      ? html`<details class="every"><summary>The energy ledger</summary>${table}</details>`
      : table;
  const body = await kind.body(result, system, id, { ledger, brackets });
  return html`${warnings}${body}${kind.brackets === undefined ? brackets : null}${opinion(result)}`;
}

function bracketsLine(result: Result): Html | null {
  const note = intervalNote(result);
  return note === null
    ? null
    : html`<p class="note">${note} What stands without brackets is worked out at the best value of each input.</p>
`;
}

function opinion(result: Result): Html | null {
  return result.opinion === null ? null : opinionLine(result.opinion, result);
}

/** The ledger with its sums, so that the reader can add it up. */
function ledgerTable(told: Ledger, system: System): Html {
  const ledger = turned(told);
  const scale = scaleOf(energyUnit(ledger), system);
  const total = sum(ledger.in) * scale.factor;
  const shown = (energy: number): string => written(energy * scale.factor, '1', total < 100 ? 2 : 1);
  const lines = entries(ledger);
  const group = (side: 'in' | 'out' | 'stored'): Html =>
    html`${lines
      .filter(entry => entry.side === side)
      .map(
        entry => html`<tr><th scope="row">${entry.name}</th><td>${SIDES[side]}</td><td>${shown(entry.energy)}</td><td>${written(100 * entry.share, '1', 1)}</td></tr>
`,
      )}`;
  return html`<table class="figures ledger">
<caption>Energy ledger</caption>
<thead><tr><td></td><th scope="col">side</th><th scope="col">${unitText(scale.unit)}</th><th scope="col">share, %</th></tr></thead>
<tbody>
${group('in')}</tbody>
<tbody>
${group('out')}${group('stored')}</tbody>
<tfoot><tr><th scope="row">gone and stored</th><td></td><td>${shown(sum(ledger.out) + sum(ledger.stored))}</td><td></td></tr>
<tr><th scope="row">put in</th><td></td><td>${shown(sum(ledger.in))}</td><td></td></tr>
<tr><td colspan="4">They agree to ${closes(ledger.gap)}.</td></tr></tfoot></table>
`;
}

/** What the second method said; a disagreement is a warning. */
function opinionText(opinion: SecondOpinion, result: Result): string {
  if (opinion.where === NOTHING_COMPARED) {
    return `Another method, ${opinion.method}, did not come far enough with its share of work for anything to be compared: nothing checks this run.`;
  }
  const where = result.outputs[opinion.where]?.label ?? opinion.where.replaceAll('_', ' ');
  const up =
    opinion.until === undefined
      ? ''
      : ` up to ${opinion.until.toPrecision(3)} s, as far as that came with its share of work`;
  return opinion.agrees
    ? `Worked out a second time by another method, ${opinion.method}${up}: agrees to ${closes(opinion.difference)}; the largest difference is in “${where}”.`
    : `Worked out a second time by another method, ${opinion.method}${up}: differs by ${closes(opinion.difference)} in “${where}”, which is more than the ${closes(opinion.tolerance)} allowed. Do not rely on this result.`;
}

function opinionLine(opinion: SecondOpinion, result: Result): Html {
  return html`<p class="${opinion.agrees ? 'opinion' : 'warning'}">${opinion.agrees ? null : html`<strong>Mind:</strong> `}${opinionText(opinion, result)}</p>
`;
}
