/** The mass that is moved. */
import type { Body } from '../car.ts';

/** kg of the car with its driver and load. */
export function loadedMass({ mass, driver, load }: Body): number {
  return mass + driver + load;
}
