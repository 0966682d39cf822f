/** Everything that a drive answers with: label, units, meaning. */
import type { Output } from '../result.ts';

function output(label: string, unit: string, metric: string, imperial: string, doc: string): Output {
  return { label, unit, display: { metric, imperial }, doc };
}

export const perDistance = (label: string, doc: string): Output => output(label, 'J/m', 'Wh/km', 'Wh/mile', doc);
export const distance = (label: string, doc: string): Output => output(label, 'm', 'km', 'mile', doc);
export const energy = (label: string, doc: string): Output => output(label, 'J', 'kWh', 'kWh', doc);
export const share = (label: string, doc: string): Output => output(label, '1', '%', '%', doc);
export const seconds = (label: string, doc: string): Output => output(label, 's', 's', 's', doc);
export const hours = (label: string, doc: string): Output => output(label, 's', 'h', 'h', doc);
export const speed = (label: string, doc: string): Output => output(label, 'm/s', 'km/h', 'mph', doc);
export const temperature = (label: string, doc: string): Output => output(label, 'K', 'degC', 'degF', doc);
export const number = (label: string, doc: string): Output => output(label, '1', '1', '1', doc);
const volts = (label: string, doc: string): Output => output(label, 'V', 'V', 'V', doc);
const amperes = (label: string, doc: string): Output => output(label, 'A', 'A', 'A', doc);
export const power = (label: string, doc: string): Output => output(label, 'W', 'kW', 'kW', doc);
export const words = (label: string, doc: string): Output => output(label, '', '', '', doc);

/** The keys of the summary in order of display. */
export const driveOutputs: { readonly [key: string]: Output } = {
  trip: words('trip', 'what is driven'),
  air_temperature: temperature('air', 'temperature of the air'),
  distance: distance('distance', 'driven'),
  time: hours('time', 'of driving, stops of the trip left aside'),
  mean_speed: speed('mean speed', 'over the time of driving'),
  max_speed: speed('highest speed', 'of the car'),
  consumption: perDistance(
    'consumption at the pack',
    'energy out of the terminals of the pack, what came back taken off, over distance',
  ),
  consumption_wall: perDistance(
    'consumption at the wall',
    'energy that charging with the chargers on board takes from the wall, over distance',
  ),
  litres_equivalent: number(
    'L/100 km equivalent',
    'at the wall; 33.705 kWh for a US gallon of petrol (fueleconomy.gov)',
  ),
  mpg_equivalent: number('mpg equivalent', 'at the wall; 33.705 kWh for a US gallon of petrol (fueleconomy.gov)'),
  energy: energy('energy out of the pack', 'at its terminals, what came back taken off'),
  returned: energy('energy that came back', 'into the terminals of the pack while slowing down'),
  brakes: energy('energy in the brakes', 'what slowing down did not bring back'),
  braking_recovered: share('braking recovered', 'what came back over what came back and what went into the brakes'),
  auxiliaries_share: share(
    'share of the consumers',
    'lights, pumps, heating and cooling, of the energy out of the pack',
  ),
  charge_start: share('state of charge at the start', 'before the first schedule'),
  charge_end: share('state of charge at the end', 'after the last schedule'),
  time_late: seconds('time too slow', 'more than 2 km/h below the schedule within 1 s (UN GTR No. 15)'),
  distance_missed: distance('distance missed', 'that the schedules have and the car did not drive'),
  limited_time: seconds('time at a limit', 'in which the car could not do what the schedule asks'),
  limiter: words('held back by', 'what held the car back for the longest time while it could not follow'),
  min_voltage: volts('lowest pack voltage', 'mean over an interval of the schedule'),
  max_current: amperes('highest pack current', 'mean over an interval of the schedule'),
  max_power: power('highest pack power', 'mean over an interval of the schedule'),
  pack_temperature: temperature('warmest pack', 'lumped'),
  pack_temperature_end: temperature('pack at the end', 'lumped'),
  unit_temperature: temperature('warmest drive unit', 'lumped'),
  shifts: number('changes of gear', 'with a gearbox'),
};
