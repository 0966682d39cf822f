/** What runs answered before, by the question that was put: the same question has the same answer, to the last bit. */
import { canonicalJson } from '../batch/canonical.ts';
import type { Input } from '../model/fields/input.ts';
import type { Question } from '../runs/answer/question.ts';
import type { Result } from '../runs/result.ts';
import { Trail } from '../runs/trail/trail.ts';

/** Texts by texts, wherever they are kept. */
export interface Memory {
  /** Null where nothing is kept, or it is damaged. */
  recall(question: string): string | null;
  keep(question: string, answer: string): void;
}

/** All that a calibration hangs on, in plain data: what the cell and the car say, and the texts of its logs. */
export interface LogsRead {
  readonly calibrate: string;
  readonly said: unknown;
  readonly logs: readonly (readonly [file: string, text: string])[];
}

/** An answer, and what was assumed about the run. */
export interface Remembered {
  readonly result: Result;
  readonly assumed: readonly Input[];
}

/**
 * The answer that is kept, or a new one.
 * @param question all that it hangs on: of a run its question, of a calibration what it reads. @param run throws for a question that has none: nothing is kept then.
 */
export function remembered(
  memory: Memory | undefined,
  question: Question | LogsRead,
  run: () => Remembered,
): Remembered {
  const note = noteFor<Kept>(memory, question);
  if (note !== null && note.found !== null) {
    const { trail, ...found } = note.found;
    return trail === null ? found : { ...found, result: { ...found.result, trail: Trail.of(trail) } };
  }
  const answer = run();
  note?.keep({ ...answer, trail: answer.result.trail?.saved() ?? null });
  return answer;
}

/** An answer as it is kept: its trail by what it saves. */
type Kept = Remembered & { readonly trail: ReturnType<Trail['saved']> | null };

/** What is kept of a question, or is to be kept. */
interface Note<T> {
  /** Null where nothing is kept yet. */
  readonly found: T | null;
  keep(answer: T): void;
}

/** The same for whoever can not hand over what finds the answer. Null where nothing can be kept. @param T plain data. */
export function noteFor<T>(memory: Memory | undefined, question: unknown): Note<T> | null {
  const key = memory === undefined ? null : keyOf(question);
  if (memory === undefined || key === null) return null;
  const kept = memory.recall(key);
  return {
    found: kept === null ? null : (JSON.parse(kept, revived) as T),
    keep: answer => memory.keep(key, JSON.stringify(answer, written)),
  };
}

/** Null for a question that JSON can not carry, such as one with a measured map. */
function keyOf(question: unknown): string | null {
  try {
    return canonicalJson(question);
  } catch (error) {
    if (error instanceof TypeError) return null;
    throw error;
  }
}

/** Columns as base64 of their bytes, and the numbers that JSON has no sign for by name. */
type Written = { readonly f64: string } | { readonly number: string };

function written(_: string, value: unknown): unknown {
  if (value instanceof Float64Array) {
    return { f64: Buffer.from(value.buffer, value.byteOffset, value.byteLength).toString('base64') } satisfies Written;
  }
  if (typeof value === 'number' && (!Number.isFinite(value) || Object.is(value, -0))) {
    return { number: Object.is(value, -0) ? '-0' : String(value) } satisfies Written;
  }
  return value;
}

function revived(_: string, value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Object.keys(value).length !== 1) return value;
  if ('f64' in value && typeof value.f64 === 'string') {
    // Into memory of its own: a Buffer may begin anywhere.
    return new Float64Array(Uint8Array.from(Buffer.from(value.f64, 'base64')).buffer);
  }
  return 'number' in value && typeof value.number === 'string' ? Number(value.number) : value;
}
