/** Everything that a coast-down answers with: label, units, meaning. */
import { amperes, output, power, seconds, share, speed, wattHours } from '../output.ts';
import type { Output } from '../result.ts';

const metres = (label: string, doc: string): Output => output(label, 'm', 'm', 'ft', doc);
const slowing = (label: string, doc: string): Output => output(label, 'm/s^2', 'm/s^2', 'ft/s^2', doc);
const force = (label: string, doc: string): Output => output(label, 'N', 'N', 'lbf', doc);

/** The keys of the summary in order of display. */
export const coastOutputs: { readonly [key: string]: Output } = {
  from_speed: speed('coasts from', 'speed at which the foot comes off the pedal'),
  to_speed: speed('coasts to', 'speed at which the clock is stopped'),
  time: seconds('time to coast down', 'from the one speed to the other'),
  distance: metres('distance', 'covered in that time'),
  mean_deceleration: slowing('mean deceleration', 'loss of speed over that time'),
  deceleration_start: slowing('deceleration at the start', 'as the foot comes off'),
  deceleration_end: slowing('deceleration at the end', 'where the run ends'),
  force_start: force('force at the start', 'drag, rolling resistance, slope and drive together, at the road'),
  force_end: force('force at the end', 'the same where the run ends'),
  end_speed: speed('speed at the end', 'wished for, or the one below which the car does not get'),
  energy_motion: wattHours('energy of motion given up', 'of the car and all that turns with it'),
  energy_back: wattHours('energy into the pack', 'at its terminals, while more comes back than is drawn'),
  energy_stored: wattHours('energy stored', 'in the cells, at their open-circuit voltage'),
  recovered: share('recovered', 'energy into the pack over the energy of motion given up'),
  peak_power_back: power('highest power into the pack', 'at its terminals'),
  peak_charge_current: amperes('highest charge current', 'into the pack'),
};
