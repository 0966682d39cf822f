/** A step by another method, pack and powers as one system of differential equations: the second opinion. */
import { nth } from '../../columns.ts';
import * as elementary from '../../elementary.ts';
import { addPowers, POWER_COUNT, powersOfRow, powersToRow } from '../../model/backward/state.ts';
import { drivenPackAt, packRates } from '../../model/backward/pack-step.ts';
import { spend } from '../../model/backward/spend.ts';
import type { DrivenPack } from '../../model/backward/pack-step.ts';
import type { Side } from '../../model/backward/state.ts';
import type { Solve, SwitchedSystem } from '../../solvers/system.ts';
import type { Journey } from './journey.ts';
import { ask, speedsOfStep } from './instant.ts';

const TOLERANCE = 1e-11;

/** Charge, two polarisations, temperature: of the order in which they matter. */
const SCALES = Float64Array.of(0.01, 1, 1, 100);

/** The powers, the heat of the pack, what is left of that of the drive units in front and at the rear at the end of the step, what is spent of the two budgets of current. */
const QUADRATURE_COUNT = POWER_COUNT + 5;

/** Of a step within which all is smooth. */
const MOST_STEPS = 300;

/**
 * Drives the step at hand, all with the same bits. @returns false, with nothing changed, where the method does not get to its end:
 * a pack that becomes full within the step ceases to take anything at once, which is no matter of solving.
 */
export function methodStep(car: Journey, bits: number, solve: Solve): boolean {
  const { interval, sums, totals, pending, following } = car;
  const { pack, moving, front, rear } = following;
  const { s0, s1 } = interval;
  const initial = Float64Array.of(pack.charge, pack.pair1, pack.pair2, pack.temperature);
  const solution = solve(systemOf(car, bits), {
    start: s0,
    end: s1,
    initial,
    maxSteps: MOST_STEPS,
    mode: 0,
    tolerance: TOLERANCE,
    firstStep: s1 - s0,
    nodesAlone: true,
  });
  if (solution.status === 'failed') {
    put(pack, initial);
    drivenPackAt(moving.pack, pack);
    return false;
  }
  const last = solution.nodes - 1;
  put(pack, solution.states.subarray(4 * last));
  const row = solution.integrals.subarray(QUADRATURE_COUNT * last);
  powersOfRow(row, pending);
  addPowers(sums, pending, 1);
  pack.heat += nth(row, POWER_COUNT);
  if (moving.pack.pulses) spend(pack, nth(row, POWER_COUNT + 3), nth(row, POWER_COUNT + 4));
  drivenPackAt(moving.pack, pack);
  totals.steps++;
  if (car.warms) {
    warmBy(car, front, nth(row, POWER_COUNT + 1), s1 - s0);
    warmBy(car, rear, nth(row, POWER_COUNT + 2), s1 - s0);
  }
  speedsOfStep(car);
  car.distance += 0.5 * (interval.v0 + interval.v1) * (s1 - s0);
  return true;
}

function systemOf(car: Journey, bits: number): SwitchedSystem {
  const { following, interval } = car;
  const { pack, moving, powers, front, rear } = following;
  return {
    states: 4,
    quadratures: QUADRATURE_COUNT,
    guards: 0,
    scales: SCALES,
    rates(_mode, y, out) {
      put(pack, y);
      drivenPackAt(moving.pack, pack);
      interval.at = y[4] ?? Number.NaN;
      ask(car, bits, pack.limit);
      packRates(moving.pack, pack, powers.power, out);
      powersToRow(powers, out, 4);
      out[4 + POWER_COUNT] = pack.lost;
      out[5 + POWER_COUNT] = front.axle.driven ? front.at.heat * leftOf(front, interval.s1 - interval.at) : 0;
      out[6 + POWER_COUNT] = rear.axle.driven ? rear.at.heat * leftOf(rear, interval.s1 - interval.at) : 0;
      out[7 + POWER_COUNT] = moving.pack.pulses ? pack.spending : 0;
      out[8 + POWER_COUNT] = moving.pack.pulses ? pack.chargeSpending : 0;
    },
  };
}

/** What is left of a heat in a drive unit after so many seconds. */
function leftOf({ axle }: Side, seconds: number): number {
  return elementary.exp((-axle.unitCooling * seconds) / axle.unitCapacity);
}

/** @param heat J that are left of what came in so many seconds. */
function warmBy({ following }: Journey, side: Side, heat: number, seconds: number): void {
  const { axle, at } = side;
  if (!axle.driven) return;
  const { air } = following.moving.car;
  at.temperature = air + (at.temperature - air) * leftOf(side, seconds) + heat / axle.unitCapacity;
}

function put(pack: DrivenPack, y: Float64Array): void {
  pack.charge = y[0] ?? Number.NaN;
  pack.pair1 = y[1] ?? Number.NaN;
  pack.pair2 = y[2] ?? Number.NaN;
  pack.temperature = y[3] ?? Number.NaN;
}
