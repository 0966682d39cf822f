/** A measured road load in place of rolling resistance and drag. */
import { airDensity } from '../air.ts';
import { filler } from '../fields/filler.ts';
import type { Body, Car, Tyre } from '../car.ts';
import { STANDARD_GRAVITY } from '../gravity.ts';
import { rollingAtTemperature } from '../tyre/rolling.ts';
import type { Input } from '../fields/input.ts';
import { roadLoadFields } from './road-load-fields.ts';
import type { CarSpec } from '../spec.ts';
import type { SpecOf } from '../fields/table.ts';
import { loadedMass } from './loaded-mass.ts';

/**
 * F0 and F1 become coefficients of rolling resistance, alike on all wheels: c0 = F0 / (m g), c1 = F1 / (m g) with the mass of
 * the test, so that they go with the load, at the temperature of the test. F2 becomes a drag area in the air to which the test is corrected: so
 * both follow the day's air. Lift and the drag of the hubs are taken as nothing: they are in it already.
 * @throws SpecError
 */
export function completeRoadLoad(
  path: string,
  spec: SpecOf<typeof roadLoadFields> | undefined,
  body: Body,
  tyres: Car['tyres'],
  inputs: Input[],
): Pick<Car, 'body' | 'tyres'> {
  if (spec === undefined) return { body, tyres };
  const fill = filler(path, roadLoadFields, spec, inputs);
  const mass = fill.derived('testMass', () => loadedMass(body));
  const temperature = fill.number('temperature');
  const weight = mass * STANDARD_GRAVITY * rollingAtTemperature(temperature);
  const rolling = { c0: fill.number('f0') / weight, c1: fill.number('f1') / weight, c2: 0 };
  const rho = airDensity(temperature, fill.number('pressure'), 0);
  const measured = (tyre: Tyre): Tyre => ({ ...tyre, rolling });
  return {
    body: { ...body, dragArea: (2 * fill.number('f2')) / rho, liftAreaFront: 0, liftAreaRear: 0, hubDrag: 0 },
    tyres: { front: measured(tyres.front), rear: measured(tyres.rear) },
  };
}

/**
 * Share of the iron loss of the drives that the measured road load contains; null where there is none, or where the drive did
 * not turn along. A kept gearbox is out of gear for a coast-down unless it is said otherwise.
 * @throws SpecError
 */
export function containedShare(path: string, spec: CarSpec, inputs: Input[]): number | null {
  const { roadLoad, drive, secondDrive } = spec;
  if (roadLoad === undefined) return null;
  const fill = filler(path, roadLoadFields, roadLoad, inputs);
  const geared = drive?.gearbox !== undefined || secondDrive?.gearbox !== undefined;
  const usual = geared ? { value: 'no', source: 'a kept gearbox is out of gear for a coast-down' } : undefined;
  return fill.choice('coupled', usual) === 'yes' ? fill.number('contained') : null;
}
