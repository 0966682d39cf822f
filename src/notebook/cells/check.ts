/** `yaml check`: a list of what must hold. */
import { formulaProblem, type World } from '../context.ts';
import { sameDimension, UnitError } from '../../units.ts';
import { formatValue } from '../fields/display.ts';
import { FormulaError, formulaNames, type FormulaValue } from '../formula/formula.ts';
import { type LocatedScalar, placeWithin, problemAt, readYaml } from '../document/located.ts';
import type { CheckOutcome } from '../document/outcome.ts';
import { placeOf } from '../document/place.ts';
import { NotebookProblem } from '../document/problem.ts';
import { type CellKind, type CellText } from './kind.ts';
import { sidesOf, sideValues } from './comparison.ts';
import { promiseWords } from './promise-words.ts';
import { NOTHING } from './yield.ts';

export const check: CellKind = {
  kind: 'check',
  language: 'yaml',
  named: false,
  doc: 'what must hold; one that does not makes the exit code 1',
  fields: {},
  beside: 'list',
  notes: [
    'a list of comparisons: - dash.time_to_100_km_h < 8 s',
    'with the words of a promise in front, if you like: - Quicker than eight seconds: dash.time_to_100_km_h < 8 s',
    'with <, <=, >, >=, several in a row (7 s < dash.time_to_100_km_h < 8 s), words with == and !=, "and", "or", "not"',
  ],
  prepare(cell) {
    const lines = readLines(cell);
    return {
      needs: lines.flatMap(({ comparison }) => formulaNames(comparison.text)),
      run(world) {
        const checks = lines.map(line => {
          try {
            return outcomeOf(line, world);
          } catch (error) {
            throw formulaProblem(
              error,
              (offset, length) => placeWithin(line.comparison, offset, length),
              cell.piece.name,
            );
          }
        });
        return { ...NOTHING, checks };
      },
    };
  },
};

/** An item of the list. */
interface Line {
  /** '' where only the comparison is there. */
  readonly promise: string;
  readonly comparison: LocatedScalar;
}

function readLines({ text, piece }: CellText): Line[] {
  const fail = (place: Parameters<typeof problemAt>[0], message: string) =>
    new NotebookProblem(problemAt(place, piece.name, message, 'a list of comparisons: - dash.time_to_100_km_h < 8 s'));
  // The reader takes mappings: the list is put below a key that stands on the line of the fence.
  const map = readYaml(`holds:\n${piece.source}`, { file: text.file, line: piece.line });
  const list = map.entries[0]?.value;
  if (map.entries.length !== 1 || list?.kind !== 'list') throw fail(placeOf(text, piece.line + 1), 'is no list');
  return list.items.map(item => {
    if (item.kind === 'scalar') return { promise: '', comparison: item };
    const [entry, second] = item.kind === 'map' ? item.entries : [];
    if (entry?.value.kind !== 'scalar' || entry.value.text === '' || second !== undefined) {
      throw fail(item, 'is no comparison');
    }
    return { promise: entry.key.text, comparison: entry.value };
  });
}

function outcomeOf({ promise, comparison: { text, line } }: Line, world: World): CheckOutcome {
  const { value } = world.evaluate(text);
  if (typeof value !== 'boolean') {
    throw new FormulaError('compares nothing', 0, text.length, 'two sides with <, <=, >, >=, == or != between them');
  }
  return {
    promise: promise || promiseWords(text, world),
    text,
    line,
    holds: value,
    found: found(text, world) ?? (value ? 'true' : 'not true'),
  };
}

/** `8.31 s < 8 s`: the sides evaluated; null for a text that is more than comparisons in a row. */
function found(text: string, world: World): string | null {
  const { sides, operators } = sidesOf(text);
  const values = sideValues(sides, world);
  if (values === null) return null;
  if (values.some(({ value }) => typeof value === 'boolean')) return null;
  const display = sharedDisplay(sides, values);
  const shown = values.map(value => formatValue(display === '' ? value : { ...value, display }, world.system, 4));
  return shown.reduce((all, value, k) => `${all} ${operators[k - 1] ?? ''} ${value}`);
}

/** Both sides are shown in the unit that the user wrote: that of a plain quantity, else the one that a value comes in. */
function sharedDisplay(sides: readonly string[], values: readonly FormulaValue[]): string {
  const unit = values[0]?.unit ?? '';
  const written = sides.map(unitBehind).find(each => each !== '' && isUnitOf(each, unit));
  return written ?? values.find(({ display }) => display !== undefined)?.display ?? '';
}

/** The unit of a plain quantity; '' for all else, as for the number 1e3. */
function unitBehind(side: string): string {
  return /^[-+]?[\d.]+(?:e[-+]?\d+)?\s*(?!e[-+]?\d)([A-Za-z%µΩ°][^-+(]*)$/iu.exec(side)?.[1] ?? '';
}

function isUnitOf(written: string, unit: string): boolean {
  try {
    return sameDimension(written, unit);
  } catch (error) {
    if (error instanceof UnitError) return false;
    throw error;
  }
}
