/** What a kind of cell is. A new kind is one file that exports a `CellKind`, and one line in `registry.ts`. */
import type { Job } from '../../batch/job.ts';
import type { Table } from '../../batch/table.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { World } from '../context.ts';
import type { CellHead, CellPiece } from '../document/document.ts';
import type { SourceText } from '../document/place.ts';
import type { ProblemData } from '../document/problem.ts';
import type { CellYield } from './yield.ts';

export interface CellKind extends CellHead {
  /** One sentence for the reference. */
  readonly doc: string;
  /** What a YAML cell takes; the reference is printed from it. */
  readonly fields: Fields;
  /** What it takes beside its fields: the name of another cell as `from`, keys of a grammar of its own; or a list in their place. */
  readonly beside?: 'from' | 'grammar' | 'list';
  /** What a cell takes that no field table can say: one line each, for the reference. */
  readonly notes?: readonly string[];
  /** Reads the cell without evaluating anything. Throws NotebookProblem. */
  prepare(cell: CellText): PreparedCell;
}

/** A cell as it stands in the notebook. */
export interface CellText {
  readonly text: SourceText;
  readonly piece: CellPiece;
}

/** A cell that has been read and waits for what it needs. */
export interface PreparedCell {
  /** Paths it uses: `coupe`, `dash.time_to_100_km_h`, `total`. What stands for no cell is found out when it runs. */
  readonly needs: readonly string[];
  /** For a calc cell: the names it defines, which formulas may use without the name of the cell. */
  readonly defines?: readonly string[];
  /** Throws NotebookProblem or CellProblems. */
  run(world: World): CellYield | Pending;
}

/** A cell that waits for rows, which whoever runs the notebook gets: here and now, or on all cores. */
export interface Pending {
  readonly job: Job;
  /** Whether the rows are worth a file, and can be shared out among machines: they are all that the cell waits for. */
  readonly whole?: true;
  /** Throws NotebookProblem or CellProblems. */
  finish(table: Table): CellYield | Pending;
}

export function isPending(given: CellYield | Pending): given is Pending {
  return 'job' in given;
}

/** Several problems of one cell; the first one stands in its place. */
export class CellProblems extends Error {
  readonly problems: readonly [ProblemData, ...ProblemData[]];
  constructor(problems: readonly [ProblemData, ...ProblemData[]]) {
    super(problems[0].message);
    this.name = 'CellProblems';
    this.problems = problems;
  }
}
