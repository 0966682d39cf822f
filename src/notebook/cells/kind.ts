/** What a kind of cell is. A new kind is one file that exports a `CellKind`, and one line in `registry.ts`. */
import type { Job } from '../../batch/job.ts';
import type { Table } from '../../batch/table.ts';
import type { Car } from '../../model/car.ts';
import type { MeasuredUnit } from '../../model/drive/complete.ts';
import type { Fields } from '../../model/fields/field.ts';
import type { MassLedger } from '../../model/body/mass-ledger.ts';
import type { Input } from '../../model/fields/input.ts';
import type { CarSpec } from '../../model/spec.ts';
import type { Joint, Question } from '../../runs/answer/question.ts';
import type { Result } from '../../runs/result.ts';
import type { World } from '../context.ts';
import type { CellHead, CellPiece } from '../document/document.ts';
import type { FormulaValue } from '../formula/formula.ts';
import type { LocatedMap } from '../document/located.ts';
import type { CalibratedPart } from './calibrated-parts.ts';
import type { Group } from './together.ts';
import type { Knob } from '../document/knob.ts';
import type { CheckOutcome, NamedValue } from '../document/outcome.ts';
import type { SourceText } from '../document/place.ts';
import type { ProblemData } from '../document/problem.ts';

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

/** What a cell gives to the report and to other cells. */
export interface CellYield {
  /** What other cells take from it as a whole. */
  readonly product: Product | null;
  /** Values that formulas find under the name of the cell, by path: `time_to_100_km_h`. */
  readonly values: ReadonlyMap<string, FormulaValue>;
  /** Why a value has no number, by path. */
  readonly absent: ReadonlyMap<string, string>;
  /** Inputs that went into it, those of the cells it uses included. */
  readonly inputs: readonly Input[];
  readonly named: readonly NamedValue[];
  readonly chart: { readonly title: string; readonly spec: object } | null;
  readonly checks: readonly CheckOutcome[];
  /** Inputs that a reader of the report may turn. */
  readonly knobs: readonly Knob[];
}

export type Product =
  | {
      readonly kind: 'car';
      /** Its inputs that were measured together. */
      readonly joint: readonly Joint[];
      readonly car: Car;
      readonly map: LocatedMap;
      readonly notes: readonly string[];
      /** What the car was completed from, for studies that complete it again with other values. */
      readonly spec: CarSpec;
      readonly measured: ReadonlyMap<string, MeasuredUnit>;
    }
  | {
      readonly kind: 'part';
      readonly part: string;
      readonly map: LocatedMap;
      /** Its numbers that were measured together, by paths below it. */
      readonly together: readonly Group[];
    }
  | {
      readonly kind: 'result';
      readonly result: Result;
      readonly weighing?: Weighing;
      /** The car as a calibration leaves it, for cars that are made from it. */
      readonly calibrated?: LocatedMap;
      /** The parts of it that were measured, by their kind. */
      readonly parts?: ReadonlyMap<string, CalibratedPart>;
      /** The same run in plain data, for studies; left out where nothing can be varied. */
      readonly question?: Question;
    };

/** What a weighing is made of, for cars that take their masses from it and for variants of it. */
export interface Weighing {
  readonly ledger: MassLedger;
  readonly map: LocatedMap;
}

/** A yield of nothing, to be filled. */
export const NOTHING: CellYield = {
  product: null,
  values: new Map(),
  absent: new Map(),
  inputs: [],
  named: [],
  chart: null,
  checks: [],
  knobs: [],
};

/** Several problems of one cell; the first one stands in its place. */
export class CellProblems extends Error {
  readonly problems: readonly [ProblemData, ...ProblemData[]];
  constructor(problems: readonly [ProblemData, ...ProblemData[]]) {
    super(problems[0].message);
    this.name = 'CellProblems';
    this.problems = problems;
  }
}
