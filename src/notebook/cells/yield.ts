/** What a cell gives to the report and to other cells. */
import type { Car } from '../../model/car.ts';
import type { MeasuredUnit } from '../../model/drive/complete.ts';
import type { MassLedger } from '../../model/body/mass-ledger.ts';
import type { Input } from '../../model/fields/input.ts';
import type { CarSpec } from '../../model/spec.ts';
import type { Joint, Question } from '../../runs/answer/question.ts';
import type { Result } from '../../runs/result.ts';
import type { FormulaValue } from '../formula/formula.ts';
import type { LocatedMap } from '../document/located.ts';
import type { Varied } from './varied.ts';
import type { Group } from './together.ts';
import type { Knob } from '../document/knob.ts';
import type { CarSketch, CheckOutcome, NamedValue } from '../document/outcome.ts';

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
      readonly sketch: CarSketch;
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
      /** What a study of several rows varies: its rows get intervals too. */
      readonly varied?: Varied;
    };

/** A part of a car that a calibration measured. */
export interface CalibratedPart {
  readonly map: LocatedMap;
  /** Its numbers that were measured together, by paths below it. */
  readonly together: readonly Group[];
}

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
