/** What the kinds of cell that are read by a field table have in common. */
import type { Fields } from '../../model/fields/field.ts';
import type { Input } from '../../model/fields/input.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { World } from '../context.ts';
import type { FormulaValue } from '../formula/formula.ts';
import {
  entryOf,
  type LocatedEntry,
  type LocatedMap,
  type LocatedNode,
  type Place,
  problemAt,
  readYaml,
} from '../document/located.ts';
import { NotebookProblem } from '../document/problem.ts';
import { fieldNames, readFields, type ReadResult } from '../fields/read.ts';
import { CellProblems, type CellText } from './kind.ts';

/** The YAML of a cell. Throws NotebookProblem. */
export function readCell({ text, piece }: CellText): LocatedMap {
  const indent = (text.lines[piece.line - 1] ?? '').search(/\S/);
  return readYaml(piece.source, { file: text.file, line: piece.line + 1, indent: Math.max(0, indent) });
}

/** Everything that the fields of a cell use; `part` is its kind for the cell of a part. */
export function fieldNeeds(map: LocatedMap, fields: Fields, part = ''): string[] {
  const { cells, parts, formulas } = fieldNames(map, fields, part);
  return [...cells, ...parts.map(part => part.name), ...formulas];
}

/** Reads the fields of the cell with this name. Throws CellProblems with all that is wrong. */
export function readFieldsOf(map: LocatedMap, fields: Fields, world: World, name: string, part = ''): ReadResult {
  const read = readFields(map, fields, world.reading(name), part);
  const [first, ...others] = read.problems;
  if (first !== undefined) throw new CellProblems([first, ...others]);
  return read;
}

/** Runs a step of the model; what it says against the specification becomes a problem at the field in question. */
export function withSpec<T>(map: LocatedMap, name: string, step: () => T): T {
  try {
    return step();
  } catch (error) {
    if (!(error instanceof SpecError)) throw error;
    const below = error.path.startsWith(`${name}.`) ? error.path.slice(name.length + 1) : error.path;
    throw new NotebookProblem(
      problemAt(placeOfField(map, below), error.path, error.message, error.expected, error.nearest),
    );
  }
}

/** Place of a field by its written path; of the deepest part of the path that is written down where it is not. */
function placeOfField(map: LocatedMap, path: string): Place {
  let place: Place = map;
  let here: LocatedNode = map;
  for (const [, key = '', row] of path.matchAll(/([^.[\]]+)|\[(\d+)\]/gu)) {
    if (row !== undefined && here.kind === 'list') {
      const item: LocatedNode | undefined = here.items[Number(row) - 1];
      if (item === undefined) return place;
      place = item;
      here = item;
    } else {
      const entry: LocatedEntry | undefined = here.kind === 'map' ? entryOf(here, key) : undefined;
      if (entry === undefined) return place;
      place = entry.value.kind === 'scalar' ? entry.value : entry.key;
      here = entry.value;
    }
  }
  return place;
}

/** Inputs as values that formulas find, by path below the cell. */
export function inputValues(inputs: readonly Input[], cell: string): Map<string, FormulaValue> {
  return new Map(
    inputs
      .filter(({ path }) => path.startsWith(`${cell}.`))
      .map(({ path, value, unit, display }) => [path.slice(cell.length + 1), { value, unit, display }]),
  );
}
