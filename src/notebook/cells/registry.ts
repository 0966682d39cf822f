/** Every kind of cell, in the order of the reference. */
import { calc } from './calc.ts';
import { car } from './car.ts';
import { charge } from './charge.ts';
import { check } from './check.ts';
import { compare } from './compare.ts';
import { drive } from './drive.ts';
import type { CellKind } from './kind.ts';
import { launch } from './launch.ts';
import { part } from './part.ts';
import { plot } from './plot.ts';
import { range } from './range.ts';
import { rank } from './rank.ts';
import { repeat } from './repeat.ts';
import { seek } from './seek.ts';
import { sheet } from './sheet.ts';
import { spread } from './spread.ts';
import { steady } from './steady.ts';
import { sweep } from './sweep.ts';
import { weigh } from './weigh.ts';

export const CELL_KINDS: readonly CellKind[] = [
  car,
  part,
  weigh,
  calc,
  launch,
  sheet,
  repeat,
  drive,
  range,
  steady,
  charge,
  compare,
  sweep,
  spread,
  rank,
  seek,
  plot,
  check,
];
