/**
 * Open-circuit voltage and resistance of a cell over charge in one table: both are wanted at the same charge wherever a pack is
 * integrated, so one look finds them. The numbers are those of the two curves, to the last bit.
 */
import { nth } from '../../columns.ts';
import type { Cell } from '../car.ts';
import type { Curve } from '../tables/curve.ts';
import { CURVE_RECORD, curveThrough } from '../tables/curve.ts';

/**
 * Eleven numbers per stretch of charge: where it begins; then, of the voltage and of the resistance, the charge from which the
 * cubic is measured and its four coefficients. The first stretch holds the lines that go on below both tables.
 */
export type CellTable = Float64Array;

const RECORD = 11;

/** Where in a record the two curves stand. */
const OCV = 1;
const OHM = 6;

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
    const ocv = curveThrough(cell.ocv.charge, cell.ocv.voltage);
    const ohm = curveThrough(cell.resistance.charge, cell.resistance.ohm);
    found = { ocv, ohm, cell: cellTable(ocv, ohm) };
    known.set(cell, found);
  }
  return found;
}

function cellTable(ocv: Curve, ohm: Curve): CellTable {
  const starts = [...new Set([...startsOf(ocv), ...startsOf(ohm)])].toSorted((a, b) => a - b);
  const table = new Float64Array((starts.length + 1) * RECORD);
  [nth(starts, 0), ...starts].forEach((start, k) => {
    table[k * RECORD] = start;
    takePiece(table, k * RECORD + OCV, ocv, start, k === 0);
    takePiece(table, k * RECORD + OHM, ohm, start, k === 0);
  });
  return table;
}

function startsOf(curve: Curve): number[] {
  return Array.from({ length: curve.length / CURVE_RECORD }, (_, k) => nth(curve, k * CURVE_RECORD));
}

/** The piece of a curve that holds from a charge on; below its table it is a straight line. */
function takePiece(table: CellTable, place: number, curve: Curve, start: number, below: boolean): void {
  let from = 0;
  while (from + CURVE_RECORD < curve.length && nth(curve, from + CURVE_RECORD) <= start) from += CURVE_RECORD;
  const line = below || start < nth(curve, 0);
  for (let i = 0; i < CURVE_RECORD; i++) table[place + i] = line && i > 2 ? 0 : nth(curve, from + i);
}

/** Place of the stretch that holds the charge: the one from before, where it still does. */
function stretchAt(table: CellTable, { charge, stretch: from }: CellNow): number {
  if (charge >= part(table, from) && (from + RECORD >= table.length || charge < part(table, from + RECORD)))
    return from;
  let low = 0;
  let high = table.length / RECORD;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (charge < part(table, middle * RECORD)) high = middle;
    else low = middle;
  }
  return low * RECORD;
}

/** What a cell is at a charge. */
export interface CellNow {
  readonly charge: number;
  /** Place of the stretch in use; 0 at first. */
  stretch: number;
  /** V, open circuit, and ohm at `CELL_TEMPERATURE`. */
  cellOpen: number;
  cellOhm: number;
}

/** Finds both at a charge. */
export function cellAt(table: CellTable, now: CellNow): void {
  const { charge } = now;
  const k = stretchAt(table, now);
  now.stretch = k;
  const d = charge - part(table, k + OCV);
  now.cellOpen =
    part(table, k + OCV + 1) +
    d * (part(table, k + OCV + 2) + d * (part(table, k + OCV + 3) + d * part(table, k + OCV + 4)));
  const e = charge - part(table, k + OHM);
  now.cellOhm =
    part(table, k + OHM + 1) +
    e * (part(table, k + OHM + 2) + e * (part(table, k + OHM + 3) + e * part(table, k + OHM + 4)));
}

/** How a cell changes with its charge: V and ohm of it over charge, over its square and over its third power. */
export class CellSlopes {
  open1 = Number.NaN;
  open2 = Number.NaN;
  open3 = Number.NaN;
  ohm1 = Number.NaN;
  ohm2 = Number.NaN;
  ohm3 = Number.NaN;
}

/** Finds them right after `cellAt`: exact within the stretch that it found. */
export function cellSlopesAt(table: CellTable, { charge, stretch: k }: CellNow, slopes: CellSlopes): void {
  const d = charge - part(table, k + OCV);
  const e = charge - part(table, k + OHM);
  slopes.open3 = part(table, k + OCV + 4);
  slopes.open2 = part(table, k + OCV + 3) + 3 * d * slopes.open3;
  slopes.open1 = part(table, k + OCV + 2) + d * (part(table, k + OCV + 3) + slopes.open2);
  slopes.ohm3 = part(table, k + OHM + 4);
  slopes.ohm2 = part(table, k + OHM + 3) + 3 * e * slopes.ohm3;
  slopes.ohm1 = part(table, k + OHM + 2) + e * (part(table, k + OHM + 3) + slopes.ohm2);
}

/** Places are right here by construction. */
function part(table: CellTable, place: number): number {
  return table[place]!;
}
