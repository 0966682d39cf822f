/** What a study varies: a path of a car or of a run over values, or whole cars. */
import type { Change } from '../../runs/answer/change.ts';

export interface Axis {
  /** With the name of the car or run in front; the word `car` for whole cars. */
  readonly path: string;
  readonly label: string;
  readonly unit: string;
  readonly display: { readonly metric: string; readonly imperial: string };
  /** SI, ascending as they are written; indices for cars. */
  readonly values: readonly number[];
  /** Names of the cars; empty for numbers. */
  readonly names: readonly string[];
  /** Whether the field takes whole numbers only. */
  readonly whole: boolean;
  /** The changes that a value means. */
  changes(value: number): readonly Change[];
}
