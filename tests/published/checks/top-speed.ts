import type { Car } from '../../../src/model/car.ts';
import { balanceOf } from '../../../src/runs/sheet/balance.ts';
import { topSpeed } from '../../../src/runs/sheet/top-speed.ts';
import { CLOSED_FORM, EXACT } from '../check.ts';
import type { Topic } from '../check.ts';
import { idealCar, roadWithDensity } from '../ideal.ts';

const STANDARD = 9.80665;

function fastest(car: Car): number {
  return topSpeed(balanceOf(car, roadWithDensity()))?.speed ?? Number.NaN;
}

export const top: Topic = {
  title: 'Top speed',
  checks: [
    {
      id: 'top-speed.power',
      what: '80 kW against 150 N + 0.441 v²',
      source: `${CLOSED_FORM}: root of k v³ + F v = P`,
      expected: 196.584478045,
      computed: () =>
        fastest(
          idealCar({
            mass: 1250,
            force: 1e5,
            power: 80e3,
            dragArea: 0.72,
            rolling: { c0: 150 / (1250 * STANDARD) },
          }),
        ) * 3.6,
      unit: 'km/h',
      tolerance: EXACT,
    },
    {
      id: 'top-speed.power.drag',
      what: '80 kW against 0.441 v²',
      source: `${CLOSED_FORM}: (P/k)^(1/3)`,
      expected: 56.6087805025,
      computed: () => fastest(idealCar({ mass: 1250, force: 1e5, power: 80e3, dragArea: 0.72 })),
      unit: 'm/s',
      tolerance: EXACT,
    },
    {
      id: 'top-speed.force',
      what: '3500 N against rolling 0.012 of 1200 kg and 0.441 v²',
      source: `${CLOSED_FORM}: sqrt((F - c m g)/k)`,
      expected: 87.2713629643,
      computed: () => fastest(idealCar({ mass: 1200, force: 3500, dragArea: 0.72, rolling: { c0: 0.012 } })),
      unit: 'm/s',
      tolerance: EXACT,
    },
    {
      id: 'top-speed.rule',
      what: 'power over 0.5 rho A Cd v³ at top speed, rolling 0.01 of 1250 kg',
      source: 'formula sheet of a course using "Vehicle Propulsion Systems": P_max about 0.5 rho A Cd v_max³',
      expected: 1,
      computed: () => {
        const v = fastest(idealCar({ mass: 1250, force: 1e5, power: 120e3, dragArea: 0.72, rolling: { c0: 0.01 } }));
        return 120e3 / (0.441 * v ** 3);
      },
      unit: '1',
      // An approximation that leaves rolling out: it must come out a little above 1.
      tolerance: { absolute: 0.1 },
    },
  ],
};
