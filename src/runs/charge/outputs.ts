/** Everything that a charge answers with: label, units, meaning. */
import { chargeCurrents } from '../duty/currents.ts';
import { amperes, hours, kilowattHours, output, power, share } from '../output.ts';
import type { Output } from '../result.ts';

/** The keys of the summary in order of display. */
export const chargeOutputs: { readonly [key: string]: Output } = {
  from: share('charged from', 'state of charge at the start'),
  to: share('charged to', 'state of charge that is wished for'),
  time: hours(
    'time to charge',
    'from plugging in until the state of charge that is wished for, or the end at C/20 less than 1 % below it',
  ),
  taper_time: hours('taper begins after', 'when the pack gets to its highest voltage, from where on the current falls'),
  end_time: hours(
    'charging ends after',
    'wished for or not: it also ends when the current has fallen to C/20 at the highest voltage',
  ),
  charge_end: share('state of charge at the end', 'when charging ends'),
  paced_by: output('paced by', '', '', '', 'what holds the charge back for the longest time'),
  energy_wall: kilowattHours('energy from the wall', 'what the meter counts'),
  energy_pack: kilowattHours('energy into the pack', 'at its terminals'),
  energy_stored: kilowattHours('energy stored', 'in the cells, at their open-circuit voltage'),
  efficiency: share('efficiency', 'energy stored over energy from the wall'),
  mean_power: power('mean power', 'from the wall'),
  peak_power: power('highest power', 'from the wall'),
  phases: output('phases used', '1', '1', '1', 'that chargers are on'),
  peak_phase_current: amperes('highest current in a phase', 'from the wall'),
  peak_charge_current: amperes('highest charge current', 'into the pack'),
  ...chargeCurrents,
  peak_pack_voltage: output('highest pack voltage', 'V', 'V', 'V', 'at its terminals while charging'),
  pack_temperature: output('warmest pack', 'K', 'degC', 'degF', 'lumped, while charging'),
  range_gained: output('range gained', 'm', 'km', 'mile', 'at the consumption given'),
  range_per_hour: output('range per hour', 'm/s', 'km/h', 'mph', 'range gained over the time at the charger'),
  cost: output('cost', '1', '1', '1', 'energy from the wall at the price given, in the money of the price'),
};
