/** A car that stands switched off: everything goes towards the temperature of the air, and the polarisation of the pack fades. */
import type { Car } from '../../model/car.ts';
import { polarisationEnergy } from '../../model/pack/state.ts';
import { A, AXLE_SIZE, P } from '../../model/backward/blocks.ts';
import type { Follower } from './follower.ts';

/**
 * Closed forms: what is lumped cools as exp(-t cooling / capacity), and the polarisation fades with its time constant, its energy
 * going into the pack as heat. Nothing is drawn. @returns J of polarisation that became heat.
 */
export function soak(follower: Follower, seconds: number, cabin: { inside: number }, car: Car): number {
  const { p, parameters } = follower.inner;
  const cells = parameters!.pack;
  const { charge, polarisation, pack, units } = follower.state();
  const air = p[P.air]!;
  const [first, second] = polarisation;
  const faded = [
    cells.pairs > 0 ? first * Math.exp(-seconds / cells.time1) : 0,
    cells.pairs > 1 ? second * Math.exp(-seconds / cells.time2) : 0,
  ] as const;
  const heat = polarisationEnergy(cells, first, second) - polarisationEnergy(cells, ...faded);
  // Polarisation fades in minutes, the warmth of the pack in hours: its heat counts from the start.
  const warmed = pack + heat / cells.heatCapacity;
  const rested = air + (warmed - air) * Math.exp((-seconds * cells.cooling) / cells.heatCapacity);
  const cooled = units.map((unit, axle) => {
    const o = P.axle0 + axle * AXLE_SIZE;
    const capacity = p[o + A.unitCapacity]!;
    return capacity > 0 ? air + (unit - air) * Math.exp((-seconds * p[o + A.unitCooling]!) / capacity) : unit;
  });
  follower.setState({
    charge,
    polarisation: faded,
    pack: rested,
    units: [cooled[0]!, cooled[1]!],
  });
  const { loss, heatCapacity } = car.cabin;
  const rate = heatCapacity > 0 ? loss / heatCapacity : 0;
  cabin.inside = air + (cabin.inside - air) * (rate > 0 ? Math.exp(-seconds * rate) : 0);
  return heat;
}
