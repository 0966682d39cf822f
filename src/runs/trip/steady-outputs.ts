/** Everything that a steady speed answers with: label, units, meaning. */
import { travelCurrents } from '../duty/currents.ts';
import { distance, hours, perDistance, power, speed, temperature } from '../output.ts';
import type { Output } from '../result.ts';

/** The keys of the summary in order of display. */
export const steadyOutputs: { readonly [key: string]: Output } = {
  speed: speed('speed', 'that is asked about'),
  air_temperature: temperature('air', 'temperature of the air'),
  range: distance('range', 'at that speed until the car stops giving power'),
  time: hours('time', 'until then'),
  consumption: perDistance('consumption at the pack', 'energy out of the terminals of the pack over distance'),
  consumption_wall: perDistance('consumption at the wall', 'energy that charging takes from the wall over distance'),
  power: power('mean pack power', 'at the terminals'),
  ...travelCurrents,
  farthest_speed: speed('speed of the longest range', 'among the speeds of the curve'),
  farthest: distance('longest range', 'at that speed'),
};
