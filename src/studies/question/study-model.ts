/** What a study varies: questions about cars, and which of their figures are of interest. Plain data. */
import { createAsk, refusal } from '../../runs/answer/ask.ts';
import type { Ask } from '../../runs/answer/ask.ts';
import type { Change } from '../../runs/answer/change.ts';
import type { AnswerSettings } from '../../runs/kind.ts';
import type { Question } from '../../runs/answer/question.ts';
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
    const why = outputs.map(() => '');
    out.fill(Number.NaN);
    for (const [index, ask] of asks.entries()) {
      try {
        const { summary, reasons } = ask(changes.filter(({ path }) => deaf[index]?.has(path) !== true));
        for (const [k, { question, key }] of outputs.entries()) {
          if (question !== index) continue;
          const value = summary[key];
          out[k] = typeof value === 'number' ? value : Number.NaN;
          if (value === null) why[k] = reasons[key] ?? '';
        }
      } catch (error) {
        const refused = refusal(error);
        for (const [k, { question }] of outputs.entries()) if (question === index) why[k] = refused;
      }
    }
    return apart === true ? writeWhyNot(why) : (why.find(reason => reason !== '') ?? '');
  };
}
