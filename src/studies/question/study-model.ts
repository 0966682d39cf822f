/** What a study varies: questions about cars, and which of their figures are of interest. Plain data. */
import { createAsk, refusal } from '../../runs/answer/ask.ts';
import type { Ask } from '../../runs/answer/ask.ts';
import type { Change } from '../../runs/answer/change.ts';
import type { AnswerSettings } from '../../runs/kind.ts';
import type { Question } from '../../runs/answer/question.ts';
import { item } from '../../columns.ts';
import { writeWhyNot } from './why-not.ts';

/** Of runs that are one of many samples: a thousandth of what the samples themselves leave open, and half the work. */
export const SAMPLES_TOLERANCE = 1e-6;

/** How a run that is one of many rows is asked. Over 300 random cars marks are off by 1e-6 at most, which no digit tells. */
export const ROW_SETTINGS: AnswerSettings = { markTolerance: 5e-7 };

export interface SubjectOutput {
  /** Index of the question. */
  readonly question: number;
  /** Key of the figure: of the outputs of the run, or of the car. */
  readonly key: string;
}

export interface Subject {
  readonly questions: readonly Question[];
  readonly outputs: readonly SubjectOutput[];
  /** A change of the pack carries its mass; default true. */
  readonly carryMass?: boolean;
  /** Relative, of runs that are integrated to one; left out, that of the runs themselves. */
  readonly tolerance?: number;
  /** The same of launches of which nothing but times and speeds at marks is wanted. */
  readonly markTolerance?: number;
  /** For each question the paths of changes that it does not take, because it does not reckon with them. */
  readonly ignores?: readonly (readonly string[])[];
  /** Whether it is told of each figure why it has no answer (`why-not.ts`), and not of the first such figure alone. */
  readonly apart?: boolean;
}

/** The same for one of many samples. */
export function sampled(subject: Subject): Subject {
  return { ...subject, tolerance: SAMPLES_TOLERANCE, apart: true };
}

/** The same for one of many rows. */
export function swept(subject: Subject): Subject {
  return { ...subject, ...ROW_SETTINGS };
}

/**
 * Writes one number per output, NaN where there is no answer, and says why there is none; '' otherwise. The changes have paths with
 * the names of car and run in front.
 */
export type AnswerSubject = (changes: readonly Change[], out: Float64Array) => string;

export function createSubject(subject: Subject): AnswerSubject {
  const { questions, outputs, carryMass, tolerance, markTolerance, ignores, apart } = subject;
  const deaf = questions.map((_, index) => new Set(ignores?.[index]));
  const places = questions.map((_, index) => outputs.flatMap(({ question }, k) => (question === index ? [k] : [])));
  const asks = questions.map((question, index): Ask => {
    const wanted = outputs.filter(output => output.question === index).map(({ key }) => key);
    return createAsk(question, {
      wanted,
      ...(carryMass !== undefined && { carryMass }),
      ...(tolerance !== undefined && { tolerance }),
      ...(markTolerance !== undefined && { markTolerance }),
    });
  });
  return (changes, out) => {
    // Of most rows there is nothing to say.
    let why: string[] | null = null;
    out.fill(Number.NaN);
    for (let index = 0; index < asks.length; index++) {
      const own = item(places, index);
      const ignored = item(deaf, index);
      try {
        const heard = ignored.size === 0 ? changes : changes.filter(({ path }) => !ignored.has(path));
        const { summary, reasons } = item(asks, index)(heard);
        for (const k of own) {
          const { key } = item(outputs, k);
          const value = summary[key];
          if (typeof value === 'number') out[k] = value;
          else if (value === null) (why ??= outputs.map(() => ''))[k] = reasons[key] ?? '';
        }
      } catch (error) {
        const refused = refusal(error);
        why ??= outputs.map(() => '');
        for (const k of own) why[k] = refused;
      }
    }
    if (why === null) return '';
    return apart === true ? writeWhyNot(why) : (why.find(reason => reason !== '') ?? '');
  };
}
