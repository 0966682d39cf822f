/**
 * The description of what a user may write: one table per noun, from which reading, checking, defaults and the printed
 * reference all follow. Nothing about a field is written anywhere else.
 */
import type { Spread } from './input.ts';

/** A number with a unit. */
export interface NumberField {
  readonly kind: 'number';
  /** SI unit the value is kept in: `kg`, `m`, `N m`, `W`, `V`, `rad/s`, `degC` is kept in `K`; `1` for a pure number. */
  readonly unit: string;
  /** Unit for people, metric and imperial. */
  readonly display: { readonly metric: string; readonly imperial: string };
  /** Smallest and largest value that can be right, SI, both included. Outside is an error, never clamped. */
  readonly min: number;
  readonly max: number;
  readonly doc: string;
  readonly required?: boolean;
  readonly default?: FieldDefault;
  /** The default in words, for a field whose default is computed from other fields. */
  readonly derived?: string;
  /** Whether that is arithmetic on what was given, and no rule of thumb. */
  readonly computed?: true;
  /** How far a value may be off that is written down without a spread: a maker's figure. */
  readonly stated?: StatedSpread;
  /** The field that this one has to stay below, so that no two draws contradict each other. */
  readonly below?: Below;
  /** Between which values of cars that go into workshops lie, SI: others are questioned, not refused. Common practice, no source. */
  readonly usual?: readonly [low: number, high: number];
  /** A count: it has no spread. */
  readonly whole?: true;
  /** Words that stand for a value. */
  readonly words?: { readonly [word: string]: FieldDefault };
}

/** The spread of a figure that is stated as if it were exact. */
export interface StatedSpread {
  /** Half of its width, as a share of the value. */
  readonly share: number;
  readonly source: string;
}

/**
 * Two fields of one car of which one stays below the other. `share`: it goes along with the other in proportion, as sliding
 * friction with its peak. `order`: the two are drawn by themselves, each on its own side of a mark between them.
 */
export interface Below {
  readonly as: 'share' | 'order';
  /** The other field, seen from the group of this one, in words of the notebook: `cell/max_voltage`, `../unit/max_speed`. */
  readonly path: string;
  /** A field that the other one is multiplied by first. */
  readonly times?: string;
  /** Least share of the other one that it can be. */
  readonly least?: number;
}

/** The value taken when the user leaves the field out. */
export interface FieldDefault {
  readonly value: number;
  readonly source: string;
  readonly spread?: Spread;
}

/** One word out of a closed set. */
export interface ChoiceField {
  readonly kind: 'choice';
  readonly choices: readonly string[];
  readonly doc: string;
  readonly required?: boolean;
  readonly default?: { readonly value: string; readonly source: string };
}

/** Free text: a title, a tyre size. */
export interface TextField {
  readonly kind: 'text';
  readonly doc: string;
  /** A regular expression of texts that can mean nothing but this field, to tell what was meant where one stands elsewhere. */
  readonly looks?: string;
  readonly required?: boolean;
}

/** A list of numbers of one unit: a table column. */
export interface NumbersField {
  readonly kind: 'numbers';
  readonly unit: string;
  /** Unit for people, where it is not the SI unit. */
  readonly display?: { readonly metric: string; readonly imperial: string };
  /** Sums of money, in which 6.900 is more likely 6900. */
  readonly money?: true;
  readonly min: number;
  readonly max: number;
  readonly doc: string;
  readonly required?: boolean;
}

/** Fields inside a field, written in place or named: the name of a `part` cell or of a part that ships with axlewatt. */
export interface GroupField {
  readonly kind: 'group';
  /** Kind of part that may stand here by name, or '' for a group that is only written in place. */
  readonly part: string;
  readonly fields: Fields;
  readonly doc: string;
  readonly required?: boolean;
}

/** A list of groups, all with the same fields: what comes out of a car, piece by piece. */
export interface GroupsField {
  readonly kind: 'groups';
  /** Of each group in the list. */
  readonly fields: Fields;
  readonly doc: string;
  readonly required?: boolean;
}

/** A reference to another cell by name: a launch names its car. */
export interface ReferenceField {
  readonly kind: 'reference';
  /** Kinds of cell that may stand there. */
  readonly to: readonly string[];
  readonly doc: string;
  readonly required?: boolean;
}

/** A list of words: names of cells, of outputs, or lines of text. */
export interface WordsField {
  readonly kind: 'words';
  /** Kinds of cell that they name; left out where they name none. */
  readonly to?: readonly string[];
  readonly doc: string;
  readonly required?: boolean;
}

export type Field =
  | WordsField
  | NumberField
  | ChoiceField
  | TextField
  | NumbersField
  | GroupField
  | GroupsField
  | ReferenceField;

/** Keys in camelCase, as in the code; a notebook writes them in snake_case (`peakPower` is `peak_power`). */
export type Fields = { readonly [key: string]: Field };
