/** What is found out while the fields of a cell are read: the inputs, and what is wrong. */
import type { Field } from '../../model/fields/field.ts';
import type { Input, Origin, Spread } from '../../model/fields/input.ts';
import { formatNumber, toDisplay } from '../../units.ts';
import { type Place, problemAt } from '../document/located.ts';
import type { ProblemData } from '../document/problem.ts';
import { displayOf } from './describe.ts';
import type { Draft } from './draft.ts';
import type { ReadContext } from './read-context.ts';

/** Unknown keys of a cell that are told one by one. */
const MOST_UNKNOWN = 20;

/** A value, and all that the list of inputs says of it. */
export interface Found {
  readonly value: number | string | readonly number[];
  readonly origin: Origin;
  readonly spread?: Spread | undefined;
  readonly spreadSource?: string | undefined;
}

/** Of one cell. */
export class Findings {
  /** By path. */
  readonly inputs = new Map<string, Input>();
  readonly context: ReadContext;
  readonly #problems: ProblemData[] = [];
  /** Paths that a problem is about already: such a field or group is not missing as well. */
  readonly #blamed = new Set<string>();
  #unknown = 0;
  #lastUnknown: Place | null = null;

  constructor(context: ReadContext) {
    this.context = context;
  }

  /** All problems in the order of the text. */
  problems(): readonly ProblemData[] {
    const more = this.#unknown - MOST_UNKNOWN;
    const rest = this.#lastUnknown === null || more <= 0 ? [] : [restOf(this.#lastUnknown, this.context.path, more)];
    return [...this.#problems, ...rest].toSorted((a, b) => a.line - b.line || a.column - b.column);
  }

  fail(place: Place, path: string, message: string, expected = '', cure = ''): void {
    this.blame(problemAt(place, path, message, expected, cure));
  }

  blame(...problems: readonly ProblemData[]): void {
    this.#problems.push(...problems);
    for (const { path } of problems) this.#blamed.add(path);
  }

  /** Whether an unknown key is one of the few that are told by themselves; the others are counted. */
  tellsUnknown(place: Place): boolean {
    this.#unknown += 1;
    if (this.#unknown > MOST_UNKNOWN) this.#lastUnknown = place;
    return this.#unknown <= MOST_UNKNOWN;
  }

  /** Holds a field for told that was written under another name. */
  isMeant(path: string): void {
    this.#blamed.add(path);
  }

  isBlamed(path: string): boolean {
    return this.#blamed.has(path);
  }

  keep(draft: Draft, key: string, field: Field, path: string, found: Found): void {
    const { value, origin, spread, spreadSource } = found;
    draft.set(key, value);
    if (field.kind === 'number' || field.kind === 'numbers') {
      const display = displayOf(field, this.context.system);
      const shown = typeof value === 'object' ? listed(value, field.unit, display) : value;
      const input = { path, value: shown, unit: field.unit, display, origin };
      this.inputs.set(path, {
        ...input,
        ...(spread !== undefined && { spread }),
        ...(spreadSource !== undefined && { spreadSource }),
      });
    } else if (typeof value === 'string') {
      this.inputs.set(path, { path, value, unit: '', display: '', origin });
    }
  }

  /** Drops the inputs of a group that another part takes the place of. */
  forget(path: string): void {
    for (const known of this.inputs.keys()) {
      if (known.startsWith(`${path}.`) || known.startsWith(`${path}[`)) this.inputs.delete(known);
    }
  }
}

function restOf(last: Place, path: string, more: number): ProblemData {
  return problemAt(last, path, `${more} more unknown key${more === 1 ? '' : 's'}, the last of them here`);
}

function listed(values: readonly number[], unit: string, display: string): string {
  return values.map(value => formatNumber(toDisplay(value, unit, display))).join(', ');
}
