/** Every kind of cell, in the order of the reference. */
import { calc } from './calc.ts';
import { calibrate } from './calibrate.ts';
import { car } from './car.ts';
import { check } from './check.ts';
import { compare } from './compare.ts';
import { duty } from './duty.ts';
import type { CellKind } from './kind.ts';
import { knobs } from './knobs.ts';
import { part } from './part.ts';
import { plot } from './plot.ts';
import { rank } from './rank.ts';
import { RUN_CELLS } from './run-cell.ts';
import { seek } from './seek.ts';
import { spread } from './spread.ts';
import { sweep } from './sweep.ts';
import { weigh } from './weigh.ts';

export const CELL_KINDS: readonly CellKind[] = [
  car,
  part,
  weigh,
  calc,
  ...RUN_CELLS,
  calibrate,
  duty,
  compare,
  sweep,
  spread,
  rank,
  seek,
  plot,
  check,
  knobs,
];
