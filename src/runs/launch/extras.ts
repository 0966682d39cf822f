/**
 * What stands beside a launch: a method that checks it, and figures that need runs or sums of their own. A program that counts its bytes does
 * without them (`lean.ts`).
 */
import type { Car } from '../../model/car.ts';
import type { SolveEvent } from '../../solvers/system.ts';
import { CURRENT_KEYS, currentFigures } from '../duty/currents.ts';
import { putInto } from '../found.ts';
import { wants } from '../kind.ts';
import type { Wanted } from '../kind.ts';
import { integral } from '../ledger.ts';
import type { Series } from '../result.ts';
import type { Trail } from '../trail/trail.ts';
import { withTraction } from '../variant.ts';
import { alone, checked } from './checked.ts';
import type { Checked } from './checked.ts';
import { gearsSeries } from './gears.ts';
import { gripBill } from './grip-bill.ts';
import { launchOutputs } from './outputs.ts';
import { launchOnce, TARGET } from './run.ts';
import type { LaunchOptions, LaunchRun } from './run.ts';
import type { Summarised } from './summary.ts';
import { launchTrail } from './trail.ts';

export interface LaunchExtras {
  /** @param always whether it looks at a run that came to its end, too. */
  readonly check: (car: Car, options: LaunchOptions, run: LaunchRun, always: boolean) => Checked;
  /** Puts those that are wanted beside the others. @returns null where none of them is about what flows and turns on the way. */
  readonly put: (
    summarised: Summarised,
    run: LaunchRun,
    car: Car,
    options: LaunchOptions,
    wanted: Wanted,
  ) => Trail | null;
  readonly series: (car: Car, options: LaunchOptions) => { readonly gears?: Series };
}

export const ALL: LaunchExtras = {
  check: checked,
  put(summarised, run, car, options, wanted) {
    if (wants(wanted, BILL)) addGripBill(summarised, car, options);
    if (wants(wanted, CONTROL)) addTractionCost(summarised, run, car, options);
    if (!wants(wanted, CURRENT_KEYS)) return null;
    const trail = launchTrail(run, car);
    Object.assign(summarised.values, currentFigures(trail, launchOutputs, wanted));
    return trail;
  },
  series: gearsSeries,
};

export const NONE: LaunchExtras = { check: alone, put: () => null, series: () => ({}) };

/** Of the runs with free wheels, which are stiff. */
const SPIN_TOLERANCE = 1e-6;

const BILL = ['time_unlimited_grip', 'friction_enough', 'gain_per_friction', 'power_enough'] as const;
const CONTROL = [
  'time_without_control',
  'control_worth',
  'slip_energy_without_control',
  'slip_energy_with_control',
] as const;

/** What the missing traction control costs up to 100 km/h, or to a target below it: `held` against `spin`, whichever of the two the car itself has. */
function addTractionCost({ values, reasons }: Summarised, run: LaunchRun, car: Car, options: LaunchOptions): void {
  const explain = (reason: string): void => {
    for (const key of CONTROL) [values[key], reasons[key]] = [null, reason];
  };
  if (car.drives.some(({ axle }) => car.tyres[axle].slipAtPeak === 0)) return explain('the tyres are taken as rigid');
  const own = (options.to ?? TARGET) < TARGET;
  const goal = own ? 'to' : '100_km_h';
  const short = { ...options, stop: goal, tolerance: SPIN_TOLERANCE } as const;
  const asIs = run.marks.get(goal);
  const reached = (policy: 'held' | 'spin'): SolveEvent | undefined => {
    const driven = car.drives.every(({ traction }) => traction.policy === policy);
    return driven && asIs !== undefined ? asIs : launchOnce(withTraction(car, policy), short).marks.get(goal);
  };
  const [spun, held] = [reached('spin'), reached('held')];
  if (spun === undefined || held === undefined)
    return explain(`${own ? 'the target speed' : '100 km/h'} is not reached`);
  values['time_without_control'] = spun.time;
  values['control_worth'] = spun.time - held.time;
  values['slip_energy_without_control'] = integral(spun.integrals, 'slip');
  values['slip_energy_with_control'] = integral(held.integrals, 'slip');
}

function addGripBill({ values, reasons }: Summarised, car: Car, options: LaunchOptions): void {
  const bill = gripBill(car, options);
  const unreached = '100 km/h is not reached';
  const put: (key: (typeof BILL)[number], value: number | null, reason: string) => void = putInto(values, reasons);
  put('time_unlimited_grip', bill.timeUnlimited, unreached);
  put('friction_enough', bill.frictionEnough, bill.gainPerFriction === null ? unreached : 'no friction is enough');
  put('gain_per_friction', bill.gainPerFriction, unreached);
  put(
    'power_enough',
    bill.powerEnough,
    bill.gainPerFriction === null
      ? unreached
      : 'not told for a torque table, nor for wheels that may spin: more power spins them longer',
  );
}
