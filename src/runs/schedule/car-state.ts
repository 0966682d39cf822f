/** A car is taken, with its state or another one. */
import * as elementary from '../../elementary.ts';
import { takeFigures } from '../../model/backward/load.ts';
import type { FollowParameters } from '../../model/backward/load.ts';
import { drivenPackAt, forgetStretch } from '../../model/backward/pack-step.ts';
import { clearPowers } from '../../model/backward/state.ts';
import { fastest } from './instant.ts';
import { FollowTotals } from './journey.ts';
import type { CarState, Journey } from './journey.ts';
import { forgetSteps } from './memory.ts';

export function loadCar(car: Journey, parameters: FollowParameters): void {
  car.following.pack.heat = 0;
  clearPowers(car.sums);
  forgetSteps(car);
  Object.assign(car.totals, new FollowTotals());
  const { air } = parameters.car;
  reloadCar(car, parameters);
  setState(car, { charge: parameters.charge, polarisation: [0, 0], pack: air, units: [air, air], tyres: [1, 1] });
}

export function reloadCar(car: Journey, parameters: FollowParameters): void {
  const { following } = car;
  const { pack, moving, front, rear } = following;
  takeFigures(following, parameters);
  pack.air = parameters.car.air;
  car.parameters = parameters;
  car.warms = front.axle.unitCapacity < Infinity || rear.axle.unitCapacity < Infinity;
  car.fastest = fastest(car);
  forgetStretch(pack);
  drivenPackAt(moving.pack, pack);
}

export function setState(
  { following, tyres, parameters }: Journey,
  { charge, polarisation, pack, units, spent = [0, 0], tyres: cold = [0, 0] }: CarState,
): void {
  tyres.front = parameters?.warmingFront ? Math.sqrt(cold[0]) : 0;
  tyres.rear = parameters?.warmingRear ? Math.sqrt(cold[1]) : 0;
  const { front, rear, moving } = following;
  following.pack.charge = charge;
  [following.pack.pair1, following.pack.pair2] = polarisation;
  following.pack.temperature = pack;
  [following.pack.spent, following.pack.spentCharge] = spent;
  [front.at.temperature, rear.at.temperature] = units;
  drivenPackAt(moving.pack, following.pack);
}

export function stateOf({ following: { pack, front, rear }, tyres }: Journey): CarState {
  return {
    charge: pack.charge,
    polarisation: [pack.pair1, pack.pair2],
    pack: pack.temperature,
    units: [front.at.temperature, rear.at.temperature],
    spent: [pack.spent, pack.spentCharge],
    tyres: [elementary.pow(tyres.front, 2), elementary.pow(tyres.rear, 2)],
  };
}
