/** A launch on the page: its answer, pictures, times, gears, what traction control is worth. */
import { energy } from '../../plots/energy.ts';
import { packTrace } from '../../plots/pack-trace.ts';
import { speedTrace } from '../../plots/speed-trace.ts';
import { traction } from '../../plots/traction.ts';
import type { Result } from '../../runs/result.ts';
import { capital } from '../../units/rounding.ts';
import type { System } from '../../units.ts';
import type { BodyParts, Pictures, ReportKind } from '../kind.ts';
import { figuresOf } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { allOutputs, otherOutputs, timesTable } from '../page/outputs.ts';
import { gearsTable, gearWords } from './gears.ts';
import { launchCard } from './launch-card.ts';
import { targetOf, verdict } from './launch.ts';
import { leversTable } from './levers.ts';
import { controlTable } from './traction-control.ts';

export const launchReport: ReportKind = {
  kind: 'launch',
  card: launchCard,
  besides: true,
  words: gearWords,
  lines(result, system) {
    const { headline, tyres, control } = verdict(result, system);
    const none = headline.figure === null ? `${headline.of}: ${headline.reason}.` : '';
    return [none, headline.holes === '' ? '' : `${headline.of}: ${headline.holes}.`, tyres, control];
  },
  pictures,
  body: launchBody,
  brackets: 'inside',
};

async function launchBody(result: Result, system: System, id: string, parts: BodyParts): Promise<Html> {
  const drawn = await figuresOf(pictures(result, system), id);
  return html`${lead(result, system)}${parts.brackets}<div class="columns">${drawn}${leversTable(result, targetOf(result, system), system)}${gearsTable(result, system)}${controlTable(result, system)}<div class="pair">
${timesTable(result, system)}${otherOutputs(result, system)}</div>
${parts.ledger}</div>
<details class="every"><summary>All outputs, and what each one is</summary>${allOutputs(result, system)}</details>
`;
}

/** The pictures for which the run has the numbers. */
function pictures(result: Result, system: System): Pictures {
  const time = result.series['time'];
  const has = (...keys: readonly string[]): boolean => time !== undefined && keys.every(key => key in time);
  return [
    ...(has('speed_m_s', 'acceleration_m_s2') ? ([['trace', speedTrace(result, system)]] as const) : []),
    ...(result.series['traction'] === undefined ? [] : ([['force', traction(result, system)]] as const)),
    ...(has('pack_voltage_V', 'pack_current_A') ? ([['pack', packTrace(result, system)]] as const) : []),
    ['energy', energy(result, system)],
  ];
}

function lead(result: Result, system: System): Html {
  const { headline, held, tyres, control } = verdict(result, system);
  const quick =
    headline.figure === null
      ? `${headline.of}: ${headline.reason}.`
      : `${headline.of} in ${headline.within ?? headline.figure}.`;
  return html`<p class="lead"><strong>${capital(quick)}${headline.holes === '' ? '' : ` ${headline.holes}.`}</strong> ${held} ${tyres} ${control}</p>
`;
}
