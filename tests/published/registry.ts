/** All comparisons with sources outside the project, in the order of docs/PROOF.md. */
import { allowance } from './check.ts';
import type { Check, Topic } from './check.ts';
import { air } from './checks/air.ts';
import { battery } from './checks/battery.ts';
import { charging } from './checks/charging.ts';
import { consumption } from './checks/consumption.ts';
import { coverage } from './checks/coverage.ts';
import { cycles } from './checks/cycles.ts';
import { drive } from './checks/drive.ts';
import { driven } from './checks/driven.ts';
import { launched } from './checks/launch.ts';
import { published } from './checks/published-cars.ts';
import { range } from './checks/range.ts';
import { resistance } from './checks/resistance.ts';
import { scipy } from './checks/scipy.ts';
import { spin } from './checks/spin.ts';
import { top } from './checks/top-speed.ts';
import { traction } from './checks/traction.ts';
import { tyre } from './checks/tyre.ts';
import { uncertainty } from './checks/uncertainty.ts';
import { units } from './checks/units.ts';

export const topics: readonly Topic[] = [
  units,
  air,
  tyre,
  resistance,
  traction,
  drive,
  battery,
  charging,
  launched,
  top,
  cycles,
  range,
  scipy,
  spin,
  driven,
  uncertainty,
  published,
  consumption,
  coverage,
];

/** A check that was carried out. */
export interface Verdict {
  readonly check: Check;
  readonly computed: number;
  readonly holds: boolean;
  /** What was thrown in place of an answer; '' otherwise. */
  readonly failure: string;
}

export function verdict(check: Check): Verdict {
  try {
    const computed = check.computed();
    return { check, computed, holds: Math.abs(computed - check.expected) <= allowance(check), failure: '' };
  } catch (error) {
    return { check, computed: Number.NaN, holds: false, failure: String(error) };
  }
}
