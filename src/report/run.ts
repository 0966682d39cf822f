/** One run in full: pictures, tables, the ledger, the second opinion. */
import { closes, energy, energyUnit, entries, SIDES, sum } from '../plots/energy.ts';
import { scaleOf, unitText, written } from '../plots/kit/rounding.ts';
import { packTrace } from '../plots/pack-trace.ts';
import type { Picture } from '../plots/kit/picture.ts';
import { speedTrace } from '../plots/speed-trace.ts';
import { traction } from '../plots/traction.ts';
import type { Ledger, Result, SecondOpinion } from '../runs/result.ts';
import type { System } from '../units.ts';
import { chargeBody } from './kinds/charge.ts';
import { compareBody } from './kinds/compare.ts';
import { controlTable } from './kinds/traction-control.ts';
import { figureOf } from './page/figures.ts';
import { gearsTable } from './kinds/gears.ts';
import { type Html, html } from './page/html.ts';
import { allOutputs, intervalNote, otherOutputs, timesTable } from './page/outputs.ts';
import { rankBody } from './kinds/rank.ts';
import { repeatBody } from './kinds/repeat.ts';
import { seekBody } from './kinds/seek.ts';
import { sheetBody } from './kinds/sheet.ts';
import { spreadBody } from './kinds/spread.ts';
import { standardBody } from './kinds/standard.ts';
import { steadyBody } from './kinds/steady.ts';
import { sweepBody } from './kinds/sweep.ts';
import { travelBody } from './kinds/trip.ts';
import { verdict } from './kinds/launch.ts';
import { weighBody } from './kinds/weigh.ts';

type Body = (result: Result, system: System, id: string, ledger: Html) => Promise<Html>;

/** The kinds of run that have pages of their own, with the ledger in its place. */
const BODIES: { readonly [kind: string]: Body } = {
  repeat: repeatBody,
  drive: travelBody,
  range: travelBody,
  standard: standardBody,
  steady: steadyBody,
  charge: chargeBody,
  compare: compareBody,
  sweep: sweepBody,
  spread: spreadBody,
  rank: rankBody,
  seek: seekBody,
};

const TOLD_IN_BARS: ReadonlySet<string> = new Set(['drive', 'range', 'standard']);

/** The body of a run cell. Ids inside begin with `id`. */
export async function runBody(result: Result, system: System, id: string): Promise<Html> {
  const warnings = html`${result.warnings.map(
    warning => html`<p class="warning"><strong>Mind:</strong> ${warning.replace(/\.?$/, '.')}</p>
`,
  )}`;
  const brackets = bracketsLine(result);
  if (result.kind === 'weigh') return html`${warnings}${await weighBody(result, system, id)}`;
  if (result.kind === 'sheet') return html`${warnings}${sheetBody(result, system)}${opinion(result)}`;
  const body = BODIES[result.kind];
  if (body !== undefined) {
    const table = ledgerTable(result.ledger, system);
    // The bars of a trip have told it already.
    const ledger = TOLD_IN_BARS.has(result.kind)
      ? html`<details class="every"><summary>The energy ledger</summary>${table}</details>`
      : table;
    return html`${warnings}${await body(result, system, id, ledger)}${brackets}${opinion(result)}`;
  }
  const drawn: Html[] = [];
  // All at once, so that neither of the two threads that draw waits for the other one.
  drawn.push(
    ...(await Promise.all(pictures(result, system).map(([name, picture]) => figureOf(picture, `${id}-${name}`)))),
  );
  return html`${warnings}${result.kind === 'launch' ? words(result, system) : null}${brackets}${drawn}${result.kind === 'launch' ? html`${gearsTable(result, system)}${controlTable(result, system)}` : null}<div class="pair">
${result.kind === 'launch' ? timesTable(result, system) : null}${otherOutputs(result, system)}</div>
${ledgerTable(result.ledger, system)}
<details class="every"><summary>All outputs, and what each one is</summary>${allOutputs(result, system)}</details>
${opinion(result)}`;
}

function bracketsLine(result: Result): Html | null {
  // A spread says so itself.
  const note = result.kind === 'spread' ? null : intervalNote(result);
  return note === null
    ? null
    : html`<p class="note">${note} What stands without brackets is worked out at the best value of each input.</p>
`;
}

function opinion(result: Result): Html | null {
  return result.opinion === null ? null : opinionLine(result.opinion, result);
}

/** The pictures for which the run has the numbers. */
function pictures(result: Result, system: System): readonly (readonly [string, Picture])[] {
  const time = result.series['time'];
  const has = (...keys: readonly string[]): boolean => time !== undefined && keys.every(key => key in time);
  return [
    ...(has('speed_m_s', 'acceleration_m_s2') ? ([['trace', speedTrace(result, system)]] as const) : []),
    ...(result.series['traction'] === undefined ? [] : ([['force', traction(result, system)]] as const)),
    ...(has('pack_voltage_V', 'pack_current_A') ? ([['pack', packTrace(result, system)]] as const) : []),
    ['energy', energy(result, system)],
  ];
}

function words(result: Result, system: System): Html {
  const { headline, held, tyres, control } = verdict(result, system);
  const quick =
    headline.figure === null
      ? `${headline.of}: ${headline.reason}.`
      : `${headline.of} in ${headline.within ?? headline.figure}.`;
  return html`<p class="lead"><strong>${quick}</strong> ${held} ${tyres} ${control}</p>
`;
}

/** The ledger with its sums, so that the reader can add it up. */
export function ledgerTable(ledger: Ledger, system: System): Html {
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
export function opinionText(opinion: SecondOpinion, result: Result): string {
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
