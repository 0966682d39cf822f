/** What each kind of run has to say: in one sentence for the answer, in a few for page and terminal. */
import type { Result } from '../runs/result.ts';
import type { System } from '../units.ts';
import { chargeAnswer, chargeWords } from './charge.ts';
import { compareAnswer, compareWords } from './compare.ts';
import { gearWords } from './gears.ts';
import { repeatWords } from './repeat.ts';
import { sheetWords } from './sheet.ts';
import { spreadAnswer, spreadWords } from './spread.ts';
import { standardAnswer, standardWords } from './standard.ts';
import { steadyAnswer, steadyWords } from './steady.ts';
import { firstVerdict, verdictWords } from './study.ts';
import { travelAnswer, travelWords } from './travel.ts';
import { weighWords } from './weigh.ts';

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
