/** What each kind of run has to say: in one sentence for the answer, in a few for page and terminal. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { chargeAnswer, chargeWords } from './kinds/charge.ts';
import { compareAnswer, compareWords } from './kinds/compare.ts';
import { gearWords } from './kinds/gears.ts';
import { repeatWords } from './kinds/repeat.ts';
import { sheetWords } from './kinds/sheet.ts';
import { spreadAnswer, spreadWords } from './kinds/spread.ts';
import { standardAnswer, standardWords } from './kinds/standard.ts';
import { steadyAnswer, steadyWords } from './kinds/steady.ts';
import { firstVerdict, verdictWords } from './kinds/study.ts';
import { travelAnswer, travelWords } from './kinds/trip.ts';
import { weighWords } from './kinds/weigh.ts';

type Words = (result: Result, system: System) => string;
type Answer = (result: Result, system: System) => string | null;

const ANSWERS: { readonly [kind: string]: Answer } = {
  drive: travelAnswer,
  range: travelAnswer,
  standard: standardAnswer,
  steady: steadyAnswer,
  charge: chargeAnswer,
  compare: compareAnswer,
  sweep: firstVerdict,
  spread: spreadAnswer,
  rank: firstVerdict,
  seek: firstVerdict,
};

const WORDS: { readonly [kind: string]: Words } = {
  launch: gearWords,
  weigh: weighWords,
  sheet: sheetWords,
  repeat: repeatWords,
  drive: travelWords,
  range: travelWords,
  standard: standardWords,
  steady: steadyWords,
  charge: chargeWords,
  compare: compareWords,
  sweep: verdictWords,
  spread: spreadWords,
  rank: verdictWords,
  seek: verdictWords,
};

/** The answer of a run in one sentence; null for a kind whose answer has another form. */
export function answerOf(result: Result, system: System): string | null {
  return ANSWERS[result.kind]?.(result, system) ?? null;
}

/** The same with what stands behind it. */
export function wordsOf(result: Result, system: System): string {
  return WORDS[result.kind]?.(result, system) ?? '';
}
