/** An input that a reader of the report may turn. Plain data. */

/** A setting is always a text that a notebook could say at the path: what is turned is what could have been written. */
export type Knob = (NumberKnob | ChoiceKnob) & {
  /** With the name of its cell in front: `coupe.tyres.dry_peak`. */
  readonly path: string;
  /** In words of people. */
  readonly label: string;
};

export interface NumberKnob {
  readonly kind: 'number';
  /** As the notebook has it, in `unit`. */
  readonly own: number;
  /** For people; '' for a pure number. */
  readonly unit: string;
  /** The least and the greatest setting, in `unit`. */
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

export interface ChoiceKnob {
  readonly kind: 'choice';
  readonly own: string;
  readonly choices: readonly string[];
}

/** A setting of a number as it would be written: `0.85`, `68 kW`. */
export function settingText(value: number, { unit, step }: { readonly unit: string; readonly step: number }): string {
  const number = value.toFixed(decimalsOf(step));
  return unit === '' ? number : `${number} ${unit}`;
}

/** Digits behind the point that tell one step from the next. */
function decimalsOf(step: number): number {
  const found = Array.from({ length: 9 }, (_, k) => k).find(
    k => Math.abs(step * 10 ** k - Math.round(step * 10 ** k)) < 1e-6,
  );
  return found ?? 9;
}
