/** Everything that a drive answers with: label, units, meaning. */
import { travelCurrents } from '../duty/currents.ts';
import {
  amperes,
  distance,
  hours,
  kilowattHours,
  number,
  output,
  perDistance,
  power,
  seconds,
  share,
  speed,
  temperature,
  volts,
  words,
} from '../output.ts';
import type { Output } from '../result.ts';

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
  energy: kilowattHours('energy out of the pack', 'at its terminals, what came back taken off'),
  returned: kilowattHours('energy that came back', 'into the terminals of the pack while slowing down'),
  brakes: kilowattHours('energy in the brakes', 'what slowing down did not bring back'),
  braking_recovered: share('braking recovered', 'what came back over what came back and what went into the brakes'),
  auxiliaries_share: share(
    'share of the consumers',
    'lights, pumps, heating and cooling, of the energy out of the pack',
  ),
  energy_plugged: kilowattHours('energy at the plugs', 'from the wall at the stops of the trip'),
  charge_start: share('state of charge at the start', 'before the first schedule'),
  charge_end: share('state of charge at the end', 'after the last schedule'),
  time_too_slow: seconds('time too slow', 'more than 2 km/h below the schedule within 1 s (UN GTR No. 15)'),
  time_lost: seconds('arrives late by', 'what is missed of the way, at the speeds that the schedule has there'),
  distance_missed: output('distance missed', 'm', 'm', 'ft', 'that the schedules have and the car did not drive'),
  limited_time: seconds('time at a limit', 'in which the car could not do what the schedule asks'),
  limiter: words('held back by', 'what held the car back for the longest time while it could not follow'),
  min_voltage: volts('lowest pack voltage', 'mean over an interval of the schedule'),
  max_current: amperes('highest pack current', 'mean over an interval of the schedule'),
  ...travelCurrents,
  max_power: power('highest pack power', 'mean over an interval of the schedule'),
  pack_temperature: temperature('warmest pack', 'lumped'),
  pack_temperature_end: temperature('pack at the end', 'lumped'),
  unit_temperature: temperature('warmest drive unit', 'lumped'),
  shifts: number('changes of gear', 'with a gearbox'),
};
