/** Everything a launch answers with, described once: label, units, meaning. */
import { DISTANCE_MARKS, DISTANCE_WORDS, SPEED_MARKS, SPEED_WORDS } from './marks.ts';
import type { DistanceMark, SpeedMark } from './marks.ts';
import { launchCurrents } from '../duty/currents.ts';
import { output, seconds, share, speed, temperature, torque, wattHours } from '../output.ts';
import type { Output } from '../result.ts';

const ROLLOUT_DOC = 'as above, the clock starting when the car has moved one foot (0.3048 m)';

function timed(): { readonly [key: string]: Output } {
  const outputs: { [key: string]: Output } = {};
  for (const mark of Object.keys(SPEED_MARKS) as SpeedMark[]) {
    outputs[`time_to_${mark}`] = seconds(`to ${SPEED_WORDS[mark]}`, 'from the pedal going down');
  }
  outputs['time_50_to_80_km_h'] = seconds('50 to 80 km/h', 'at full pedal, taken out of the same run');
  outputs['time_80_to_120_km_h'] = seconds('80 to 120 km/h', 'at full pedal, taken out of the same run');
  for (const mark of Object.keys(DISTANCE_MARKS) as DistanceMark[]) {
    const words = DISTANCE_WORDS[mark];
    outputs[`time_${mark}`] = seconds(words, 'from the pedal going down');
    outputs[`speed_${mark}`] = speed(`speed at ${words}`, 'at the end of the distance');
  }
  for (const mark of Object.keys(SPEED_MARKS) as SpeedMark[]) {
    outputs[`time_to_${mark}_rollout`] = seconds(`to ${SPEED_WORDS[mark]}, after rollout`, ROLLOUT_DOC);
  }
  for (const mark of Object.keys(DISTANCE_MARKS) as DistanceMark[]) {
    outputs[`time_${mark}_rollout`] = seconds(`${DISTANCE_WORDS[mark]}, after rollout`, ROLLOUT_DOC);
  }
  return outputs;
}

/** The keys of a launch's summary in order of display. */
export const launchOutputs: { readonly [key: string]: Output } = {
  target_speed: speed('target speed', 'named by `to`; 100 km/h where it is left out'),
  time: seconds('to the target speed', 'from the pedal going down to the speed named by `to`'),
  ...timed(),
  top_speed: speed('top speed', 'where drive and resistance balance, at the charge of the start'),
  top_speed_limiter: output('top speed is set by', '', '', '', 'what holds the car back there'),
  peak_acceleration: output('peak acceleration', 'm/s^2', 'm/s^2', 'ft/s^2', 'greatest of the run'),
  peak_wheel_torque: torque('peak wheel torque', 'at both driven wheels together'),
  peak_shaft_torque: torque('peak half-shaft torque', 'both half shafts together, spin-up of the wheels included'),
  peak_motor_torque: torque('peak motor torque', 'at the motor shaft'),
  peak_motor_power: output('peak motor power', 'W', 'kW', 'hp', 'at the motor shaft'),
  peak_motor_speed: output('peak motor speed', 'rad/s', 'rpm', 'rpm', 'greatest of the run'),
  peak_slip: share('peak slip', 'of the driven tyres (ISO 8855)'),
  peak_pack_current: output('peak pack current', 'A', 'A', 'A', 'greatest of the run'),
  peak_pack_power: output('peak pack power', 'W', 'kW', 'kW', 'at the terminals of the pack'),
  lowest_pack_voltage: output('lowest pack voltage', 'V', 'V', 'V', 'at the inverter, under load'),
  ...launchCurrents,
  energy_used: wattHours('energy out of the pack', 'at the terminals, over the whole run'),
  unit_temperature: temperature('drive unit at the end', 'lumped, where a continuous power is given'),
  pack_temperature: temperature('pack at the end', 'lumped'),
  grip_time: seconds('time at the grip limit', 'of the whole run'),
  grip_distance: output('distance at the grip limit', 'm', 'm', 'ft', 'of the whole run'),
  grip_withheld: share(
    'drive energy held back by grip',
    'share of what the drive unit could have given up to 100 km/h, or to a target speed below it, that the tyres could not put down',
  ),
  slip_energy: wattHours('energy lost in tyre slip', 'up to 100 km/h, or to a target speed below it'),
  time_without_control: seconds(
    'time without traction control',
    'to 100 km/h, or to a target speed below it: the same car with the pedal flat and the wheels free to spin',
  ),
  control_worth: seconds('what traction control is worth', 'that time less the one with the slip held at the peak'),
  slip_energy_without_control: wattHours(
    'tyre slip without traction control',
    'up to 100 km/h, or to a target speed below it, with the wheels free to spin',
  ),
  slip_energy_with_control: wattHours(
    'tyre slip with ideal traction control',
    'up to 100 km/h, or to a target speed below it, with the slip held at the peak of friction',
  ),
  grip_free_speed: speed('grip no longer matters above', 'speed at which the grip limit is left for good'),
  time_unlimited_grip: seconds('to 100 km/h with unlimited grip', 'the same car on tyres that never slip away'),
  friction_enough: output(
    'friction that would be enough',
    '1',
    '1',
    '1',
    'peak friction at which grip never limits up to 100 km/h',
  ),
  gain_per_friction: seconds('gained by 0.1 more friction', 'off the time to 100 km/h'),
  power_enough: output(
    'power beyond which nothing is gained',
    'W',
    'kW',
    'hp',
    'peak power of all drive units together above which the time to 100 km/h falls by less than 0.01 s more, torque unchanged',
  ),
};
