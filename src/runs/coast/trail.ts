/** The trail of a coast-down. */
import { nth } from '../../columns.ts';
import type { Side } from '../../model/backward/state.ts';
import type { Car } from '../../model/car.ts';
import { halfShafts, wheelsOf } from '../trail/forward.ts';
import { Trail } from '../trail/trail.ts';
import type { CoastRun } from './run.ts';

/** s; steps that are longer are looked at in parts. */
const LONGEST = 0.5;

export function coastTrail({ coasting, solution }: CoastRun, car: Car): Trail {
  const trail = new Trail();
  const wheels = wheelsOf(car);
  const { states, quadratures, following } = coasting;
  const { front, rear, pack, powers } = following;
  const row = new Float64Array(states + quadratures);
  const y = new Float64Array(states + 1);
  const out = new Float64Array(states + quadratures);
  for (let k = 1; k < solution.nodes; k++) {
    const [start, end] = [nth(solution.times, k - 1), nth(solution.times, k)];
    if (!(end > start)) continue;
    trail.addBetween(start, end, LONGEST, (time, point) => {
      const mode = nth(solution.modes, solution.at(time, row));
      y.set(row.subarray(0, states));
      y[states] = time;
      coasting.rates(mode, y, out);
      const voltage = pack.emf - pack.resistance * pack.current;
      const currentOf = ({ axle, at }: Side): number => (axle.driven ? at.power / voltage : 0);
      point.pack = pack.current;
      point.voltage = voltage;
      point.front = currentOf(front);
      point.rear = currentOf(rear);
      point.consumers = powers.auxiliaries / voltage;
      point.frontTorque = halfShafts(front.axle, front.at, front.roll, wheels.front);
      point.rearTorque = halfShafts(rear.axle, rear.at, rear.roll, wheels.rear);
      point.speed = following.speed;
      point.heat = powers.unitHeat;
      point.wall = 0;
    });
  }
  return trail;
}
