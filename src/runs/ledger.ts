/** The energies of a run: what came in, where it went, what is stored; and by how much they fail to close. */
import * as elementary from '../elementary.ts';
import { nth } from '../columns.ts';
import type { Plant } from '../model/forward/plant.ts';
import { BREAK, gearOf, QUADRATURES, SPEED } from '../model/forward/state.ts';
import type { SolveEvent } from '../solvers/system.ts';
import type { LaunchRun } from './launch/run.ts';
import type { Ledger } from './result.ts';

type Quadrature = (typeof QUADRATURES)[number];

const PLACES = Object.fromEntries(QUADRATURES.map((name, place) => [name, place])) as {
  readonly [name in Quadrature]: number;
};

/** The integral named `name` out of a row of integrals, J. */
export function integral(row: Float64Array, name: Quadrature): number {
  return nth(row, PLACES[name]);
}

/** The ledger of a whole run. */
export function ledgerOf(run: LaunchRun): Ledger {
  const { plant, solution } = run;
  const last = solution.nodes - 1;
  const start = solution.states.subarray(0, plant.states);
  const end = solution.states.subarray(last * plant.states, (last + 1) * plant.states);
  const row = solution.integrals.subarray(last * plant.quadratures, (last + 1) * plant.quadratures);
  const chemical = integral(row, 'chemical');
  const synchronised = shiftLosses(run);
  const out = {
    'pack heat': integral(row, 'packHeat'),
    'motor and inverter': integral(row, 'unitHeat'),
    'gears and shafts': integral(row, 'gearHeat') + synchronised,
    'tyre slip': integral(row, 'slip'),
    'rolling resistance': integral(row, 'rolling'),
    drag: integral(row, 'drag'),
    slope: integral(row, 'grade'),
    auxiliaries: integral(row, 'auxiliaries'),
  };
  const stored = {
    'motion of the car':
      0.5 * plant.inertialMass() * (elementary.pow(nth(end, SPEED), 2) - elementary.pow(nth(start, SPEED), 2)),
    'turning parts': integral(row, 'spinUp') - synchronised,
    polarisation: plant.polarisationEnergy(end) - plant.polarisationEnergy(start),
  };
  return {
    in: { 'out of the cells': chemical },
    out,
    stored,
    gap: (chemical - sum(out) - sum(stored)) / Math.max(Math.abs(chemical), 1),
  };
}

/** J that left the terminals of the pack between two states. */
export function terminalEnergy(plant: Plant, start: Float64Array, end: Float64Array, row: Float64Array): number {
  const polarised = plant.polarisationEnergy(end) - plant.polarisationEnergy(start);
  return integral(row, 'chemical') - integral(row, 'packHeat') - polarised;
}

/** J at the motor shaft from the start to an event: what left the pack less auxiliaries and the losses before the shaft. */
export function shaftEnergy(run: LaunchRun, event: SolveEvent): number {
  const start = run.solution.states.subarray(0, run.plant.states);
  const terminals = terminalEnergy(run.plant, start, event.states, event.integrals);
  return terminals - integral(event.integrals, 'unitHeat') - integral(event.integrals, 'auxiliaries');
}

/** J of the rotor that clutches and synchromesh took up in all changes of gear: it turns slower in the next gear. */
function shiftLosses(run: Pick<LaunchRun, 'plant' | 'solution'>): number {
  return shiftsOf(run, 0).lost;
}

/**
 * The same of a part of a run, and J in the rotor when a gear was last let go.
 * @param letGo of a change of gear that was under way when it began.
 */
export function shiftsOf(
  { plant, solution }: Pick<LaunchRun, 'plant' | 'solution'>,
  letGo: number,
): { readonly lost: number; readonly letGo: number } {
  let lost = 0;
  let start = letGo;
  for (const { kind, from, to, states } of solution.events) {
    if (kind !== 'switch' || to < 0) continue;
    if ((from & BREAK) === 0) start = plant.rotorEnergy(gearOf(from), nth(states, SPEED));
    if (gearOf(from) !== gearOf(to)) lost += start - plant.rotorEnergy(gearOf(to), nth(states, SPEED));
  }
  return { lost, letGo: start };
}

function sum(part: { readonly [name: string]: number }): number {
  let all = 0;
  for (const name in part) all += part[name] ?? Number.NaN;
  return all;
}
