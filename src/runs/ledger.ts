/** The energies of a run: what came in, where it went, what is stored; and by how much they fail to close. */
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

/** The integral named `name` out of a row of integrals, J. @param from place in it at which the row begins. */
export function integral(row: Float64Array, name: Quadrature, from = 0): number {
  return nth(row, from + PLACES[name]);
}

/** The ledger of a whole run. */
export function ledgerOf(run: LaunchRun): Ledger {
  const { plant, solution } = run;
  const { states, integrals } = solution;
  const end = (solution.nodes - 1) * plant.states;
  const row = (solution.nodes - 1) * plant.quadratures;
  const chemical = integral(integrals, 'chemical', row);
  const synchronised = shiftLosses(run);
  const [first, last] = [nth(states, SPEED), nth(states, end + SPEED)];
  const out = {
    'pack heat': integral(integrals, 'packHeat', row),
    'motor and inverter': integral(integrals, 'unitHeat', row),
    'gears and shafts': integral(integrals, 'gearHeat', row) + synchronised,
    'tyre slip': integral(integrals, 'slip', row),
    'rolling resistance': integral(integrals, 'rolling', row),
    drag: integral(integrals, 'drag', row),
    slope: integral(integrals, 'grade', row),
    auxiliaries: integral(integrals, 'auxiliaries', row),
  };
  const stored = {
    'motion of the car': 0.5 * plant.inertialMass() * (last * last - first * first),
    'turning parts': integral(integrals, 'spinUp', row) - synchronised,
    polarisation: plant.polarisationEnergy(states, end) - plant.polarisationEnergy(states),
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

/** The same over a whole run. */
export function terminalEnergyOf({ plant, solution }: Pick<LaunchRun, 'plant' | 'solution'>): number {
  const { states, integrals, nodes } = solution;
  const row = (nodes - 1) * plant.quadratures;
  const polarised = plant.polarisationEnergy(states, (nodes - 1) * plant.states) - plant.polarisationEnergy(states);
  return integral(integrals, 'chemical', row) - integral(integrals, 'packHeat', row) - polarised;
}

/** J at the motor shaft from the start to an event: what left the pack less auxiliaries and the losses before the shaft. */
export function shaftEnergy(run: LaunchRun, event: SolveEvent): number {
  const { states, integrals } = event;
  const terminals = terminalEnergy(run.plant, run.solution.states, states, integrals);
  return terminals - integral(integrals, 'unitHeat') - integral(integrals, 'auxiliaries');
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
