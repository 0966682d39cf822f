/** What has no answer, in words: every card, table, sentence and line of the terminal takes them from here. */
import { durationEnds, endsText } from '../plots/kit/interval.ts';
import type { Holes, Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { written } from '../units/rounding.ts';

/** Why a value is missing, without a full stop. */
export function reason(result: Result, key: string): string {
  return (result.reasons[key] ?? 'no reason was given').replace(/\.$/, '');
}

/** ` (no answer in 62 of 128 cases)`, to stand behind a value; '' where all cases have an answer. */
export function holesBrief({ intervals }: Result, key: string): string {
  const holes = intervals?.holes[key];
  return intervals === undefined || holes === undefined ? '' : ` (no answer in ${share(holes, intervals.samples)})`;
}

/**
 * `No answer in 62 of 128 cases (48 %): the pack is too cold to be charged`, to stand in a headline without its full stop. For a
 * figure that the run itself does not have, what the samples say that have it. '' where all cases agree with the run.
 */
export function holesText(result: Result, key: string, system: System): string {
  const { intervals, summary } = result;
  const holes = intervals?.holes[key];
  if (intervals === undefined || holes === undefined) return '';
  const { samples } = intervals;
  if ((summary[key] ?? null) === null) {
    const found = samples - holes.missing;
    return found === 0 ? '' : `In ${found} of ${samples} cases there is an answer${between(result, key, system)}`;
  }
  return `${holesCount(holes, samples)}: ${reasonsText(holes)}`;
}

/** The same where its reasons stand above already: `No answer in 62 of 128 cases (48 %): see above`; '' where they do not (`unansweredCases`). */
export function holesAbove(result: Result, key: string): string {
  const { intervals } = result;
  const holes = intervals?.holes[key];
  if (intervals === undefined || holes === undefined || unansweredCases(result, key) === '') return '';
  return `${holesCount(holes, intervals.samples)}: see above`;
}

function holesCount(holes: Holes, samples: number): string {
  return `No answer in ${share(holes, samples)} (${percent(holes.missing / samples)})`;
}

/**
 * `in 16 of 35 cases (46 %) there is no answer: the pack is too cold to be charged (14)`, without a full stop; '' where as many as an interval
 * leaves out at one end have an answer, or the run itself has none.
 */
export function unansweredCases({ intervals, summary }: Result, key: string): string {
  const holes = intervals?.holes[key];
  if (intervals === undefined || holes === undefined || (summary[key] ?? null) === null) return '';
  const { samples, probability } = intervals;
  if (holes.missing <= ((1 - probability) / 2) * samples) return '';
  return `in ${holes.missing} of ${samples} cases (${percent(holes.missing / samples)}) it does not come about: ${reasonsText(holes)}`;
}

/** The same as a sentence that follows another one: ` No answer in ....`; '' where there is nothing to tell. */
export function holesSentence(result: Result, key: string, system: System): string {
  const text = holesText(result, key, system);
  return text === '' ? '' : ` ${text.replace(/\.$/, '')}.`;
}

/** Of several figures: which lack in how many samples, and why, each reason once. */
export function allHolesText({ intervals, outputs, summary }: Result): string {
  if (intervals === undefined) return '';
  const groups = new Map<string, { readonly labels: string[]; readonly holes: Holes }>();
  for (const [key, holes] of Object.entries(intervals.holes)) {
    if ((summary[key] ?? null) === null) continue;
    const name = JSON.stringify(holes);
    const group = groups.get(name) ?? { labels: [], holes };
    group.labels.push(outputs[key]?.label ?? key);
    groups.set(name, group);
  }
  const told = [...groups.values()].map(
    ({ labels, holes }) => `${labels.join(', ')} in ${share(holes, intervals.samples)} (${reasonsText(holes)})`,
  );
  return told.length === 0 ? '' : ` No answer: ${told.join('; ')}. The intervals are those of the others.`;
}

function share({ missing }: Holes, samples: number): string {
  return `${missing} of ${samples} cases`;
}

function percent(part: number): string {
  return written(100 * part, '%', part < 0.095 || part > 0.995 ? 1 : 0);
}

/** Reasons that are told; the others are counted together. */
const TOLD = 3;

function reasonsText({ reasons, missing }: Holes): string {
  const told = reasons.slice(0, TOLD);
  const rest = missing - told.reduce((sum, { samples }) => sum + samples, 0);
  const texts = told.map(({ reason, samples }) =>
    reasons.length === 1 ? plain(reason) : `${plain(reason)} (${samples} of them)`,
  );
  return [...texts, ...(rest > 0 ? [`other reasons (${rest})`] : [])].join('; ');
}

function plain(reason: string): string {
  return reason.replace(/\.$/, '');
}

function between({ intervals, outputs }: Result, key: string, system: System): string {
  const [ends, output] = [intervals?.of[key], outputs[key]];
  if (ends === undefined || output === undefined) return '';
  return `: ${output.unit === 's' && ends.high > LONG ? durationEnds(ends) : endsText(ends.low, ends, output, system)}`;
}

/** s; longer times are told in hours and minutes. */
const LONG = 600;
