/** Whether what hangs on a pack bears its voltages, and works at them: inverters, chargers, contactors. */
import type { Pack, VoltageWindow } from '../car.ts';
import { curveAt } from '../tables/curve.ts';
import { curvesOf } from './cell-table.ts';

/** How a pack and a window do not fit. */
export interface Misfit {
  readonly side: 'least' | 'greatest';
  /** What is wrong, as what follows the name of the field. */
  readonly words: string;
  readonly cure: string;
  /** Nothing works, or something breaks; else it works over a part of the charge only. */
  readonly fatal: boolean;
}

/**
 * A pack over its whole charge against a window: its highest voltage, at which it is charged and braked into, and the open-circuit
 * voltage at the low end at which it is used. That it sags below a window under load is no misfit: it limits the power there.
 */
export function misfitsOf(
  { series, cell, maxVoltage, window }: Pick<Pack, 'series' | 'cell' | 'maxVoltage' | 'window'>,
  { least, greatest }: VoltageWindow,
): readonly Misfit[] {
  const openAt = (charge: number): number => openVoltage({ series, cell }, charge);
  const low = openAt(window.low);
  const found: Misfit[] = [];
  if (maxVoltage > greatest) {
    const words = `is ${volts(greatest)}, and ${series} cells in series have ${volts(maxVoltage)} when they are full`;
    const most = Math.floor(greatest / cell.maxVoltage);
    found.push({ side: 'greatest', words, cure: `${most} cells in series at most, or another voltage`, fatal: true });
  }
  if (least >= maxVoltage) {
    const words = `is ${volts(least)}, and ${series} cells in series have ${volts(low)} to ${volts(maxVoltage)}: it never works`;
    const fewest = Math.ceil(least / Math.min(openAt(window.low) / series, cell.maxVoltage));
    found.push({ side: 'least', words, cure: `${fewest} cells in series or more, or another voltage`, fatal: true });
  } else if (least > low) {
    const charge = Math.round(100 * chargeOf(openAt, least, window.low));
    const words = `is ${volts(least)}, and without load the pack is below that from ${charge} % of charge down, at ${volts(low)} at the low end of its window: it does not work there`;
    found.push({ side: 'least', words, cure: 'more cells in series, or another voltage', fatal: false });
  }
  return found;
}

/** V of the whole pack without load. */
export function openVoltage({ series, cell }: Pick<Pack, 'series' | 'cell'>, charge: number): number {
  return series * curveAt(curvesOf(cell).ocv, charge);
}

function volts(value: number): string {
  return `${Number(value.toPrecision(3))} V`;
}

/** Charge at which the open-circuit voltage, which rises with it, is so high. */
function chargeOf(openAt: (charge: number) => number, voltage: number, from: number): number {
  let [low, high] = [from, 1];
  for (let i = 0; i < 40; i++) {
    const middle = 0.5 * (low + high);
    if (openAt(middle) < voltage) low = middle;
    else high = middle;
  }
  return high;
}
