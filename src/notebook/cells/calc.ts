/** `calc NAME`: named formulas, one a line, each free to use those above it and the values of other cells. */
import { formulaProblem } from '../context.ts';
import { displayUnit } from '../fields/display.ts';
import {
  type Assignment,
  FormulaError,
  formulaNames,
  parseAssignments,
  type FormulaValue,
} from '../formula/formula.ts';
import type { Place } from '../document/located.ts';
import type { NamedValue } from '../document/outcome.ts';
import { type CellKind, type CellText } from './kind.ts';
import { NOTHING } from './yield.ts';

export const calc: CellKind = {
  kind: 'calc',
  language: 'calc',
  named: true,
  doc: 'named formulas with units, one a line: name = formula',
  fields: {},
  notes: [
    'a series is read by what is made of it: week.time.pack_power_W.max, .min, .mean, .rms; over the worst stretch .mean_60_s, .rms_60_s',
    'kept apart from pictures, and exact: week.trail.pack_current_A, pack_voltage_V, speed_m_s, rear_half_shaft_N_m, unit_heat_W and others',
    'each line: name = formula [to unit]; a formula may use the lines above it and the values of other cells',
    'other cells use a value as CELL.name, or as name alone where only one cell defines it',
  ],
  prepare(cell) {
    const assignments = readAssignments(cell);
    const own = new Set(assignments.map(assignment => assignment.name));
    return {
      needs: assignments.flatMap(({ formula }) => formulaNames(formula)).filter(name => !own.has(name)),
      defines: [...own],
      run(world) {
        const values = new Map<string, FormulaValue>();
        for (const assignment of assignments) {
          try {
            refuseLater(assignment.formula, own, values);
            values.set(assignment.name, world.evaluate(whole(assignment), values));
          } catch (error) {
            const { name, line, column } = assignment;
            throw formulaProblem(error, inLine(cell, line, column), `${cell.piece.name}.${name}`);
          }
        }
        const named = [...values].map(
          ([name, read]): NamedValue => ({
            name,
            value: read.value,
            unit: read.unit,
            display: read.display ?? displayUnit(read, world.system),
          }),
        );
        return { ...NOTHING, values, named };
      },
    };
  },
};

function readAssignments(cell: CellText): readonly Assignment[] {
  try {
    return parseAssignments(cell.piece.source);
  } catch (error) {
    throw formulaProblem(error, inLine(cell, 0, 0));
  }
}

/** A line may use those above it only: what is read from top to bottom is reckoned from top to bottom. */
function refuseLater(formula: string, own: ReadonlySet<string>, known: ReadonlyMap<string, FormulaValue>): void {
  const later = formulaNames(formula).find(name => own.has(name) && !known.has(name));
  if (later === undefined) return;
  const expected = 'names of the lines above, or of other cells';
  throw new FormulaError(`"${later}" is set further down`, formula.indexOf(later), later.length, expected);
}

/** The formula with the unit it is to be shown in. */
function whole({ formula, unit }: Assignment): string {
  return unit === undefined ? formula : `${formula} to ${unit}`;
}

/** Places in the content from a character on, by its 0-based line and column; offsets may run over several lines. */
function inLine({ text, piece }: CellText, line: number, column: number): (offset: number, length: number) => Place {
  const content = piece.source.split('\n');
  return (offset, length) => {
    let row = line;
    let at = column + offset;
    while (row < content.length - 1 && at > (content[row] ?? '').length) {
      at -= (content[row] ?? '').length + 1;
      row += 1;
    }
    const number = piece.line + 1 + row;
    const source = text.lines[number - 1] ?? '';
    const indent = Math.max(0, source.length - (content[row] ?? '').length);
    return { file: text.file, line: number, column: indent + at + 1, length: Math.max(1, length), source };
  };
}
