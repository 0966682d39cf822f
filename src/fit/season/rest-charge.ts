/** The state of charge that cells show at rest: by their open-circuit voltage, as far as it changes with charge. */
import * as elementary from '../../elementary.ts';
import { item, lastOf } from '../../columns.ts';
import type { Cell } from '../../model/car.ts';
import { curvesOf } from '../../model/pack/cell-table.ts';
import { type Curve, curveAt } from '../../model/tables/curve.ts';
import type { Measured } from '../coast/measured.ts';
import type { Shortcoming } from '../problem.ts';

/** Standard uncertainties beyond the ends of the curve from which on a voltage is none of these cells. */
const BEYOND = 4;
/** Standard uncertainty of a state of charge that is told by nothing. Common practice, no source. */
const UNTOLD = 0.06;

/**
 * By the curve of the cell, both ways within what its voltage may be off: where the curve is flat that is far.
 * @param rest V of one cell. @param curve V by which the curve of these cells may be off, as a standard uncertainty.
 */
export function chargeAtRest(cell: Cell, rest: Measured, curve: number): Measured | { readonly short: Shortcoming } {
  const { ocv } = curvesOf(cell);
  const standard = elementary.hypot(rest.standard, curve);
  const [empty, full] = [item(cell.ocv.voltage, 0), lastOf(cell.ocv.voltage)];
  const over = rest.value > full + BEYOND * standard;
  if (over || rest.value < empty - BEYOND * standard) {
    return {
      short: {
        what: `${volts(rest.value)} V a cell at rest is ${over ? `above the ${volts(full)} V of a full` : `below the ${volts(empty)} V of an empty`} one`,
        cure: 'the number of cells in series and their kind in the car cell; a voltage of the whole pack, at rest',
      },
    };
  }
  const [low, value, high] = [-1, 0, 1].map(by => chargeAt(ocv, rest.value + by * standard)) as [
    number,
    number,
    number,
  ];
  // At either end of the curve one side says nothing.
  const sides = [value - low, high - value].filter((_, side) => (side === 0 ? low > 0 : high < 1));
  const off = sides.length === 0 ? 1 : sides.reduce((all, each) => all + each, 0) / sides.length;
  if (off > UNTOLD) {
    return {
      short: {
        what: `${volts(rest.value)} V a cell at rest tells the state of charge to ${Math.round(100 * off)} % only: there the voltage of these cells hardly changes with it`,
        cure: 'a rest where the voltage does change, nearly full or nearly empty, or a better voltmeter',
      },
    };
  }
  return { value, standard: off };
}

/** Where a curve that rises passes a voltage, from 0 to 1. */
export function chargeAt(ocv: Curve, voltage: number): number {
  let [low, high] = [0, 1];
  if (curveAt(ocv, 0) >= voltage) return 0;
  if (curveAt(ocv, 1) <= voltage) return 1;
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (curveAt(ocv, middle) < voltage) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function volts(value: number): string {
  return value.toFixed(3);
}
