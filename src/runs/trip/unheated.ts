/** What must stand beside a figure of a cold day on which nobody is kept warm. */
import type { Car, Surroundings } from '../../model/car.ts';
import { celsius } from '../../units/rounding.ts';

/** K outside below which people heat a car: 10 degC. Common practice, no source. */
const COLD = 283.15;

/** A sentence without a full stop, where no heater is given and it is cold. */
export function unheated({ cabin }: Car, { temperature }: Surroundings): readonly string[] {
  if (cabin.heater !== 'none' || temperature >= COLD) return [];
  return [
    `Nothing is heated here, at ${celsius(temperature)} outside: what a heater takes comes on top, cabin: { heater: resistive } counts it`,
  ];
}
