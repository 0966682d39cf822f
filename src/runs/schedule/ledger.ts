/** The energies of a trip. */
import { curveIntegral } from '../../model/tables/curve.ts';
import { polarisationEnergy } from '../../model/pack/state.ts';
import type { Ledger } from '../result.ts';
import type { TravelRun } from './trip.ts';

/**
 * What came out of the cells is the integral of their open-circuit voltage over the charge, in closed form; everything else was
 * summed up from its own loss. That the two agree is a test.
 */
export function travelLedger(run: TravelRun): Ledger {
  const { follower, parameters, legs, charge, settled } = run;
  const { sums, pack, inner } = follower;
  const { capacity, series, ocv } = parameters.pack;
  const { synchronised, raised, skippedChemical, skippedPolarisation } = inner.totals;
  const chemical = capacity * series * curveIntegral(ocv, pack.charge, charge) - skippedChemical;
  const out = {
    'pack heat': pack.heat + settled,
    'motor and inverter': sums.unitHeat,
    'gears and shafts': sums.gearHeat + synchronised,
    'tyre slip': sums.slip,
    'rolling resistance': sums.rolling,
    drag: sums.drag,
    slope: sums.grade,
    brakes: sums.brakes,
    auxiliaries: sums.auxiliaries,
  };
  const stored = {
    'motion of the car': legs.reduce((sum, { motion }) => sum + motion, 0),
    'turning parts': sums.spinUp - synchronised + raised,
    polarisation: polarisationEnergy(parameters.pack, pack.pair1, pack.pair2) - skippedPolarisation,
  };
  const plugged = run.plugs.reduce((sum, { terminals }) => sum + terminals, 0);
  const total = (part: object): number => Object.values(part).reduce((sum: number, each: number) => sum + each, 0);
  // The throughput: a schedule down a hill may take nothing out of the pack.
  const through = Math.max(Math.abs(chemical + skippedChemical), out.brakes, out.drag + out['rolling resistance'], 1);
  const gap = (chemical + plugged - total(out) - total(stored)) / Math.max(through, plugged);
  const given = run.plugs.length === 0 ? {} : { 'from the charger': plugged };
  return { in: { 'out of the cells': chemical, ...given }, out, stored, gap };
}
