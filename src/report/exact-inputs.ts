/** What was given without a spread though nobody knows it exactly: samples take it as it stands. */
import { numberFieldAt } from '../model/fields/at.ts';
import type { Input } from '../model/fields/input.ts';
import { carFields } from '../model/spec.ts';
import { wordsOfPath } from '../studies/question/path-words.ts';

/** Where in a car the fields of a named part stand. */
const PLACES = [[], ['tyres'], ['drive', 'unit'], ['pack'], ['pack', 'cell']] as const;

/** Rough by their nature, though the default of each is worked out of others. */
const WORKED_OUT: ReadonlySet<string> = new Set(['drag_area', 'frontal_area']);

/** Names that are told; of more their number. */
const TOLD = 5;

/** A sentence that says which they are; '' for none. Rough is what would have a spread if it had been left out. */
export function exactInputs(inputs: readonly Input[]): string {
  const found = new Set(
    inputs.filter(isTakenAsExact).map(({ path }) => wordsOfPath(path.slice(path.indexOf('.') + 1))),
  );
  if (found.size === 0) return '';
  const told = [...found].slice(0, TOLD).join(', ');
  const more = found.size > TOLD ? ` and ${found.size - TOLD} more` : '';
  return `Given without ± and so taken as exact: ${told}${more}; what is not sure of them comes on top.`;
}

function isTakenAsExact({ path, value, origin, spread }: Input): boolean {
  if (origin.kind !== 'given' || typeof value !== 'number' || spread !== undefined) return false;
  const rest = path.split('.').slice(1);
  if (WORKED_OUT.has(rest.at(-1) ?? '')) return true;
  return PLACES.some(place => numberFieldAt(carFields, [...place, ...rest])?.default?.spread !== undefined);
}
