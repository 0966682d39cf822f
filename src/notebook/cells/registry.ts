/** Every kind of cell, in the order of the reference. */
import { calc } from './calc.ts';
import { car } from './car.ts';
import { charge } from './charge.ts';
import { check } from './check.ts';
import type { CellKind } from './kind.ts';
import { launch } from './launch.ts';
import { part } from './part.ts';
import { plot } from './plot.ts';
import { repeat } from './repeat.ts';
import { sheet } from './sheet.ts';
import { weigh } from './weigh.ts';

export const CELL_KINDS: readonly CellKind[] = [car, part, weigh, calc, launch, sheet, repeat, charge, plot, check];
