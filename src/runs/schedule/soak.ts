/** A car that stands switched off: everything goes towards the temperature of the air, and the polarisation of the pack fades. */
import * as elementary from '../../elementary.ts';
import type { Car } from '../../model/car.ts';
import { recovered } from '../../model/pack/balance.ts';
import { polarisationEnergy } from '../../model/pack/state.ts';
import type { AxleFigures } from '../../model/forward/figures.ts';
import type { Follower } from './follower.ts';
import { coldAfterRest } from './tyre-warmth.ts';

/**
 * Closed forms: what is lumped cools as exp(-t cooling / capacity), and the polarisation fades with its time constant, its energy
 * going into the pack as heat. Nothing is drawn. @returns J of polarisation that became heat.
 */
export function soak(follower: Follower, seconds: number, cabin: { inside: number }, car: Car): number {
  const { moving } = follower.inner.following;
  const cells = moving.pack;
  const { charge, polarisation, pack, units, spent = [0, 0], tyres = [0, 0] } = follower.state();
  const { warmth } = follower.pack;
  const { air } = moving.car;
  const [first, second] = polarisation;
  const faded = [
    cells.pairs > 0 ? first * elementary.exp(-seconds / (cells.ohm1 * warmth * cells.farad1)) : 0,
    cells.pairs > 1 ? second * elementary.exp(-seconds / (cells.ohm2 * warmth * cells.farad2)) : 0,
  ] as const;
  const heat = polarisationEnergy(cells, first, second) - polarisationEnergy(cells, ...faded);
  // Polarisation fades in minutes, the warmth of the pack in hours: its heat counts from the start.
  const warmed = pack + heat / cells.heatCapacity;
  const rested = air + (warmed - air) * elementary.exp((-seconds * cells.cooling) / cells.heatCapacity);
  const cooled = (unit: number, { unitCapacity, unitCooling, driven }: AxleFigures): number =>
    driven ? air + (unit - air) * elementary.exp((-seconds * unitCooling) / unitCapacity) : unit;
  follower.setState({
    charge,
    polarisation: faded,
    pack: rested,
    units: [cooled(units[0], moving.front), cooled(units[1], moving.rear)],
    spent: recovered(cells, ...spent, seconds),
    tyres: coldAfterRest(tyres, seconds, follower.inner.parameters),
  });
  const { loss, heatCapacity } = car.cabin;
  const rate = heatCapacity > 0 ? loss / heatCapacity : 0;
  cabin.inside = air + (cabin.inside - air) * (rate > 0 ? elementary.exp(-seconds * rate) : 0);
  return heat;
}
