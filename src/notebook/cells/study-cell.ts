/** A cell of a study: read by its field table, and run on what was read. */
import type { Input } from '../../model/fields/input.ts';
import type { World } from '../context.ts';
import type { LocatedMap } from '../document/located.ts';
import type { ReadResult } from '../fields/read.ts';
import { fieldNeeds, readCell, readFieldsOf } from './fields.ts';
import type { CellKind, Pending } from './kind.ts';
import type { CellYield } from './yield.ts';

/** What stands in the cell, once everything that it needs has an answer. */
export interface AskedStudy {
  readonly name: string;
  readonly map: LocatedMap;
  readonly values: ReadResult['values'];
  readonly inputs: readonly Input[];
  readonly world: World;
}

/** @param run throws NotebookProblem or CellProblems. */
export function studyCell(
  about: Pick<CellKind, 'kind' | 'doc' | 'fields' | 'notes'>,
  run: (asked: AskedStudy) => CellYield | Pending,
): CellKind {
  return {
    language: 'yaml',
    named: true,
    ...about,
    prepare(cell) {
      const map = readCell(cell);
      return {
        needs: fieldNeeds(map, about.fields),
        run(world) {
          const { name } = cell.piece;
          const { values, inputs } = readFieldsOf(map, about.fields, world, name);
          return run({ name, map, values, inputs, world });
        },
      };
    },
  };
}
