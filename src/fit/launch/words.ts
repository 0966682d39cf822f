/** What launches do not tell, in words. */
import type { Shortcoming } from '../problem.ts';
import type { LaunchMeasurement } from './measurement.ts';
import { type LaunchParameter, PARAMETER_KINDS } from './parameters.ts';

/** What the bus of a car told in some of the logs. */
export interface Beside {
  readonly wheel: boolean;
  readonly power: boolean;
}

export function besideOf(logs: LaunchMeasurement['logs']): Beside {
  return {
    wheel: logs.some(({ wheel, ofWheels }) => wheel !== undefined || ofWheels === true),
    power: logs.some(({ power }) => power !== undefined),
  };
}

export function shortOf(weak: readonly LaunchParameter[], beside: Beside): Shortcoming {
  const names = weak.map(each => PARAMETER_KINDS[each].name).join(' and ');
  if (weak.includes('mass') && beside.power)
    return {
      what: `the power of the pack is what moves the car and what is lost on the way: ${names} can not be told ${weak.length > 1 ? 'apart' : 'to 3 %'}`,
      cure: 'the mass from the scales, or fit: with power, torque and mass alone and losses that are known better',
    };
  if (weak.includes('mass'))
    return {
      what: `speed over time gives power over mass, never both: ${names} can not be told apart`,
      cure: 'the mass from the scales, and fit: without mass; or the power of the pack beside the speed',
    };
  if (weak.includes('grip') && weak.includes('torque') && !beside.wheel)
    return {
      what: `${names} can not be told apart by the speed of the car: either holds the start back alike`,
      cure: 'the speed of the driven wheels, or fit: with one of them',
    };
  return {
    what: `${names} can not be told ${weak.length > 1 ? 'apart ' : ''}by this log`,
    cure: 'more launches, more rows a second, a level road both ways, or fit: with fewer of them',
  };
}

export function untoldOf(parameter: LaunchParameter, { wheel, power }: Beside): string {
  const tells = wheel
    ? ', and the slip of the wheels does not tell more'
    : '; whether that is so or %, only the speed of the driven wheels tells';
  const why: { readonly [key in LaunchParameter]: string } = {
    power: 'the launch is not held back by power for long enough',
    power_at_top: 'the log does not go far enough beyond the corner of torque and power',
    grip: `the tyres never hold it back${tells.replace('%', 'torque is low')}`,
    torque: `torque never holds it back${tells.replace('%', 'grip is low')}`,
    torque_rise: 'it is hidden behind the time zero at so few rows a second, or behind grip',
    copper_loss: power ? 'the other losses and the meter are not known well enough' : 'it takes the power of the pack',
    mass: 'speed over time gives power over mass',
  };
  return `the ${PARAMETER_KINDS[parameter].name} can not be told and stays as the car cell has it: ${why[parameter]}`;
}

/** What must be known before any number, of these logs. */
export function apartOf({ wheel, power }: Beside): string {
  const mass = power
    ? 'speed over time gives power over mass, and the power of the pack what moves the car and what is lost: of mass and losses one must be known'
    : 'speed over time gives power over mass, so the mass is that of the scales';
  const grip = wheel
    ? 'grip and torque part by how much the driven wheels slip'
    : 'grip and torque part only where each holds the car back for a while, or by the speed of the driven wheels';
  return `What can not be told apart: ${mass}; ${grip}`;
}
