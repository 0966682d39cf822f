/** What reading a cell gives, and what it needs to know of the rest of the notebook. */
import type { Fields } from '../../model/fields/field.ts';
import { notebookKey } from '../../model/fields/filler.ts';
import type { Input, Spread } from '../../model/fields/input.ts';
import type { System } from '../../units.ts';
import type { FormulaValue } from '../formula/formula.ts';
import type { LocatedMap } from '../document/located.ts';
import type { ProblemData } from '../document/problem.ts';

export type FieldValue = number | string | readonly number[] | readonly string[] | FieldValues | readonly FieldValues[];

/** Keys in camelCase, numbers in SI; only what was written, nothing assumed. */
export interface FieldValues {
  readonly [key: string]: FieldValue;
}

/** What stands behind a part's name: the mapping of a `part` cell, or a part that ships with axlewatt. */
export type Part =
  | { readonly kind: 'written'; readonly map: LocatedMap }
  | {
      readonly kind: 'shipped';
      readonly values: FieldValues;
      readonly spreads: { readonly [key: string]: Spread };
      readonly source: string;
    };

export interface ReadContext {
  /** Name of the cell: the start of every path. */
  readonly path: string;
  /** Units of the limits in messages, and of the inputs. */
  readonly system: System;
  part(kind: string, name: string): Part | undefined;
  /** Names of all parts of a kind, for the nearest spelling. */
  parts(kind: string): readonly string[];
  /** Kind of the cell with this name. */
  cell(name: string): string | undefined;
  /** Names of all cells of these kinds, for the nearest spelling. */
  cells(kinds: readonly string[]): readonly string[];
  /** Evaluates what stands behind `=`; throws FormulaError. */
  formula(text: string): FormulaValue;
}

export interface ReadResult {
  readonly values: FieldValues;
  /** What was given or computed, and what came with a shipped part. Of what is left out there is nothing. */
  readonly inputs: readonly Input[];
  /** In the order of the text. Only when there is none are the values to be used. */
  readonly problems: readonly ProblemData[];
}

export { notebookKey as writtenKey } from '../../model/fields/filler.ts';

const written = new WeakMap<Fields, ReadonlyMap<string, string>>();

/** The key of the field that a notebook writes so; undefined where the table has none. */
export function keyOf(fields: Fields, text: string): string | undefined {
  const known = written.get(fields) ?? new Map(Object.keys(fields).map(key => [notebookKey(key), key]));
  written.set(fields, known);
  return known.get(text);
}
