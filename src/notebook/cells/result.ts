/** What a cell that runs a simulation gives to the others. */
import type { Input } from '../../model/fields/input.ts';
import type { Question } from '../../runs/answer/question.ts';
import type { Result } from '../../runs/result.ts';
import { sound } from '../../runs/sound.ts';
import type { System } from '../../units.ts';
import type { FormulaValue } from '../formula/formula.ts';
import type { Varied } from './varied.ts';
import { NOTHING, type CellYield } from './yield.ts';

/** What of a result can be asked again. */
export interface Again {
  readonly question?: Question;
  readonly varied?: Varied;
}

/** The summary as values, and the reasons of what has none. */
export function resultYield(
  result: Result,
  inputs: readonly Input[],
  system: System,
  { question, varied }: Again = {},
): CellYield {
  const whole = sound(result);
  const values = new Map<string, FormulaValue>();
  const absent = new Map<string, string>();
  for (const [key, output] of Object.entries(whole.outputs)) {
    const value = whole.summary[key];
    if (value === null || value === undefined) absent.set(key, whole.reasons[key] ?? 'the run does not give it');
    else values.set(key, { value, unit: output.unit, display: output.display[system] });
  }
  return {
    ...NOTHING,
    product: {
      kind: 'result',
      result: whole,
      ...(question !== undefined && { question }),
      ...(varied !== undefined && { varied }),
    },
    inputs,
    values,
    absent,
  };
}
