/** Everything that a standard range test answers with: label, units, meaning. */
import { distance, kilowattHours, number, perDistance, seconds, share, words } from '../output.ts';
import type { Output } from '../result.ts';

const CITY = 'of the four UDDS of the multi-cycle test, or of a test on the UDDS';
const HIGHWAY = 'of the two HWFET of the multi-cycle test, or of a test on the HWFET';

/** The keys of the summary in order of display. */
export const standardOutputs: { readonly [key: string]: Output } = {
  test: words('test', 'what is driven, over and over until the pack is empty'),
  range: distance('range', 'as tested; of city and highway the mean by 55 to 45'),
  consumption_wall: perDistance(
    'consumption at the wall',
    'energy that charging takes from the wall, as tested; of city and highway the mean by 55 to 45',
  ),
  consumption: perDistance('consumption at the pack', 'energy out of the terminals, weighted as for the range'),
  mpg_equivalent: number(
    'mpg equivalent',
    'at the wall, as tested; 33.705 kWh for a US gallon of petrol (fueleconomy.gov)',
  ),
  range_city: distance('city range', CITY),
  range_highway: distance('highway range', HIGHWAY),
  consumption_city: perDistance('city consumption at the wall', CITY),
  consumption_highway: perDistance('highway consumption at the wall', HIGHWAY),
  sticker_range: distance('range on a window sticker', 'range times 0.7, the adjustment for US labels'),
  sticker_consumption: perDistance('consumption on a window sticker', 'at the wall, over 0.7'),
  sticker_mpg: number('mpg equivalent on a window sticker', 'times 0.7'),
  usable_energy: kilowattHours('usable energy', 'out of the terminals of the pack over the whole test'),
  wall_energy: kilowattHours('energy to charge it again', 'from the wall, by the chargers on board'),
  distance: distance('distance driven', 'over the whole test'),
  cycles: number('whole cycles', 'that were driven to their end'),
  first_share: share('weight of the first cycle', 'its share of the usable energy; the others share the rest evenly'),
  steady_share: share('share of steady driving', 'of the distance, at 65 mph, in the multi-cycle test'),
  time_too_slow: seconds('time too slow', 'more than 2 km/h below the schedule within 1 s (UN GTR No. 15)'),
};
