/** What a cell that runs a simulation gives to the others. */
import type { Input } from '../../model/fields/input.ts';
import type { Question } from '../../runs/answer/question.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import type { FormulaValue } from '../formula/formula.ts';
import { NOTHING, type CellYield } from './kind.ts';

/** The summary as values, and the reasons of what has none. */
export function resultYield(result: Result, inputs: readonly Input[], system: System, question?: Question): CellYield {
  const sound = withoutHoles(result);
  const values = new Map<string, FormulaValue>();
  const absent = new Map<string, string>();
  for (const [key, output] of Object.entries(sound.outputs)) {
    const value = sound.summary[key];
    if (value === null || value === undefined) absent.set(key, sound.reasons[key] ?? 'the run does not give it');
    else values.set(key, { value, unit: output.unit, display: output.display[system] });
  }
  return {
    ...NOTHING,
    product: { kind: 'result', result: sound, ...(question !== undefined && { question }) },
    inputs,
    values,
    absent,
  };
}

/** A number that is none is no answer: it gets a reason, and nothing behind this has to look for it again. */
function withoutHoles(result: Result): Result {
  const holes = Object.keys(result.summary).filter(key => {
    const value = result.summary[key];
    return typeof value === 'number' && !Number.isFinite(value);
  });
  if (holes.length === 0) return result;
  const summary = { ...result.summary, ...Object.fromEntries(holes.map(key => [key, null])) };
  const reasons = {
    ...Object.fromEntries(holes.map(key => [key, 'the run gives no finite number'])),
    ...result.reasons,
  };
  return { ...result, summary, reasons };
}
