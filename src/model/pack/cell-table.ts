/**
 * Open-circuit voltage and resistance of a cell over charge in one table: both are wanted at the same charge wherever a pack is
 * integrated, so one look finds them. The numbers are those of the two curves, to the last bit.
 */
import { item, nth } from '../../columns.ts';
import type { Cell } from '../car.ts';
import type { Curve } from '../tables/curve.ts';
import { CURVE_RECORD, curveThrough } from '../tables/curve.ts';

/** A stretch of charge: where it begins and ends; then, of the voltage and of the resistance, the charge from which the cubic is measured and its coefficients. */
export class CellStretch {
  from = Number.NaN;
  to = Number.NaN;
  openFrom = Number.NaN;
  open0 = Number.NaN;
  open1 = Number.NaN;
  open2 = Number.NaN;
  open3 = Number.NaN;
  ohmFrom = Number.NaN;
  ohm0 = Number.NaN;
  ohm1 = Number.NaN;
  ohm2 = Number.NaN;
  ohm3 = Number.NaN;
}

/** One after the other; the first holds the lines that go on below both tables. */
export type CellTable = readonly CellStretch[];

/** Of no cell: no charge lies in it. */
export const NO_STRETCH = new CellStretch();

/** What a cell is over its charge. */
export interface CellCurves {
  /** V, and ohm. */
  readonly ocv: Curve;
  readonly ohm: Curve;
  readonly cell: CellTable;
}

const known = new WeakMap<Cell, CellCurves>();

/** The curves of a cell; worked out once for each. */
export function curvesOf(cell: Cell): CellCurves {
  let found = known.get(cell);
  if (found === undefined) {
    const ocv = openOf(cell.ocv);
    const ohm = curveThrough(cell.resistance.charge, cell.resistance.ohm);
    found = { ocv, ohm, cell: cellTable(ocv, ohm) };
    known.set(cell, found);
  }
  return found;
}

const opens = new WeakMap<readonly number[], { readonly charge: readonly number[]; readonly curve: Curve }>();

/** Cells that are drawn about one have its voltages. */
function openOf({ charge, voltage }: Cell['ocv']): Curve {
  const before = opens.get(voltage);
  if (before?.charge === charge) return before.curve;
  const curve = curveThrough(charge, voltage);
  opens.set(voltage, { charge, curve });
  return curve;
}

function cellTable(ocv: Curve, ohm: Curve): CellTable {
  const table: CellStretch[] = [];
  // Below both tables; then from one start of a piece to the next, of either curve.
  let start = -Infinity;
  for (let i = 0, j = 0; start < Infinity; ) {
    const stretch = new CellStretch();
    takeOpen(stretch, ocv, pieceBefore(i), start);
    takeOhm(stretch, ohm, pieceBefore(j), start);
    stretch.from = start;
    start = Math.min(ocv[i] ?? Infinity, ohm[j] ?? Infinity);
    stretch.to = start;
    if (ocv[i] === start) i += CURVE_RECORD;
    if (ohm[j] === start) j += CURVE_RECORD;
    table.push(stretch);
  }
  return table;
}

/** The piece that holds before the one that comes next; below a table its first one goes on, as a straight line. */
function pieceBefore(next: number): number {
  return next === 0 ? 0 : next - CURVE_RECORD;
}

function takeOpen(stretch: CellStretch, curve: Curve, at: number, start: number): void {
  const line = start < nth(curve, 0);
  stretch.openFrom = nth(curve, at);
  stretch.open0 = nth(curve, at + 1);
  stretch.open1 = nth(curve, at + 2);
  stretch.open2 = line ? 0 : nth(curve, at + 3);
  stretch.open3 = line ? 0 : nth(curve, at + 4);
}

function takeOhm(stretch: CellStretch, curve: Curve, at: number, start: number): void {
  const line = start < nth(curve, 0);
  stretch.ohmFrom = nth(curve, at);
  stretch.ohm0 = nth(curve, at + 1);
  stretch.ohm1 = nth(curve, at + 2);
  stretch.ohm2 = line ? 0 : nth(curve, at + 3);
  stretch.ohm3 = line ? 0 : nth(curve, at + 4);
}

/** The stretch that holds a charge. */
function stretchAt(table: CellTable, { charge }: CellNow): CellStretch {
  let low = 0;
  let high = table.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (charge < item(table, middle).from) high = middle;
    else low = middle;
  }
  return item(table, low);
}

/** What a cell is at a charge. */
export interface CellNow {
  readonly charge: number;
  /** The one in use; `NO_STRETCH` at first. */
  stretch: CellStretch;
  /** V, open circuit, and ohm at `CELL_TEMPERATURE`. */
  cellOpen: number;
  cellOhm: number;
}

/** Finds both at a charge. */
export function cellAt(table: CellTable, now: CellNow): void {
  const { charge } = now;
  if (!(charge >= now.stretch.from && charge < now.stretch.to)) now.stretch = stretchAt(table, now);
  const { stretch } = now;
  const d = charge - stretch.openFrom;
  now.cellOpen = stretch.open0 + d * (stretch.open1 + d * (stretch.open2 + d * stretch.open3));
  const e = charge - stretch.ohmFrom;
  now.cellOhm = stretch.ohm0 + e * (stretch.ohm1 + e * (stretch.ohm2 + e * stretch.ohm3));
}
