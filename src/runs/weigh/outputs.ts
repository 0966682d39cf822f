/** Everything a weighing answers with, described once: label, units, meaning. */
import { mass, output, place, share, words } from '../output.ts';
import type { Output } from '../result.ts';

const OVER = 'what may still be added, the car fully loaded; below zero it is too much';

/** The balance of one state; `prefix` is what stands before each key. */
function state(prefix: string, words: string): { readonly [key: string]: Output } {
  return {
    [`${prefix}front`]: mass(`front axle, ${words}`, 'load on both front wheels'),
    [`${prefix}rear`]: mass(`rear axle, ${words}`, 'load on both rear wheels'),
    [`${prefix}front_share`]: share(`front share, ${words}`, 'part of the mass on the front axle'),
    [`${prefix}cg_x`]: place(`centre of gravity behind the front axle, ${words}`, 'along the car'),
    [`${prefix}cg_height`]: place(
      `centre of gravity above the road, ${words}`,
      'rests on the height given or assumed for before',
    ),
  };
}

/** The keys of a weighing in order of display. Those without a prefix are with the driver, as a car cell takes them. */
export const weighOutputs: { readonly [key: string]: Output } = {
  kerb_mass: mass('kerb mass', 'the car as it is now, nobody in it'),
  mass_change: mass('change of the kerb mass', 'against before; below zero it has become lighter'),
  kerb_mass_before: mass('kerb mass before', 'sum of the scales'),
  driven_mass: mass('mass with the driver', 'kerb mass and driver'),
  full_mass: mass(
    'mass fully loaded',
    'kerb mass, driver, passengers and luggage, and what of a trailer rests on the hitch',
  ),
  front_share: share('front share, with the driver', 'as a car cell takes it'),
  cg_x: place('centre of gravity behind the front axle, with the driver', 'along the car'),
  cg_height: place('centre of gravity above the road, with the driver', 'as a car cell takes it'),
  front: mass('front axle, with the driver', 'load on both front wheels'),
  rear: mass('rear axle, with the driver', 'load on both rear wheels'),
  wheelbase: place('wheelbase', 'as given'),
  ...state('before_', 'empty, before'),
  ...state('kerb_', 'empty, now'),
  ...state('full_', 'fully loaded'),
  front_share_change: share(
    'change of the front share, empty',
    'against before; below zero the nose has become lighter',
  ),
  payload: mass('payload', 'permitted gross mass less the kerb mass: for driver, passengers and luggage'),
  gross_margin: mass('left to the permitted gross mass', OVER),
  train_mass: mass('mass of car and trailer', 'fully loaded; what rests on the hitch counts once'),
  train_margin: mass('left to the permitted mass of car and trailer', OVER),
  hitch_margin: mass('left to what may rest on the hitch', OVER),
  front_margin: mass('left to the permitted front axle load', OVER),
  rear_margin: mass('left to the permitted rear axle load', OVER),
  front_tyre_margin: mass('left to what the front tyres carry', `${OVER}; both tyres together`),
  rear_tyre_margin: mass('left to what the rear tyres carry', `${OVER}; both tyres together`),
  tyre_speed: output('the tyres may run', 'm/s', 'km/h', 'mph', 'by the speed symbol; the slower of the two axles'),
  move: words('the thing to be moved', 'the one that the cell names'),
  move_by: place('it must move by', 'backwards; below zero forwards, for the front share that is to be kept'),
  move_to: place('its place then', 'behind the front axle'),
};
