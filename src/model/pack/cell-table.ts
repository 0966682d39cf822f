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
  const starts = [part(ocv, 0) < part(ohm, 0) ? part(ocv, 0) : part(ohm, 0)];
  for (let i = 0, j = 0; i < ocv.length || j < ohm.length; ) {
    const next = Math.min(ocv[i] ?? Infinity, ohm[j] ?? Infinity);
    if (ocv[i] === next) i += CURVE_RECORD;
    if (ohm[j] === next) j += CURVE_RECORD;
    starts.push(next);
  }
  const table = new Float64Array(starts.length * RECORD);
  for (let k = 0, i = 0, j = 0; k < starts.length; k++) {
    const start = nth(starts, k);
    i = pieceFrom(ocv, start, i);
    j = pieceFrom(ohm, start, j);
    table[k * RECORD] = start;
    takePiece(table, k * RECORD + OCV, ocv, i, k === 0 || start < part(ocv, 0));
    takePiece(table, k * RECORD + OHM, ohm, j, k === 0 || start < part(ohm, 0));
  }
  return table;
}

/** The piece of a curve that holds from a charge on. @param from the piece to begin with. */
function pieceFrom(curve: Curve, start: number, from: number): number {
  let piece = from;
  while (piece + CURVE_RECORD < curve.length && part(curve, piece + CURVE_RECORD) <= start) piece += CURVE_RECORD;
  return piece;
}

/** @param line whether it is below the table of the curve, where that is a straight line. */
function takePiece(table: CellTable, place: number, curve: Curve, from: number, line: boolean): void {
  for (let i = 0; i < CURVE_RECORD; i++) table[place + i] = line && i > 2 ? 0 : part(curve, from + i);
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
