/** The columns of a charge: the trace over time, and the time from step to step of charge. */
import { nth } from '../../columns.ts';
import { CHARGE_STATE, chargeLimitWord, limitOf, WALL } from '../../model/pack/charging.ts';
import { chargeIntegral } from './run.ts';
import type { ChargeRun } from './run.ts';
import type { Series } from '../result.ts';
import { column, textColumn } from '../column.ts';
import { traceTimes } from '../trace-times.ts';

/** Rows of a trace between the switches. */
const ROWS = 300;

/** `20 %`, `97.5 %`. */
export function percent(share: number): string {
  return `${Number((100 * share).toFixed(1))} %`;
}

/** What sets the pace in a mode, as people say it. */
export function paceOf({ wall }: ChargeRun, mode: number): string {
  if (limitOf(mode) === WALL) return wall.alike === true ? 'supply and charger' : wall.by;
  const word = chargeLimitWord(mode);
  return wall.by === 'station' && word === 'charger current' ? 'station current' : word;
}

/** Evenly spaced rows, with a row more at every switch and step. */
export function chargeTrace(run: ChargeRun): Series {
  const { plant, solution, wall } = run;
  const times = traceTimes(solution, ROWS);
  const numbers = (): Float64Array => new Float64Array(times.length);
  const pace: string[] = [];
  const series = {
    time_s: column('time', 's', 'h', 'h', numbers()),
    charge_1: column('state of charge', '1', '%', '%', numbers()),
    wall_power_W: column('power from the wall', 'W', 'kW', 'kW', numbers()),
    pack_power_W: column('power into the pack', 'W', 'kW', 'kW', numbers()),
    phase_current_A: column('current of the busiest phase', 'A', 'A', 'A', numbers()),
    charge_current_A: column('charge current', 'A', 'A', 'A', numbers()),
    pack_voltage_V: column('pack voltage', 'V', 'V', 'V', numbers()),
    pack_temperature_K: column('pack temperature', 'K', 'degC', 'degF', numbers()),
    pace: textColumn('paced by', pace),
  };
  const most = Math.max(0, ...wall.currents);
  const row = new Float64Array(plant.states + plant.quadratures);
  const y = new Float64Array(plant.states + 1);
  const put = (key: keyof typeof series, i: number, value: number): void => {
    (series[key].values as Float64Array)[i] = value;
  };
  times.forEach((time, i) => {
    const mode = nth(solution.modes, solution.at(time, row));
    y.set(row.subarray(0, plant.states));
    const { current, voltage, wallPower, temperature } = plant.instant(mode, y);
    put('time_s', i, time);
    put('charge_1', i, nth(y, CHARGE_STATE));
    put('wall_power_W', i, wallPower);
    put('pack_power_W', i, voltage * current);
    // Chargers are turned down alike.
    put('phase_current_A', i, (most * wallPower) / wall.power);
    put('charge_current_A', i, current);
    put('pack_voltage_V', i, voltage);
    put('pack_temperature_K', i, temperature);
    pace.push(paceOf(run, mode));
  });
  return series;
}

/** How long it takes from any of these states of charge to any other: the difference of two rows. */
export function chargeSteps({ steps }: ChargeRun): Series {
  return {
    charge_1: column(
      'state of charge',
      '1',
      '%',
      '%',
      Float64Array.from(steps, ({ charge }) => charge),
    ),
    time_s: column(
      'time since plugging in',
      's',
      'h',
      'h',
      Float64Array.from(steps, ({ time }) => time),
    ),
    wall_energy_J: column(
      'energy from the wall',
      'J',
      'kWh',
      'kWh',
      Float64Array.from(steps, ({ integrals }) => chargeIntegral(integrals, 'wall')),
    ),
  };
}

/** s that each word set the pace for. */
export function paceTimes(run: ChargeRun): ReadonlyMap<string, number> {
  const { times, modes, nodes } = run.solution;
  const total = new Map<string, number>();
  for (let i = 0; i + 1 < nodes; i++) {
    const word = paceOf(run, nth(modes, i));
    total.set(word, (total.get(word) ?? 0) + nth(times, i + 1) - nth(times, i));
  }
  return total;
}
